import type { DeviceTrace } from '#drivers/trace.ts';
import type { Station } from '#server/runs/station.ts';
import type { DeviceHealth } from '#shared/wire/views.ts';

/** What a device of a bench is called in figures and health. */
type CalledDevice = DeviceHealth['device'] | 'label-printer';

export interface LookedAt {
  readonly called: CalledDevice;
  readonly health: DeviceHealth;
  readonly trace: DeviceTrace | null;
}

/** The devices of a bench with its label printer, which is a printer beside that of the slips. */
export function everyDevice({ devices, labels }: Pick<Station, 'devices' | 'labels'>): readonly LookedAt[] {
  const labelHealth = labels.printer?.health() ?? null;
  return [
    ...devices.health().map((health): LookedAt => ({
      ...{ called: health.device, health },
      trace: devices.trace(health.device),
    })),
    ...(labelHealth === null
      ? []
      : [{ called: 'label-printer', health: labelHealth, trace: labels.printer?.trace() ?? null } as const]),
  ];
}
