/** Check digits of the numbers on labels and goods. Each takes digits as text and throws nothing: no digits, no check digit. */

const DIGITS = /^\d+$/;

/**
 * GS1 modulo 10 of the digits before the check digit: weights 3, 1 from the right (GS1 General Specifications, 7.9.1).
 * The same sum closes GTIN-8/12/13/14, SSCC-18 and the 22-digit parcel numbers.
 * @returns 0..9, or null when the text is not digits
 */
export function gs1CheckDigit(digits: string): number | null {
  if (!DIGITS.test(digits)) return null;
  let sum = 0;
  for (let index = 0; index < digits.length; index++) {
    sum += Number(digits[digits.length - 1 - index]) * (index % 2 === 0 ? 3 : 1);
  }
  return (10 - (sum % 10)) % 10;
}

/** Whether the last digit is the GS1 modulo 10 of the ones before it. */
export function gs1Holds(digits: string): boolean {
  return gs1CheckDigit(digits.slice(0, -1))?.toString() === digits.slice(-1);
}

const S10_WEIGHTS = [8, 6, 4, 2, 3, 5, 9, 7] as const;

/**
 * Check digit of the eight-digit serial of a postal item identifier (UPU S10): weighted modulo 11, where 10 gives 0 and 11
 * gives 5.
 * @returns 0..9, or null when the text is not eight digits
 */
export function s10CheckDigit(serial: string): number | null {
  if (!/^\d{8}$/.test(serial)) return null;
  const sum = S10_WEIGHTS.reduce((total, weight, index) => total + weight * Number(serial[index]), 0);
  const digit = 11 - (sum % 11);
  return digit === 10 ? 0 : digit === 11 ? 5 : digit;
}

/** Whether a text is a postal item identifier, two letters, nine digits and two letters, whose check digit holds. */
export function s10Holds(text: string): boolean {
  const match = /^[A-Z]{2}(\d{8})(\d)[A-Z]{2}$/.exec(text);
  return match !== null && s10CheckDigit(match[1] ?? '') === Number(match[2]);
}

/**
 * Code 128 symbol check: the start character's value plus each value times its place, modulo 103 (ISO/IEC 15417).
 * @param values symbol values, the start character (103, 104 or 105) first, without check and stop
 */
export function code128Check(values: readonly number[]): number {
  return values.reduce((sum, value, place) => sum + value * Math.max(1, place), 0) % 103;
}
