import { readdir } from 'node:fs/promises';
import { SerialPort } from 'serialport';

/** A serial port of this machine. The ids are those of its USB adapter, where it has one. */
export interface SerialPortInfo {
  readonly path: string;
  readonly serialNumber?: string;
  readonly vendorId?: string;
  readonly productId?: string;
}

/** Which adapter a device hangs on, whatever name the port has today. Every id that is given must agree. */
export interface PortIdentity {
  readonly serialNumber?: string;
  readonly vendorId?: string;
  readonly productId?: string;
}

/** The library's own type of a port is not exported where the checker finds it. */
type ListedPort = { readonly path: string } & Readonly<
  Partial<Record<'serialNumber' | 'vendorId' | 'productId', string | undefined>>
>;

/** The serial ports; without udev, which the library asks for the ids, only the names of USB ports. */
export async function listSerialPorts(): Promise<readonly SerialPortInfo[]> {
  try {
    const ports = (await SerialPort.list()) as readonly ListedPort[];
    return ports.map(({ path, serialNumber, vendorId, productId }) => ({
      path,
      ...(serialNumber === undefined ? {} : { serialNumber }),
      ...(vendorId === undefined ? {} : { vendorId }),
      ...(productId === undefined ? {} : { productId }),
    }));
  } catch {
    const names = await readdir('/dev').catch((): string[] => []);
    return names.filter((name) => /^tty(USB|ACM)\d+$/.test(name)).map((name) => ({ path: `/dev/${name}` }));
  }
}

/** The only port with this identity; null when there is none or more than one, because a guess could be wrong. */
export function portWithIdentity(ports: readonly SerialPortInfo[], identity: PortIdentity): SerialPortInfo | null {
  const same = (wanted: string | undefined, found: string | undefined): boolean =>
    wanted === undefined || wanted.toLowerCase() === found?.toLowerCase();
  const matching = ports.filter(
    (port) =>
      same(identity.serialNumber, port.serialNumber) &&
      same(identity.vendorId, port.vendorId) &&
      same(identity.productId, port.productId),
  );
  return matching.length === 1 ? (matching[0] ?? null) : null;
}
