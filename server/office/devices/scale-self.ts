import type { ScaleIdentity } from '#drivers/scale/scale-driver.ts';
import { formatMass } from '#shared/units/mass.ts';
import type { ScaleSelf } from '#shared/wire/devices.ts';

/** What a scale said of itself, for the page. */
export function scaleSelf(identity: ScaleIdentity | null): ScaleSelf {
  if (identity === null) return { speaks: false };
  const { about, faults, tare, fine } = identity;
  return {
    speaks: true,
    about,
    faults,
    tare: tare === null ? null : formatMass(tare.mass, tare.unit, tare.places),
    fine: fine === null ? null : formatMass(fine.mass, fine.unit, fine.places),
  };
}
