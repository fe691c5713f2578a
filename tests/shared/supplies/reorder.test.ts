import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { amountShown, amountWords, lumpOf, parseAmount, rollUnit } from '#shared/supplies/amounts.ts';
import { dailyDemand } from '#shared/supplies/demand.ts';
import { daysOfCover, packsToOrder, reorderPoint, stockState } from '#shared/supplies/reorder.ts';
import { containersIn, usedBy } from '#shared/supplies/used-by-parcel.ts';
import type { Supply } from '#shared/supplies/types.ts';

const wants = fc.record({
  demand: fc.record({
    mean: fc.double({ min: 0, max: 500, noNaN: true }),
    sd: fc.double({ min: 0, max: 200, noNaN: true }),
  }),
  leadTime: fc.record({
    mean: fc.double({ min: 0, max: 60, noNaN: true }),
    sd: fc.double({ min: 0, max: 20, noNaN: true }),
  }),
  serviceLevel: fc.double({ min: 0.5, max: 0.999, noNaN: true }),
});

describe('what to order', () => {
  it('is nothing above the reorder point, and at or below it brings the shelf over it for the days to cover', () => {
    fc.assert(
      fc.property(
        wants,
        fc.record({
          onHand: fc.integer({ min: -50, max: 30_000 }),
          onOrder: fc.nat(1000),
          coverDays: fc.nat(90),
          pack: fc.integer({ min: 1, max: 500 }),
        }),
        (of, shelf) => {
          const packs = packsToOrder({ ...of, ...shelf });
          const have = Math.max(0, shelf.onHand) + shelf.onOrder;
          const at = reorderPoint(of);
          if (have > at) {
            expect(packs).toBe(0);
            return;
          }
          const then = have + packs * shelf.pack;
          const wanted = at + of.demand.mean * shelf.coverDays;
          expect(then).toBeGreaterThanOrEqual(wanted - 1e-6 * shelf.pack);
          // One pack less would not do, but for the one that an empty shelf always gets.
          if (packs > 1) expect(then - shelf.pack).toBeLessThan(wanted);
        },
      ),
    );
  });

  it('is whole packs, reckoned by hand', () => {
    // Four a day for five days, with no spread: the point is 20. Ten days to cover take 40 more.
    const of = {
      demand: { mean: 4, sd: 0 },
      leadTime: { mean: 5, sd: 0 },
      serviceLevel: 0.95,
      coverDays: 10,
      pack: 25,
    };
    expect(packsToOrder({ ...of, onHand: 21, onOrder: 0 })).toBe(0);
    expect(packsToOrder({ ...of, onHand: 20, onOrder: 0 })).toBe(2);
    expect(packsToOrder({ ...of, onHand: 10, onOrder: 0 })).toBe(2);
    expect(packsToOrder({ ...of, coverDays: 0, onHand: 20, onOrder: 0 })).toBe(0);
    expect(packsToOrder({ ...of, onHand: 9, onOrder: 0 })).toBe(3);
    expect(packsToOrder({ ...of, onHand: 9, onOrder: 1 })).toBe(2);
    expect(packsToOrder({ ...of, onHand: 9, onOrder: 12 })).toBe(0);
    expect(packsToOrder({ ...of, onHand: -7, onOrder: 10 })).toBe(2);
    // Of what is never taken one pack stands on the shelf.
    const unused = { ...of, demand: { mean: 0, sd: 0 } };
    expect(packsToOrder({ ...unused, onHand: 0, onOrder: 0 })).toBe(1);
    expect(packsToOrder({ ...unused, onHand: -3, onOrder: 0 })).toBe(1);
    expect(packsToOrder({ ...unused, onHand: -3, onOrder: 1 })).toBe(0);
    expect(packsToOrder({ ...unused, onHand: 1, onOrder: 0 })).toBe(0);
  });

  it('grows with the service level, the demand and the lead time', () => {
    fc.assert(
      fc.property(wants, (of) => {
        const at = reorderPoint(of);
        expect(
          reorderPoint({ ...of, serviceLevel: Math.min(0.9999, of.serviceLevel + 0.0005) }),
        ).toBeGreaterThanOrEqual(at);
        expect(
          reorderPoint({ ...of, leadTime: { ...of.leadTime, mean: of.leadTime.mean + 1 } }),
        ).toBeGreaterThanOrEqual(at);
        expect(reorderPoint({ ...of, demand: { ...of.demand, mean: of.demand.mean + 1 } })).toBeGreaterThanOrEqual(at);
      }),
    );
  });

  it.each([
    [null, 10, 'not-counted'],
    [-1, 10, 'out'],
    [0, 0, 'out'],
    [1, 0, 'enough'],
    [10, 10, 'low'],
    [11, 10, 'enough'],
  ] as const)('%s on the shelf with a reorder point of %s is %s', (onHand, at, state) => {
    expect(stockState(onHand, at)).toBe(state);
  });

  it('lasts no day when nothing is left and has no end when nothing is used', () => {
    expect(daysOfCover(50, { mean: 4, sd: 2 })).toBe(12.5);
    expect(daysOfCover(-3, { mean: 4, sd: 2 })).toBe(0);
    expect(daysOfCover(50, { mean: 0, sd: 0 })).toBeNull();
  });
});

describe('the demand of a day', () => {
  it('is the guess before anything was seen, and the days themselves after many of them', () => {
    expect(dailyDemand([], 6, 1)).toEqual({ mean: 6, sd: Math.sqrt(6) });
    const seen = dailyDemand(
      Array.from({ length: 700 }, (_, day) => (day % 2 === 0 ? 10 : 14)),
      0,
      1,
    );
    expect(seen.mean).toBeCloseTo((700 * 12) / 707, 9);
    expect(seen.sd).toBeCloseTo(Math.sqrt(seen.mean), 9);
  });

  it('never has less spread than parcels that come at random, and a wild week has more', () => {
    expect(dailyDemand([5, 5, 5, 5], 5, 1).sd).toBeCloseTo(Math.sqrt(5), 12);
    expect(dailyDemand([0, 40, 0, 40], 20, 1).sd).toBeCloseTo(Math.sqrt((4 * 20 ** 2) / 3), 12);
    // One day has no spread of its own: (30 + 7 x 6) / 8 = 9, in lumps of four.
    expect(dailyDemand([30], 6, 4)).toEqual({ mean: 9, sd: 6 });
    // Two days have: of 10 and 14 a variance of 8, against (24 + 7 x 3) / 9 = 5.
    expect(dailyDemand([10, 14], 3, 1)).toEqual({ mean: 5, sd: Math.sqrt(8) });
  });
});

const supply = (id: string, rest: Partial<Supply>): Supply => ({
  id,
  name: { en: id, es: id },
  unit: 'piece',
  pack: 100,
  leadTime: { mean: 4, sd: 1 },
  perDay: 1,
  uses: [],
  ...rest,
});

describe('what a parcel takes', () => {
  const supplies = [
    supply('inner', { container: 'pouch-a' }),
    supply('outer', { container: 'pouch-b' }),
    supply('box', { container: 'carton' }),
    supply('label', { uses: [{ each: 'parcel', amount: 1 }] }),
    supply('tape', { unit: 'length', uses: [{ each: 'parcel', amount: 1200, types: ['carton'] }] }),
    supply('tissue', { uses: [{ each: 'piece', amount: 2, wraps: ['tissue'] }] }),
    supply('card', { uses: [{ each: 'parcel', amount: 1, containers: ['pouch-b'] }] }),
  ];
  const used = (container: string, type: 'pouch' | 'carton' | null, pieces: number, wrap: string) =>
    Object.fromEntries(usedBy({ containers: containersIn(container), type, pieces, wrap }, supplies));

  it.each<[string, Parameters<typeof used>, Readonly<Record<string, number>>]>([
    ['a pouch', ['pouch-a', 'pouch', 1, 'none'], { inner: 1, label: 1 }],
    [
      'a pouch in a pouch takes one of both',
      ['pouch-b+pouch-a', 'pouch', 1, 'none'],
      { inner: 1, outer: 1, label: 1, card: 1 },
    ],
    ['the same pouch twice takes two', ['pouch-a+pouch-a', 'pouch', 1, 'none'], { inner: 2, label: 1 }],
    [
      'a carton with three wrapped pieces',
      ['carton', 'carton', 3, 'tissue'],
      { box: 1, label: 1, tape: 1200, tissue: 6 },
    ],
    ['what nobody keeps', ['elsewhere', 'pouch', 1, 'none'], { label: 1 }],
    ['of a container of no known type nothing by its type', ['carton', null, 2, 'none'], { box: 1, label: 1 }],
    ['in another wrap no tissue', ['pouch-a', 'pouch', 2, 'paper'], { inner: 1, label: 1 }],
  ])('%s', (_, parcel, expected) => {
    expect(used(...parcel)).toEqual(expected);
  });

  it('comes in lumps of its largest single use', () => {
    expect(lumpOf(supply('bag', { container: 'pouch-a' }))).toBe(1);
    const uses = [1200, 3000, 500].map((amount) => ({ each: 'parcel', amount }) as const);
    expect(lumpOf(supply('tape', { uses }))).toBe(3000);
  });
});

describe('amounts', () => {
  it.each([
    ['120', 'piece', 120, '120'],
    ['66 m', 'length', 66 * 40_000_000, '72.2 yd'],
    ['50 yd', 'length', 50 * 36_576_000, '50.0 yd'],
    ['0.5 ft', 'length', 6_096_000, '0.2 yd'],
    ['250 CM', 'length', 100_000_000, '2.7 yd'],
    ['2540 mm', 'length', 101_600_000, '2.8 yd'],
    ['36 in', 'length', 36_576_000, '1.0 yd'],
    [' 0 ', 'piece', 0, '0'],
  ] as const)('%s of a %s', (text, unit, base, words) => {
    expect(parseAmount(text, unit)).toBe(base);
    expect(amountWords(base, unit, 'in', 'en')).toBe(words);
  });

  it('without a unit is of that in which the shop measures its rolls', () => {
    expect(parseAmount('2', 'length')).toBe(80_000_000);
    expect(parseAmount('2', 'length', rollUnit('in'))).toBe(2 * 36_576_000);
    expect(parseAmount('2', 'length', rollUnit('cm'))).toBe(80_000_000);
    expect(amountWords(80_000_000, 'length', 'cm', 'en')).toBe('2.0 m');
    expect(amountShown(60_000_000, 'length', 'mm')).toBe(1.5);
    expect(amountShown(36_576_000, 'length', 'in')).toBe(1);
    expect(amountShown(7, 'piece', 'in')).toBe(7);
    expect(amountWords(6.66, 'piece', 'in', 'en')).toBe('6.7');
  });

  it.each([
    ['1.5', 'piece', 'too-fine'],
    ['3 pcs', 'piece', 'unknown-unit'],
    ['3 miles', 'length', 'unknown-unit'],
    ['-0.1 m', 'length', 'out-of-range'],
    ['1.2.3 m', 'length', 'not-a-quantity'],
    ['66 m long', 'length', 'not-a-quantity'],
    ['1000000000 m', 'length', 'too-large'],
    ['of 3 m', 'length', 'not-a-quantity'],
  ] as const)('"%s" is refused of a %s as %s', (text, unit, code) => {
    expect(() => parseAmount(text, unit)).toThrow(expect.objectContaining({ name: 'UnitError', code }));
  });

  it('says what was expected of what is counted and of what is measured, and what was there', () => {
    const piece = 'amount: expected a whole number such as 120, found ';
    const length = 'amount: expected a length such as 66 m, found ';
    for (const text of ['many!', '3 m', '1.5']) expect(() => parseAmount(text, 'piece')).toThrow(`${piece}"${text}"`);
    for (const text of ['', '1.2.3 m']) expect(() => parseAmount(text, 'length')).toThrow(`${length}"${text}"`);
    expect(() => parseAmount('3 miles', 'length')).toThrow(
      'expected mm, cm, m, in, ft or yd, found "miles" in "3 miles"',
    );
  });

  it.each([
    ['1.5', 'piece'],
    ['-2', 'piece'],
    ['3 m', 'piece'],
    ['many', 'piece'],
    ['3 miles', 'length'],
    ['', 'length'],
  ] as const)('"%s" is no amount of a %s, and is named', (text, unit) => {
    expect(() => parseAmount(text, unit)).toThrow(/^amount: expected .*found/);
  });
});
