import { portWithIdentity, type PortIdentity } from './serial-ports.ts';
import type { Closed, Connection, LinkEvents, TransportFactory } from './transport.ts';

/** Weighing devices: usage page 0x8D of the USB HID Point of Sale Usage Tables v1.02 (2001), section 4. */
export const WEIGHING_PAGE = 0x8d;

/** A HID device of this machine; ids as four hexadecimal digits, as the serial adapters have them. */
export interface HidInfo {
  readonly path: string;
  readonly vendorId: string;
  readonly productId: string;
  readonly serialNumber?: string;
  readonly name: string;
  /** missing where the system does not tell */
  readonly usagePage?: number;
}

/** An opened HID device. */
export interface HidReader {
  close(): Promise<void>;
}

export interface HidReaderEvents {
  /** one input report, its number first */
  report(bytes: Uint8Array): void;
  failed(message: string): void;
}

/** What reads HID devices: a library that may be missing on this machine. */
export interface HidLibrary {
  list(): Promise<readonly HidInfo[]>;
  open(path: string, events: HidReaderEvents): Promise<HidReader>;
}

/** The scales among the devices: those whose page says so, and those whose page the system does not tell. */
export function weighingDevices(all: readonly HidInfo[]): readonly HidInfo[] {
  return all.filter(({ usagePage }) => usagePage === undefined || usagePage === WEIGHING_PAGE);
}

/** True when the system says that this device weighs. */
export const saysItWeighs = ({ usagePage }: HidInfo): boolean => usagePage === WEIGHING_PAGE;

/**
 * Connections to a USB HID scale. It is looked for anew each time, so it is found again at another socket. Without ids it
 * is the only device that says that it weighs.
 * @param load rejects where there is no library
 */
export function hidTransport(identity: PortIdentity, load: () => Promise<HidLibrary>): TransportFactory {
  const ids = Object.values(identity).join(' ');
  const name = ids === '' ? 'the USB scale' : `USB scale ${ids}`;
  return { name, connect: (events) => connectHid(identity, name, load, events) };
}

function connectHid(
  identity: PortIdentity,
  name: string,
  load: () => Promise<HidLibrary>,
  events: LinkEvents,
): Connection {
  let closedHere = false;
  let lost: (message: string) => void = () => undefined;

  async function run(): Promise<Closed> {
    let library: HidLibrary;
    try {
      library = await load();
    } catch (error) {
      return { cause: 'not-installed', message: messageOf(error) };
    }
    let reader: HidReader;
    const gone = new Promise<string>((resolve) => (lost = resolve));
    try {
      const device = pick(await library.list(), identity);
      if (device === null) return { cause: 'cannot-open', message: `no single device for ${name}` };
      let opened = false;
      const early: Uint8Array[] = [];
      reader = await library.open(device.path, {
        report(bytes) {
          if (closedHere) return;
          if (opened) events.bytes(bytes);
          else early.push(bytes);
        },
        failed: (message) => lost(message),
      });
      if (!closedHere) {
        events.opened();
        opened = true;
        for (const bytes of early.splice(0)) events.bytes(bytes);
      }
    } catch (error) {
      return { cause: 'cannot-open', message: messageOf(error) };
    }
    const message = closedHere ? 'closed' : await gone;
    await reader.close().catch(() => undefined);
    return { cause: closedHere ? 'closed-here' : 'link-lost', message };
  }

  const finished = run().then((how) => {
    events.closed(closedHere ? { cause: 'closed-here', message: 'closed' } : how);
  });
  return {
    // A scale of this kind has nothing that it must be told: it is zeroed by its own key.
    write: () => 'refused',
    async close() {
      closedHere = true;
      lost('closed');
      await finished;
    },
  };
}

function pick(all: readonly HidInfo[], identity: PortIdentity): HidInfo | null {
  const weighing = weighingDevices(all);
  const sure = weighing.filter(saysItWeighs);
  const named = Object.keys(identity).length > 0;
  const found = portWithIdentity(named && sure.length === 0 ? weighing : sure, identity);
  return weighing.find((device) => device.path === found?.path) ?? null;
}

function messageOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}
