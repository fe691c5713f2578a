import { expect, test } from 'vitest';
import { needsZeroing, NO_DRIFT, seenEmpty } from '#drivers/scale/zero-drift.ts';
import { massFromDecimal } from '#shared/units/mass.ts';
import type { Reading } from '#shared/weighing/types.ts';

const division = massFromDecimal('0.1', 'oz');
const empty = (ounces: string): Reading => ({
  mass: massFromDecimal(ounces, 'oz'),
  unit: 'oz',
  places: 1,
  division,
  stability: 'still',
  net: false,
  condition: 'ok',
  at: 5,
});

test.each([
  ['0', false],
  ['0.1', true],
  ['-0.1', true],
  ['0.3', true],
])('an empty pan that shows %s oz: zeroing asked %s', (ounces, asked) => {
  expect(needsZeroing(seenEmpty(empty(ounces)), division)).toBe(asked);
});

test('nothing is asked before an empty pan was seen', () => {
  expect(needsZeroing(NO_DRIFT, division)).toBe(false);
});
