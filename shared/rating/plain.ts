import type { Length, LengthUnit } from '#shared/units/length.ts';
import { formatLength, lengthFromDecimal } from '#shared/units/length.ts';
import type { Mass, MassUnit } from '#shared/units/mass.ts';
import { formatMassPlain, massDigits } from '#shared/units/mass.ts';

/** Quantities inside an explanation: no more digits than they need, and never shown as nothing. */

const EIGHTHS = ['', '1/8', '1/4', '3/8', '1/2', '5/8', '3/4', '7/8'] as const;
const EIGHTH = lengthFromDecimal('0.125', 'in');

/** "2 1/4 in", "12.01 in", "31.5 cm" */
export function plainLength(length: number, unit: LengthUnit): string {
  if (unit === 'in' && length % EIGHTH === 0) {
    const eighths = length / EIGHTH;
    const whole = Math.trunc(eighths / 8);
    const fraction = EIGHTHS[eighths % 8] ?? '';
    return `${[whole === 0 && fraction !== '' ? '' : String(whole), fraction].filter(Boolean).join(' ')} in`;
  }
  const text = formatLength(length as Length, unit, 3).replace(/\.?0+ /, ' ');
  return text.startsWith('0 ') && length > 0 ? `<0.001 ${unit}` : text;
}

/** "16 oz", "0.1 oz" */
export function plainMass(mass: Mass, unit: MassUnit): string {
  if (mass > 0 && Number(massDigits(mass, unit, 4)) === 0) return `<0.0001 ${unit}`;
  return formatMassPlain(mass, unit);
}

/** A cubed length for people: cubic feet to four places, or whole cubic centimetres. Never for a price. */
export function plainVolume(cubes: number, step: number, unit: LengthUnit): string {
  const inUnit = cubes * (step / lengthFromDecimal('1', unit === 'mm' ? 'cm' : unit)) ** 3;
  if (unit === 'in') return `${(inUnit / 1728).toFixed(4)} ft3`;
  return `${inUnit.toFixed(0)} cm3`;
}
