import type { HidInfo, HidLibrary, HidReaderEvents } from '#drivers/transport/hid.ts';

/** A HID library whose devices are plugged, unplugged and made to report by hand. */
export interface HidSource extends HidLibrary {
  plug(device: HidInfo): void;
  /** The device vanishes from the list and its reader fails, as on a real socket. */
  unplug(path: string): void;
  report(path: string, hex: string): void;
  readonly opened: readonly string[];
  /** feature reports that were set, in hex, oldest first */
  readonly set: readonly string[];
}

/** @param descriptor what its devices say of their reports; null where the system does not pass that on */
export function hidSource(descriptor: Uint8Array | null = null): HidSource {
  const devices = new Map<string, HidInfo>();
  const readers = new Map<string, HidReaderEvents>();
  const opened: string[] = [];
  const set: string[] = [];
  return {
    opened,
    set,
    list: () => Promise.resolve([...devices.values()]),
    open(path, events) {
      if (!devices.has(path)) return Promise.reject(new Error(`cannot open device with path ${path}`));
      opened.push(path);
      readers.set(path, events);
      return Promise.resolve({
        descriptor,
        feature: (number) => Promise.resolve(Uint8Array.of(number, 0x01)),
        sendFeature(report) {
          set.push(Buffer.from(report).toString('hex'));
          return Promise.resolve();
        },
        close() {
          readers.delete(path);
          return Promise.resolve();
        },
      });
    },
    plug: (device) => void devices.set(device.path, device),
    unplug(path) {
      devices.delete(path);
      readers.get(path)?.failed('could not read from HID device');
    },
    report: (path, hex) => readers.get(path)?.report(Uint8Array.from(Buffer.from(hex.replaceAll(' ', ''), 'hex'))),
  };
}

/** An invented scale as the system lists it. */
export const hidScale = (path: string, more: Partial<HidInfo> = {}): HidInfo => ({
  path,
  vendorId: '1209',
  productId: '0007',
  serialNumber: 'A7',
  name: 'bench scale',
  usagePage: 0x8d,
  ...more,
});
