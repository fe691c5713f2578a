import { gs1Holds } from './check-digits.ts';

/** GTIN-8, UPC-A, EAN-13 and GTIN-14, in digits. */
const LENGTHS: ReadonlySet<number> = new Set([8, 12, 13, 14]);

/**
 * A number on goods (GTIN-8, UPC-A, EAN-13 or GTIN-14) in its fourteen-digit form, so that the same thing compares equal
 * whatever symbol carried it; null when it is none or its check digit does not hold.
 */
export function gtin14(digits: string): string | null {
  return LENGTHS.has(digits.length) && gs1Holds(digits) ? digits.padStart(14, '0') : null;
}
