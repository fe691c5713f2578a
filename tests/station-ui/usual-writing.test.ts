import { expect, it } from 'vitest';
import { usualIn } from '#station-ui/office/usual-writing.ts';

// As the Unicode Common Locale Data Repository has it, which the browser carries; values from memory.
it.each([
  ['US', 'month-first', 'point'],
  ['ES', 'day-first', 'comma'],
  ['MX', 'day-first', 'point'],
  ['GB', 'day-first', 'point'],
  ['DE', 'day-first', 'comma'],
  ['FR', 'day-first', 'comma'],
  ['??', 'month-first', 'point'],
] as const)('%s writes days %s and decimals with a %s', (country, days, decimals) => {
  expect(usualIn(country)).toEqual({ days, decimals });
});
