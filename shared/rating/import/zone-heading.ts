import { tidy } from './cell.ts';

/**
 * The zones that a column's heading names: "Zone 3" is 3; "Zones 1 & 2", "1-2" and "1, 2" are two zones of one price; any
 * other text is a zone of that name. Empty when the heading is.
 */
export function zonesNamed(text: string): readonly string[] {
  const bare = tidy(text.replace(/^\s*(?:zones?|zonas?)\b\.?:?/i, ''));
  if (bare === '') return [];
  const range = /^(\d{1,2})\s*(?:-|–|—|to|a)\s*(\d{1,2})$/.exec(bare);
  if (range !== null) {
    const [first, last] = [Number(range[1]), Number(range[2])];
    if (first < last) return Array.from({ length: last - first + 1 }, (_, index) => String(first + index));
  }
  if (/^\d{1,2}(?:\s*(?:&|,|\+|\/|and|y)\s*\d{1,2})+$/.test(bare)) return bare.split(/\D+/);
  return [bare];
}
