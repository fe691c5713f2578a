/**
 * Exact decimal text to scaled integers, without going through binary fractions.
 */

/** What {@link scaleDecimal} can find wrong with a text. */
export type DecimalProblem = 'not-a-number' | 'too-fine' | 'too-large';

export type ScaledDecimal =
  { readonly ok: true; readonly value: number } | { readonly ok: false; readonly problem: DecimalProblem };

const DECIMAL = /^([+-]?)(\d*)(?:\.(\d*))?$/;

/**
 * Multiplies a decimal text by a rational scale, exactly.
 *
 * @param text optional sign, digits, optional point and digits: "15.9", "-0.05", "+12"
 * @param numerator integer scale: base units in one unit of the text
 * @returns the safe integer, or why there is none: the text is no number, its last digit is finer than one base
 *   unit, or the result exceeds Number.MAX_SAFE_INTEGER
 */
export function scaleDecimal(text: string, numerator: number): ScaledDecimal {
  const [, sign, whole = '', fraction = ''] = DECIMAL.exec(text) ?? [];
  if (whole + fraction === '') return { ok: false, problem: 'not-a-number' };
  const digits = BigInt(whole + fraction);
  const divisor = 10n ** BigInt(fraction.length);
  const product = digits * BigInt(numerator);
  if (product % divisor !== 0n) return { ok: false, problem: 'too-fine' };
  const value = product / divisor;
  if (value > BigInt(Number.MAX_SAFE_INTEGER)) return { ok: false, problem: 'too-large' };
  const magnitude = Number(value);
  return { ok: true, value: sign === '-' && magnitude !== 0 ? -magnitude : magnitude };
}

/**
 * A base-unit count as decimal text in a unit, rounded half away from zero to a number of places.
 *
 * @param count integer base units
 * @param perUnit base units in one unit
 * @param places digits after the point
 */
export function formatScaled(count: number, perUnit: number, places: number): string {
  const negative = count < 0;
  const scaled = BigInt(Math.abs(count)) * 10n ** BigInt(places);
  const unit = BigInt(perUnit);
  const rounded = (scaled * 2n + unit) / (unit * 2n);
  const digits = rounded.toString().padStart(places + 1, '0');
  const text = places === 0 ? digits : `${digits.slice(0, -places)}.${digits.slice(-places)}`;
  return negative && rounded !== 0n ? `-${text}` : text;
}
