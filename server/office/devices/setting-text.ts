import { stringify } from 'yaml';
import type { PortIdentity } from '#drivers/transport/serial-ports.ts';
import type { OwnForm } from '#shared/weighing/own-form.ts';
import type { MassUnit } from '#shared/units/mass.ts';

/** The lines of devices.yaml for a scale on a serial line, to be copied below its bench's `scale:`. */
export function serialScaleText(setting: {
  readonly path: string;
  readonly baud: number;
  readonly protocol: 'continuous' | 'sma';
  /** named where the frames name none */
  readonly unit: MassUnit | null;
}): string {
  const { path, baud, protocol, unit } = setting;
  return stringify({
    transport: { kind: 'serial', path, baud },
    protocol,
    ...(unit === null ? {} : { unit }),
  });
}

/** The lines of devices.yaml for a USB HID scale. */
export function usbScaleText(device: PortIdentity): string {
  return stringify({ transport: { kind: 'hid', device }, protocol: 'hid' });
}

/** The lines of devices.yaml for a form that its owner described. */
export function ownFormText(form: OwnForm): string {
  return stringify({ protocol: form });
}
