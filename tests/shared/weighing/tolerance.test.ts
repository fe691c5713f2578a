import { expect, it } from 'vitest';
import { massFromGrams } from '#shared/units/mass.ts';
import { toleranceOf } from '#shared/weighing/tolerance.ts';

it('a scale whose owner knows what it may be wrong by is wrong by that at every load', () => {
  const plusMinus = massFromGrams(4);
  for (const load of [0, 12, 5000]) {
    expect(toleranceOf({ kind: 'own', plusMinus }, massFromGrams(load), massFromGrams(1))).toBe(plusMinus);
  }
});
