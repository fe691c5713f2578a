import { expect, it } from 'vitest';
import { massFromGrams } from '#shared/units/mass.ts';
import { rectangular } from '#shared/weighing/combine.ts';

it('a component is a rectangular distribution, and says of what it is where that is told', () => {
  // JCGM 100:2008, 4.3.7: u = a / sqrt 3.
  const half = massFromGrams(3);
  expect(rectangular('resolution', half)).toStrictEqual({
    name: 'resolution',
    halfWidth: half,
    standardGrams: 3 / Math.sqrt(3),
  });
  expect(rectangular('resolution', half, 'pouch-10x13')).toStrictEqual({
    name: 'resolution',
    of: 'pouch-10x13',
    halfWidth: half,
    standardGrams: 3 / Math.sqrt(3),
  });
});
