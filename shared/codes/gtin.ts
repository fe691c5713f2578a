import { gs1Holds } from './check-digits.ts';

/**
 * A number on goods (GTIN-8, UPC-A, EAN-13 or GTIN-14) in its fourteen-digit form, so that the same thing compares equal
 * whatever symbol carried it; null when it is none or its check digit does not hold.
 */
export function gtin14(digits: string): string | null {
  if (!/^(\d{8}|\d{12,14})$/.test(digits) || !gs1Holds(digits)) return null;
  return digits.padStart(14, '0');
}
