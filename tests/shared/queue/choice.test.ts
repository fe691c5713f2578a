import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Collections } from '#shared/day-board/collections.ts';
import { atRisk } from '#shared/day-board/counts.ts';
import { chanceInTime, riskOf } from '#shared/day-board/risk.ts';
import { compareTurns, firstInTurn, whyNext, type BenchBefore, type WaitingOrder } from '#shared/queue/choice.ts';

const HALF_PAST_FOUR = 1_000_000;
const order = (id: string, change: Partial<WaitingOrder> = {}): WaitingOrder => ({
  id,
  collection: HALF_PAST_FOUR,
  container: 'pouch-a',
  shelf: 'B2',
  cameAt: 100,
  ...change,
});
const NOTHING: BenchBefore = { container: null, shelf: null };
const POUCH_A_AT_B2: BenchBefore = { container: 'pouch-a', shelf: 'B2' };

describe('which order is next', () => {
  it.each([
    [
      'what is collected sooner, whatever lies ready',
      'b',
      [order('a'), order('b', { collection: HALF_PAST_FOUR - 1, container: 'box', shelf: 'Z' })],
      POUCH_A_AT_B2,
      'collection',
    ],
    [
      'with one collection, the same container as before',
      'b',
      [order('a', { container: 'box', cameAt: 1 }), order('b', { shelf: 'Z' })],
      POUCH_A_AT_B2,
      'container',
    ],
    [
      'with the same container too, the same shelf',
      'b',
      [order('a', { shelf: 'A1', cameAt: 1 }), order('b')],
      POUCH_A_AT_B2,
      'shelf',
    ],
    [
      'where no container is the one before, the same shelf',
      'b',
      [order('a', { shelf: 'A1', cameAt: 1, container: 'box' }), order('b', { container: 'card' })],
      POUCH_A_AT_B2,
      'shelf',
    ],
    ['else the one that waits longest', 'b', [order('a'), order('b', { cameAt: 99 })], POUCH_A_AT_B2, 'age'],
    ['of the same age, by its number', 'a', [order('b'), order('a')], POUCH_A_AT_B2, 'age'],
    [
      'at a bench that has packed nothing, neither container nor shelf counts',
      'b',
      [order('a', { container: 'box', shelf: 'A1' }), order('b', { cameAt: 99 })],
      NOTHING,
      'age',
    ],
    [
      'a container that is not known yet is not the same as one that nothing was packed into',
      'b',
      [order('a', { container: null, shelf: null }), order('b', { cameAt: 99 })],
      NOTHING,
      'age',
    ],
  ] as const)('%s', (_, expected, waiting, before, by) => {
    const [first, second] = firstInTurn<WaitingOrder>(waiting, before, 2);
    if (first === undefined) throw new Error('nothing is next');
    expect(first.id).toBe(expected);
    expect(whyNext(first, second, before).by).toBe(by);
  });

  it('of one order alone says that nothing else waits', () => {
    expect(whyNext(order('a'), undefined, POUCH_A_AT_B2)).toEqual({ sameContainer: true, sameShelf: true, by: null });
    const elsewhere = order('a', { container: 'box', shelf: null });
    expect(whyNext(elsewhere, undefined, NOTHING)).toEqual({ sameContainer: false, sameShelf: false, by: null });
  });
});

const few = <Value>(...values: readonly Value[]) => fc.constantFrom(...values);
const anyOrder: fc.Arbitrary<WaitingOrder> = fc.record({
  id: few('1', '2', '3', '4', '5', '6', '7', '8', '9'),
  collection: few(1, 2, 3),
  container: few('pouch-a', 'box', null),
  shelf: few('A1', 'B2', null),
  cameAt: few(1, 2),
});
const anyBefore = fc.record({ container: few('pouch-a', 'box', null), shelf: few('A1', 'B2', null) });

describe('the turns of a queue', () => {
  it('are a total order: only an order itself is equal to it, and no three go in a circle', () => {
    fc.assert(
      fc.property(anyOrder, anyOrder, anyOrder, anyBefore, (a, b, c, before) => {
        expect(compareTurns(a, a, before)).toBe(0);
        const [ab, bc, ac] = [compareTurns(a, b, before), compareTurns(b, c, before), compareTurns(a, c, before)];
        expect(Math.sign(ab)).toBe(-Math.sign(compareTurns(b, a, before)) + 0);
        if (ab === 0) expect(a.id).toBe(b.id);
        if (ab <= 0 && bc <= 0) expect(ac).toBeLessThanOrEqual(0);
      }),
    );
  });

  it('begin as the whole queue sorted would, whatever the order in which they are looked at', () => {
    const queue = fc.uniqueArray(anyOrder, { selector: ({ id }) => id });
    fc.assert(
      fc.property(queue, anyBefore, fc.integer({ min: 1, max: 5 }), (waiting, before, most) => {
        const sorted = [...waiting].sort((a, b) => compareTurns(a, b, before)).slice(0, most);
        expect(firstInTurn(waiting, before, most)).toEqual(sorted);
        expect(firstInTurn([...waiting].reverse(), before, most)).toEqual(sorted);
      }),
    );
  });

  it('give no order twice and leave none out', () => {
    const queue = fc.uniqueArray(anyOrder, { selector: ({ id }) => id });
    fc.assert(
      fc.property(queue, fc.infiniteStream(anyBefore), (waiting, befores) => {
        let left: readonly WaitingOrder[] = waiting;
        const taken: string[] = [];
        while (left.length > 0) {
          const [next] = firstInTurn(left, befores.next().value as BenchBefore, 1);
          taken.push(next?.id ?? '');
          left = left.filter((each) => each !== next);
        }
        expect([...taken].sort()).toEqual(waiting.map(({ id }) => id).sort());
      }),
    );
  });
});

const counted = (times: readonly number[]): Collections => {
  const collections = new Collections();
  for (const each of times) collections.add(each);
  return collections;
};

it('counts the same as looking at one order after the other', () => {
  const pace = fc.record({
    mean: fc.integer({ min: 1, max: 900 }),
    sd: fc.integer({ min: 1, max: 900 }),
    orders: fc.constant(50),
  });
  const minutes = fc.array(fc.integer({ min: -2_000, max: 20_000 }).map((each) => each * 600));
  fc.assert(
    fc.property(minutes, fc.nat(20), fc.integer({ min: 1, max: 5 }), pace, (collections, inHand, benches, each) => {
      const risks = [...collections]
        .sort((a, b) => a - b)
        .map((at, index) => riskOf(chanceInTime(inHand + index + 1, benches, each, at / 1000), at / 1000));
      const missed = risks.filter((risk) => risk === 'missed').length;
      const safe = risks.filter((risk) => risk === 'safe').length;
      expect(atRisk(counted(collections), inHand, { benches, pace: each, now: 0 })).toEqual({
        missed,
        atRisk: risks.length - missed - safe,
      });
    }),
  );
});

it('counts collections of the same minutes one after the other, whichever was added first', () => {
  // Two minutes an order, always, one bench.
  const pace = { mean: 120, sd: 1, orders: 50 };
  const seconds = (...all: readonly number[]) => counted(all.map((each) => each * 1000));
  const at = (collections: Collections, now = 0) => atRisk(collections, 0, { benches: 1, pace, now });
  // The first by 130 s, the second by 250 s: only so does the second leave in time.
  expect(at(seconds(130, 250))).toEqual({ atRisk: 0, missed: 0 });
  expect(at(seconds(250, 130))).toEqual({ atRisk: 0, missed: 0 });
  expect(at(seconds(130, 230))).toEqual({ atRisk: 1, missed: 0 });
  expect(at(seconds(130, 130, 290))).toEqual({ atRisk: 2, missed: 0 });
  // The first has just gone, the last of these minutes may still be had.
  expect(at(seconds(100, 299, 298), 100_000)).toEqual({ atRisk: 2, missed: 1 });
  expect(at(seconds(299, 300), 300_000)).toEqual({ atRisk: 0, missed: 2 });
});

it('counts what has missed its collection and what may miss it', () => {
  // Ten minutes an order, always: the third of one bench is done in 30 minutes.
  const pace = { mean: 600, sd: 1, orders: 50 };
  const minutes = (...all: readonly number[]) => all.map((each) => each * 60_000);
  const at = (collections: readonly number[], inHand = 0, benches = 1) =>
    atRisk(counted(collections), inHand, { benches, pace, now: 0 });
  expect(at(minutes(11, 21, 31))).toEqual({ atRisk: 0, missed: 0 });
  expect(at(minutes(11, 21, 29))).toEqual({ atRisk: 1, missed: 0 });
  expect(at(minutes(11, 21, 31), 1)).toEqual({ atRisk: 3, missed: 0 });
  expect(at(minutes(11, 11, 21), 0, 2)).toEqual({ atRisk: 0, missed: 0 });
  expect(at(minutes(-1, 21, 31))).toEqual({ atRisk: 0, missed: 1 });
  expect(at(minutes(0, 0, 31))).toEqual({ atRisk: 0, missed: 2 });
  expect(at(minutes(31), 1)).toEqual({ atRisk: 0, missed: 0 });
  const later = counted(minutes(11 + 60, 21 + 60, 29 + 60));
  expect(atRisk(later, 0, { benches: 1, pace, now: 3_600_000 })).toEqual({ atRisk: 1, missed: 0 });
});
