import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { applyChange, changeBetween } from '#shared/day-board/apply-change.ts';
import { paceOf } from '#shared/day-board/pace.ts';
import { chanceInTime, riskOf } from '#shared/day-board/risk.ts';
import type { DayBoard, DayOrder } from '#shared/wire/day.ts';
import { seeded } from '#tests/support/seeded.ts';

describe('the chance of being packed in time', () => {
  const pace = { mean: 240, sd: 90, orders: 40 };
  it('is that of trying it out: orders one after the other, each with a time of its own', () => {
    const uniform = seeded(5);
    // Gamma with the same mean and spread, as sums of exponentials would have it: shape (240/90)^2 = 7.1, taken as 7.
    const gamma = () => {
      let product = 1;
      for (let each = 0; each < 7; each++) product *= 1 - uniform();
      return -Math.log(product) * (240 / 7);
    };
    const spread = { ...pace, sd: 240 / Math.sqrt(7) };
    for (const [place, left] of [
      [4, 900],
      [10, 2500],
      [20, 5200],
    ] as const) {
      let inTime = 0;
      for (let draw = 0; draw < 6000; draw++) {
        let sum = 0;
        for (let order = 0; order < place; order++) sum += gamma();
        if (sum <= left) inTime++;
      }
      expect(Math.abs(chanceInTime(place, 1, spread, left) - inTime / 6000)).toBeLessThan(0.03);
    }
  });

  it('falls with the place in the queue, rises with time and benches, and is none once the collection has gone', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 500 }),
        fc.integer({ min: 1, max: 9 }),
        fc.integer({ min: 1, max: 40_000 }),
        (place, benches, left) => {
          const chance = chanceInTime(place, benches, pace, left);
          expect(chance).toBeGreaterThanOrEqual(chanceInTime(place + 1, benches, pace, left) - 1e-12);
          expect(chanceInTime(place, benches + 1, pace, left)).toBeGreaterThanOrEqual(chance - 1e-12);
          expect(chanceInTime(place, benches, pace, left + 60)).toBeGreaterThanOrEqual(chance - 1e-12);
        },
      ),
    );
    expect(chanceInTime(1, 3, pace, 0)).toBe(0);
  });

  it('is even where just the mean of its turns is left: benches pack side by side, and none counts as one', () => {
    expect(chanceInTime(1, 1, pace, 240)).toBeCloseTo(0.5, 9);
    expect(chanceInTime(5, 2, pace, 3 * 240)).toBeCloseTo(0.5, 9);
    expect(chanceInTime(2, 0, pace, 2 * 240)).toBeCloseTo(0.5, 9);
    // One standard deviation to spare: 84.134 %, Abramowitz and Stegun, table 26.1 (from memory). Four turns spread by twice 90 s.
    expect(chanceInTime(4, 1, pace, 4 * 240 + 180)).toBeCloseTo(0.84134, 4);
  });

  it.each([
    [1, 100, 'safe'],
    [0.95, 100, 'safe'],
    [0.9499, 100, 'tight'],
    [0.5, 100, 'tight'],
    [0.49, 100, 'late'],
    [0, -1, 'missed'],
    [1, 0, 'missed'],
  ] as const)('%s with %s s left is %s', (chance, left, risk) => {
    expect(riskOf(chance, left)).toBe(risk);
  });
});

describe('the pace', () => {
  it('is a guess at first, then what the orders took; one left lying over lunch changes little', () => {
    expect(paceOf([])).toEqual({ mean: 240, sd: 120, orders: 0 });
    const steady = paceOf(Array.from({ length: 60 }, () => 100));
    expect(steady.mean).toBeCloseTo((60 * 100 + 5 * 240) / 65, 9);
    const lunch = paceOf([...Array.from({ length: 59 }, () => 100), 3600]);
    expect(lunch.mean).toBeCloseTo(steady.mean, 9);
  });

  it('takes what is above nine tenths of the orders for no longer than those', () => {
    // Of eleven the tenth took 200 s, so the hour counts 200 s: (9 x 100 + 2 x 200 + 5 x 240) / 16 = 156.25 s.
    const pace = paceOf([100, 3600, 100, 200, ...Array.from({ length: 7 }, () => 100)]);
    expect(pace.orders).toBe(11);
    expect(pace.mean).toBeCloseTo(156.25, 9);
    // 9 x 56.25^2 + 2 x 43.75^2 + 5 x (120^2 + 83.75^2) = 139,375; a sixteenth of it.
    expect(pace.sd ** 2).toBeCloseTo(139_375 / 16, 6);
  });
});

const order = (id: string): fc.Arbitrary<DayOrder> =>
  fc.record({
    id: fc.constant(id),
    buyer: fc.constantFrom('A', 'B'),
    pieces: fc.constant(1),
    collection: fc.constantFrom('2026-11-25T16:30', '2026-11-26T16:30'),
    state: fc.constantFrom('open', 'packing', 'set-aside'),
    bench: fc.constantFrom(null, 'bench-1'),
    reason: fc.constant(null),
    chance: fc.constantFrom(null, 5, 95),
    risk: fc.constantFrom(null, 'late', 'safe'),
  });
const board: fc.Arbitrary<DayBoard> = fc
  .uniqueArray(fc.integer({ min: 1, max: 60 }), { maxLength: 30 })
  .chain((ids) => fc.tuple(...ids.map((id) => order(String(id)))))
  .map((orders) => ({
    now: 0,
    timeZone: 'UTC',
    pace: { mean: 1, sd: 1, orders: 0 },
    working: 1,
    doneToday: orders.length,
    overdue: 0,
    benches: [],
    collections: [],
    orders: [...orders].sort((a, b) => (a.collection + a.id < b.collection + b.id ? -1 : 1)),
  }));

it('takes what is new or moved to its place by collection and number, and lets the rest stand', () => {
  const at = (id: string, collection: string): DayOrder => ({
    id,
    buyer: 'A',
    pieces: 1,
    collection: `2026-11-${collection}T16:30`,
    state: 'open',
    bench: null,
    reason: null,
    chance: null,
    risk: null,
  });
  const orders = [at('b', '25'), at('e', '25'), at('a', '26'), at('d', '26')];
  const summary = {
    now: 0,
    timeZone: 'UTC',
    pace: { mean: 1, sd: 1, orders: 0 },
    working: 1,
    doneToday: 0,
    overdue: 0,
  };
  const before: DayBoard = { ...summary, benches: [], collections: [], orders };
  const ids = (change: { readonly changed: readonly DayOrder[]; readonly gone: readonly string[] }) =>
    applyChange(before, { ...summary, benches: [], collections: [], ...change }).orders.map(({ id }) => id);
  expect(ids({ changed: [], gone: [] })).toEqual(['b', 'e', 'a', 'd']);
  expect(ids({ changed: [], gone: ['e'] })).toEqual(['b', 'a', 'd']);
  expect(ids({ changed: [at('c', '25'), at('f', '24'), at('a', '27')], gone: ['e'] })).toEqual([
    'f',
    'b',
    'c',
    'd',
    'a',
  ]);
  expect(ids({ changed: [at('a', '25')], gone: [] })).toEqual(['a', 'b', 'e', 'd']);
});

it('what became different, applied to the board before, is the board after, however they differ', () => {
  fc.assert(
    fc.property(board, board, (before, after) => {
      const change = changeBetween(before, after);
      expect(applyChange(before, change)).toEqual(after);
      expect(changeBetween(after, after)).toMatchObject({ changed: [], gone: [] });
    }),
  );
});
