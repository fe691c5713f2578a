import {
  massFromBase,
  massFromDecimal,
  subtractMass,
  ZERO_MASS,
  type Mass,
  type MassUnit,
} from '#shared/units/mass.ts';
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

/**
 * The exact mass of so many whole pounds and ounces, as scales show both at once; null where the ounces are a pound or
 * more, which no scale shows.
 */
export function poundsAndOunces(sign: string, pounds: string, ounces: string): Mass | null {
  if (Number(ounces) >= OUNCES_IN_A_POUND) return null;
  const [whole, part] = [shownMass('', pounds, 'lb'), shownMass('', ounces, 'oz')];
  if (whole === null || part === null || whole + part > Number.MAX_SAFE_INTEGER) return null;
  const mass = massFromBase(whole + part);
  return sign === '-' && mass !== 0 ? subtractMass(ZERO_MASS, mass) : mass;
}

const OUNCES_IN_A_POUND = 16;
