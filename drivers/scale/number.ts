import { massFromDecimal, type Mass, type MassUnit } from '#shared/units/mass.ts';
import { UnitError } from '#shared/units/unit-error.ts';

/** Units as indicators write them, in any case. */
const UNITS: Readonly<Record<string, MassUnit>> = {
  kg: 'kg',
  g: 'g',
  gm: 'g',
  lb: 'lb',
  lbs: 'lb',
  oz: 'oz',
  ozs: 'oz',
};

/** The unit that a scale's text names, or null when this station does not count in it. */
export function unitNamed(text: string): MassUnit | null {
  return UNITS[text.toLowerCase()] ?? null;
}

/** The exact mass that sign and digits show, or null when it is finer or larger than the station counts. */
export function shownMass(sign: string, digits: string, unit: MassUnit): Mass | null {
  try {
    return massFromDecimal(`${sign}${digits}`, unit);
  } catch (error) {
    if (error instanceof UnitError) return null;
    throw error;
  }
}

/** Digits after the point. */
export function placesOf(digits: string): number {
  const point = digits.indexOf('.');
  return point === -1 ? 0 : digits.length - point - 1;
}
