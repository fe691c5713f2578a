import { featureControl, withControl, type ControlField } from './hid-descriptor.ts';
import { portWithIdentity, type PortIdentity } from './serial-ports.ts';
import type { Closed, Connection, LinkEvents, TransportFactory } from './transport.ts';

/** Weighing devices: usage page 0x8D of the USB HID Point of Sale Usage Tables v1.02 (2001), section 4. */
const WEIGHING_PAGE = 0x8d;

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
  /** what the device says of its reports (HID 1.11, 6.2.2); null where the system does not pass it on */
  readonly descriptor: Uint8Array | null;
  /** a feature report as it is now, its number first */
  feature(number: number, bytes: number): Promise<Uint8Array>;
  /** sends a feature report, its number first */
  sendFeature(report: Uint8Array): Promise<void>;
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
  let open: HidReader | null = null;
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
        open = reader;
        events.opened();
        opened = true;
        for (const bytes of early.splice(0)) events.bytes(bytes);
      }
    } catch (error) {
      return { cause: 'cannot-open', message: messageOf(error) };
    }
    const message = closedHere ? 'closed' : await gone;
    open = null;
    await reader.close().catch(() => undefined);
    return { cause: closedHere ? 'closed-here' : 'link-lost', message };
  }

  const finished = run().then((how) => {
    events.closed(closedHere ? { cause: 'closed-here', message: 'closed' } : how);
  });
  return {
    // A scale of this kind takes no bytes: what it can be told are the controls that it describes.
    write: () => 'refused',
    press(usage) {
      if (open === null || closedHere) return 'refused';
      const field = open.descriptor === null ? null : featureControl(open.descriptor, usage);
      if (field === null) return 'not-supported';
      void setControl(open, field);
      return 'sent';
    },
    async close() {
      closedHere = true;
      lost('closed');
      await finished;
    },
  };
}

/** Sets the control and leaves all else in its report as it is; whether the device did it, its next reports show. */
async function setControl(reader: HidReader, field: ControlField): Promise<void> {
  const nothing = new Uint8Array(field.bytes + 1);
  const now = await reader.feature(field.reportNumber, nothing.length).catch(() => nothing);
  await reader.sendFeature(withControl(field, now)).catch(() => undefined);
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
