import { readFile } from 'node:fs/promises';
import { basename } from 'node:path';
import type { HidInfo, HidLibrary } from './hid.ts';

/**
 * The library for HID devices, which is an optional dependency: without it, or without what it needs of the system, all
 * else works.
 * @throws where it is missing or cannot be loaded; the message says what is missing
 */
export async function loadHidLibrary(): Promise<HidLibrary> {
  const hid = await import('node-hid');
  // The library itself loads its native part only at the first call.
  hid.getHidapiVersion();
  return {
    async list() {
      const all = await hid.devicesAsync();
      return all.flatMap(({ path, vendorId, productId, serialNumber, product, usagePage }): HidInfo[] =>
        path === undefined
          ? []
          : [
              {
                path,
                vendorId: fourDigits(vendorId),
                productId: fourDigits(productId),
                name: product ?? '',
                ...(serialNumber === undefined || serialNumber === '' ? {} : { serialNumber }),
                // Some systems say 0 where they do not know.
                ...(usagePage === undefined || usagePage === 0 ? {} : { usagePage }),
              },
            ],
      );
    },
    async open(path, events) {
      const device = await hid.HIDAsync.open(path);
      device.on('data', (bytes: Buffer) => events.report(new Uint8Array(bytes)));
      device.on('error', (error: Error) => events.failed(error.message));
      return {
        descriptor: await descriptorOf(path),
        feature: async (number, bytes) => new Uint8Array(await device.getFeatureReport(number, bytes)),
        async sendFeature(report) {
          await device.sendFeatureReport(Buffer.from(report));
        },
        close: () => device.close(),
      };
    },
  };
}

/** The library does not pass the descriptor on; Linux gives it beside the device. */
async function descriptorOf(path: string): Promise<Uint8Array | null> {
  if (!/^\/dev\/hidraw\d+$/.test(path)) return null;
  const bytes = await readFile(`/sys/class/hidraw/${basename(path)}/device/report_descriptor`).catch(() => null);
  return bytes === null ? null : new Uint8Array(bytes);
}

function fourDigits(id: number): string {
  return id.toString(16).padStart(4, '0');
}
