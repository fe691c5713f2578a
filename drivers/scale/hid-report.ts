import type { Mass, MassUnit } from '#shared/units/mass.ts';
import type { DiscardReason, ScaleDecoder, ScaleFrame } from './frames.ts';
import { placesOf, shownMass } from './number.ts';

/** Scale data report of the USB HID Point of Sale Usage Tables v1.02 (2001), section 4, usage page 0x8D. */
const DATA_REPORT = 3;
const REPORT_BYTES = 6;

/** Status byte. */
const FAULT = 1;
const STABLE_AT_ZERO = 2;
const IN_MOTION = 3;
const STABLE = 4;
const UNDER_ZERO = 5;
const OVER_LIMIT = 6;
const NEEDS_CALIBRATION = 7;
const NEEDS_ZEROING = 8;

/** Unit byte: the mass unit that this station counts in, and the power of ten that takes the report's unit to it. */
const UNITS: Readonly<Record<number, { readonly unit: MassUnit; readonly power: number }>> = {
  1: { unit: 'g', power: -3 },
  2: { unit: 'g', power: 0 },
  3: { unit: 'kg', power: 0 },
  11: { unit: 'oz', power: 0 },
  12: { unit: 'lb', power: 0 },
};
const FURTHEST_POWER = 9;

/** Decoder for HID scales. A HID transport hands over one report at a time, so a chunk is a report. */
export function hidDecoder(): ScaleDecoder {
  return { push: (chunk) => (chunk.length === 0 ? [] : [decodeReport(chunk)]) };
}

/** One report, its number first. */
export function decodeReport(report: Uint8Array): ScaleFrame {
  const bytes = report.slice(0, 64);
  const discard = (why: DiscardReason): ScaleFrame => ({ kind: 'discarded', why, bytes });
  // Some systems fill every report up to the length of the device's longest.
  const more = report.subarray(REPORT_BYTES).some((byte) => byte !== 0);
  if (report.length < REPORT_BYTES || more || report[0] !== DATA_REPORT) return discard('form');
  const [, status = 0, unitByte = 0, exponentByte = 0, low = 0, high = 0] = report;

  const without = conditionWithoutWeight(status);
  if (without !== null) return { kind: 'no-weight', condition: without.condition, says: without.says };
  if (status < STABLE_AT_ZERO || status > UNDER_ZERO) return discard('form');

  const known = UNITS[unitByte];
  if (known === undefined) return discard('unit');
  // The exponent is a signed byte: FF is one place after the point, FE two.
  const power = ((exponentByte << 24) >> 24) + known.power;
  if (Math.abs(power) > FURTHEST_POWER) return discard('number');
  const count = low + 256 * high;
  const digits = scaled(count, power);
  const mass: Mass | null = shownMass(status === UNDER_ZERO && count !== 0 ? '-' : '', digits, known.unit);
  if (mass === null) return discard('number');
  // A scale whose status says zero and whose number does not contradicts itself.
  if (status === STABLE_AT_ZERO && mass !== 0) return discard('form');
  return {
    kind: 'weight',
    mass,
    unit: known.unit,
    places: placesOf(digits),
    stability: status === IN_MOTION ? 'moving' : status === UNDER_ZERO ? 'unknown' : 'still',
    net: false,
  };
}

function conditionWithoutWeight(
  status: number,
): { readonly condition: 'over' | 'fault'; readonly says: string } | null {
  switch (status) {
    case FAULT:
      return { condition: 'fault', says: 'fault' };
    case OVER_LIMIT:
      return { condition: 'over', says: 'over the weight limit' };
    case NEEDS_CALIBRATION:
      return { condition: 'fault', says: 'needs calibration' };
    case NEEDS_ZEROING:
      return { condition: 'fault', says: 'needs zeroing' };
    case STABLE_AT_ZERO:
    case IN_MOTION:
    case STABLE:
    case UNDER_ZERO:
    default:
      return null;
  }
}

/** count x 10^power as decimal text. */
function scaled(count: number, power: number): string {
  if (power >= 0) return `${count}${'0'.repeat(power)}`;
  const digits = String(count).padStart(1 - power, '0');
  return `${digits.slice(0, power)}.${digits.slice(power)}`;
}
