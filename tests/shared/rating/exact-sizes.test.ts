import { describe, expect, test } from 'vitest';
import { cubicCount } from '#shared/rating/cubic.ts';
import { measure } from '#shared/rating/measures.ts';
import { quote } from '#shared/rating/quote.ts';
import { lengthFromDecimal } from '#shared/units/length.ts';
import { massFromBase, parseMass } from '#shared/units/mass.ts';
import { bookWith, box, soft } from '#tests/support/rate-book.ts';

/** A card that bills by volume: 139 cubic inches to the pound unless told, sides in steps of a thousandth of a millimetre. */
const book = (more = '', sides = '{ mode: down, step: 0.001 mm }', roundUpTo = '1 oz') =>
  bookWith(
    `  - id: s
    name: { en: S, es: S }
    prices:
      - rule: weight-bracket
        brackets: [{ upTo: 1 oz, prices: 1 }, { upTo: 300 lb, prices: 2 }]
        dimensional: [{ divisor: 139, length: in, mass: lb, sides: ${sides}, roundUpTo: ${roundUpTo}${more} }]`,
    '[{ by: flat, zone: a }]',
    'oz',
  );
const billed = (of: ReturnType<typeof book>, parcel: ReturnType<typeof box>) =>
  quote(of, parcel, parseMass('0.5 oz'), { zone: 'a' }, '2026-11-25').offers[0]?.billedMass;

describe('a volume that floats cannot hold', () => {
  test('which is whole ounces is billed as just those, and a thousandth of a millimetre more as the next', () => {
    // 139 x 10 x 10 in / 139 = 100 lb.
    expect(billed(book(), box('3530.6 x 254 x 254 mm'))).toBe(parseMass('100 lb'));
    expect(billed(book(), box('3530.6 x 254 x 254.001 mm'))).toBe(parseMass('1601 oz'));
    expect(billed(book(', nonRectangular: 785'), soft('3530.6 x 254 x 254 mm'))).toBe(parseMass('78.5 lb'));
    expect(billed(book(', nonRectangular: 785'), soft('3530.6 x 254 x 254.001 mm'))).toBe(parseMass('1257 oz'));
    expect(billed(book(', nonRectangular: 785'), box('3530.6 x 254 x 254 mm'))).toBe(parseMass('100 lb'));
  });

  test('is billed in whole ounces where a quotient of floats would be a little more', () => {
    // 330.201 x 863.6 x 1016 mm are 17,680.05 in3, / 139 = 127.195 lb = 2,035.11 oz; by floats 2036.0000000000002 of them.
    expect(billed(book(), box('330.201 x 863.6 x 1016 mm'))).toBe(parseMass('2036 oz'));
  });

  test('is held against a volume that goes free, exactly', () => {
    const free = (measured: string) => book(`, above: { volume: 139000 in3, measured: ${measured} }`);
    for (const measured of ['raw', 'rounded']) {
      expect(billed(free(measured), box('3530.6 x 254 x 2540 mm'))).toBe(parseMass('0.5 oz'));
      expect(billed(book(`, above: { volume: 13900 in3, measured: ${measured} }`), box('3530.6 x 254 x 254 mm'))).toBe(
        parseMass('0.5 oz'),
      );
      expect(
        billed(book(`, above: { volume: 13900 in3, measured: ${measured} }`), box('3530.6 x 254 x 254.001 mm')),
      ).toBe(parseMass('1601 oz'));
    }
    // Rounded to whole inches this one is 12 x 12 x 12; as measured it is more.
    const inches = (measured: string) =>
      book(`, above: { volume: 1728 in3, measured: ${measured} }`, '{ mode: nearest, step: 1 in }', '1 lb');
    expect(billed(inches('rounded'), box('12.4 x 12 x 12 in'))).toBe(parseMass('0.5 oz'));
    expect(billed(inches('raw'), box('12.4 x 12 x 12 in'))).toBe(parseMass('13 lb'));
  });

  test('counts its cubic steps as a whole number of any size', () => {
    const sides = { mode: 'down', step: lengthFromDecimal('0.001', 'mm') } as const;
    const count = (text: string) =>
      cubicCount({ rule: 'cubic-box', zones: null, sides, tiers: [] }, measure(box(text)));
    expect(count('200 x 150 x 100 mm')).toBe(3_000_000_000_000_000);
    expect(count('3530.6 x 254 x 254.001 mm')).toBe(3_530_600n * 254_000n * 254_001n);
  });

  test('of more than a mass can say is beyond every bracket', () => {
    const { refused } = quote(book(), box('900 x 900 x 900 cm'), massFromBase(1), { zone: 'a' }, '2026-11-25');
    expect(refused[0]?.why.code).toBe('billed-too-heavy');
  });
});
