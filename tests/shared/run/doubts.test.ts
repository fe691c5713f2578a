import { describe, expect, it } from 'vitest';
import type { OrderPlan, ParcelPlan } from '#shared/planning/types.ts';
import { remarksOn } from '#shared/run/remarks.ts';
import { IDLE } from '#shared/run/initial.ts';
import { transition } from '#shared/run/transition.ts';
import type { RunInput, RunState } from '#shared/run/types.ts';
import { after, command, container, FACTS, order, parcel, plan, reading } from '#tests/support/run-fixtures.ts';
import { benchViewFixture } from '#tests/support/view-fixture.ts';

const containerScan = (id: string): RunInput => ({
  type: 'scan',
  by: 'scan',
  meaning: { means: 'container', text: id, container: id },
});

function taken(parcels: readonly ParcelPlan[], more: Partial<OrderPlan> = {}): RunState {
  const skus = parcels.flatMap((each) => each.pieces.map(({ piece }) => ({ sku: piece.sku, count: 1 })));
  const input = { type: 'order-taken', run: 'run-1', order: order(skus), plan: { ...plan(parcels), ...more } } as const;
  return transition(IDLE, input, FACTS).state;
}

function toFill(state: RunState): RunState {
  let here = state;
  for (let guard = 0; here.step.at !== 'fill' && guard < 40; guard++) here = after([command('next')], here);
  return here;
}

const DOUBLE: ParcelPlan = {
  ...parcel(['T1']),
  container: { ...container('pouch-b+pouch-a'), doubled: { outer: 'pouch-b', inner: 'pouch-a' } },
};

describe('a double bag at the bench', () => {
  it.each(['pouch-a', 'pouch-b'])('is proven by a scan of either pouch: %s', (id) => {
    const scanned = transition(toFill(taken([DOUBLE])), containerScan(id), FACTS);
    expect(scanned.accepted).toBe(true);
    expect(scanned.state.step.at).toBe('weigh');
    expect(scanned.state.notice?.code).toBe('container-right');
  });

  it('is not proven by another one', () => {
    const scanned = transition(toFill(taken([DOUBLE])), containerScan('pouch-c'), FACTS);
    expect(scanned.accepted).toBe(false);
    expect(scanned.state.notice).toMatchObject({ code: 'container-wrong', values: { found: 'pouch-c' } });
  });

  it('is named by both pouches, and so are piles', () => {
    const piled: ParcelPlan = { ...DOUBLE, fit: { ...DOUBLE.fit, piles: 2 } };
    expect(benchViewFixture(taken([piled])).container).toMatchObject({
      doubled: { inner: { en: 'pouch-a' }, outer: { en: 'pouch-b' } },
      piles: 2,
    });
    expect(benchViewFixture(taken([parcel(['T1'])])).container).toMatchObject({ doubled: null, piles: 1 });
  });
});

describe('what the bench says of a plan that is not certain', () => {
  const assuming = (what: readonly ('size' | 'cloth')[], weighed: boolean): ParcelPlan => {
    const plain = parcel(['T1']);
    const [each] = plain.pieces;
    if (each === undefined) throw new Error('a parcel without a piece');
    const piece = weighed ? { ...each.piece, mass: reading('7.1').mass } : each.piece;
    return { ...plain, pieces: [{ ...each, piece, fold: { ...each.fold, assumed: what } }] };
  };
  const doubtsOf = (state: RunState) => benchViewFixture(state).container?.doubts;

  it('nothing of a plan that is', () => {
    expect(doubtsOf(taken([parcel(['T1'])]))).toEqual([]);
  });

  it('size and cloth that were assumed, and whether the mass is known all the same', () => {
    expect(doubtsOf(taken([assuming(['size', 'cloth'], false)]))).toEqual([
      { about: 'assumed', what: ['size', 'cloth'], weighed: false },
    ]);
    expect(doubtsOf(taken([assuming(['size'], true)]))).toEqual([{ about: 'assumed', what: ['size'], weighed: true }]);
  });

  it('of those that nobody weighed where there are such, whatever the others lack', () => {
    const [unweighed, weighed] = [assuming(['size'], false), assuming(['cloth'], true)];
    const two = { ...unweighed, pieces: [...weighed.pieces, ...unweighed.pieces] };
    expect(doubtsOf(taken([two]))).toEqual([{ about: 'assumed', what: ['size'], weighed: false }]);
    const both = { ...unweighed, pieces: [...unweighed.pieces, ...assuming(['cloth'], false).pieces] };
    expect(doubtsOf(taken([both]))).toEqual([{ about: 'assumed', what: ['size', 'cloth'], weighed: false }]);
  });

  it('by how much it can be dearer at most, and what the cheapest costs at least', () => {
    // two parcels of 730 minor units each
    const state = taken([parcel(['T1']), parcel(['T2'])], { proven: false, lowerBound: 1198.4 });
    const told = { about: 'not-proven', dearer: { minor: 262 }, least: { minor: 1198 } };
    expect(doubtsOf(state)).toMatchObject([told]);
    const dearer: ParcelPlan = { ...parcel(['T1'], 'pouch-z'), cost: { ...parcel(['T1']).cost, total: 800 } };
    const replanned = transition(toFill(state), { type: 'replanned', plan: plan([dearer]) }, FACTS).state;
    expect(doubtsOf(replanned)).toMatchObject([{ ...told, dearer: { minor: 332 } }]);
  });

  it('a promise that cannot be kept, also once planned anew', () => {
    const promise = { service: 'quick', arriveBy: '2026-11-27', kept: false };
    const state = taken([parcel(['T1'])], { promise });
    const told = { about: 'promise', service: { en: 'quick', es: 'quick' }, arriveBy: '2026-11-27' };
    expect(doubtsOf(state)).toEqual([told]);
    const replanned = transition(toFill(state), { type: 'replanned', plan: plan([parcel(['T1'], 'b')]) }, FACTS).state;
    expect(doubtsOf(replanned)).toEqual([told]);
    expect(doubtsOf(taken([parcel(['T1'])], { promise: { ...promise, kept: true } }))).toEqual([]);
  });

  it('nothing more once the bench is empty again', () => {
    const state = taken([parcel(['T1'])], { promise: { service: 'quick', kept: false } });
    expect(after([command('back')], state).remarks).toBeUndefined();
  });
});

it('what is not proven is remarked with what it costs at least, where that is known', () => {
  const planned = plan([parcel(['A'])]);
  expect(remarksOn({ ...planned, lowerBound: 7 })).toEqual({});
  expect(remarksOn({ ...planned, proven: false })).toEqual({});
  expect(remarksOn({ ...planned, proven: false, lowerBound: 7 })).toEqual({ leastCost: 7 });
});
