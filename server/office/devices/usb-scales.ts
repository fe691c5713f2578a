import { usbScaleText } from './setting-text.ts';
import { saysItWeighs, weighingDevices, type HidInfo, type HidLibrary } from '#drivers/transport/hid.ts';
import type { UsbScalesView } from '#shared/wire/devices.ts';

/** The USB HID scales of this computer, each with its setting; where they cannot be read, what is missing. */
export async function usbScales(load: () => Promise<HidLibrary>): Promise<UsbScalesView> {
  let all: readonly HidInfo[];
  try {
    all = await (await load()).list();
  } catch (error) {
    return { missing: error instanceof Error ? error.message : String(error), scales: [] };
  }
  const devices = weighingDevices(all);
  const sure = devices.filter(saysItWeighs);
  return {
    missing: null,
    scales: (sure.length > 0 ? sure : devices).map((device) => {
      const { vendorId, productId, serialNumber } = device;
      const identity = { vendorId, productId, ...(serialNumber === undefined ? {} : { serialNumber }) };
      return {
        name: device.name,
        ids: Object.values(identity).join(' '),
        weighs: saysItWeighs(device),
        yaml: usbScaleText(identity),
      };
    }),
  };
}
