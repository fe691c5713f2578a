import { describe, expect, it } from 'vitest';
import { commandsFor } from '#shared/run/commands-for.ts';
import { transition } from '#shared/run/transition.ts';
import type { Lies, RunInput } from '#shared/run/types.ts';
import {
  after,
  command,
  FACTS,
  labelScan,
  parcel,
  pieceScan,
  plan,
  reading,
  taken,
} from '#tests/support/run-fixtures.ts';
import { benchViewFixture } from '#tests/support/view-fixture.ts';

const BASKET: Lies = { at: 'basket', number: 3, folded: true };
const from = (lies: Lies, parcels = [parcel(['A', 'B'])]) =>
  after([{ ...taken(parcels), lies } as Extract<RunInput, { type: 'order-taken' }>]);

describe('an order that was folded ahead', () => {
  it('says in which basket it lies, has its pieces proved, and goes on with the container', () => {
    const begun = from(BASKET);
    expect(begun.notice).toMatchObject({ code: 'order-folded', values: { basket: '3' } });
    expect(benchViewFixture(begun).order).toMatchObject({ lies: BASKET });
    // A shelf that is empty is not shown.
    expect(benchViewFixture(begun).order?.pieces.map(({ place }) => place)).toEqual([null, null]);
    const filled = after([pieceScan('A'), pieceScan('B')], begun);
    expect(filled.step).toEqual({ at: 'fill' });
    expect(benchViewFixture(filled).seam.stitches.map(({ step }) => step)).toEqual([
      'gather',
      'fill',
      'weigh',
      'seal',
      'label',
    ]);
    expect(after([command('back')], filled)).toMatchObject({ step: { at: 'gather' }, gathered: {} });
    expect(after([command('next'), command('next')], begun).step).toEqual({ at: 'fill' });
  });

  it('says nothing of how it is usually folded', () => {
    const quiet = { ...from(BASKET), guidance: { 't-shirt': { level: 'quiet', usual: 'flat' } } } as const;
    expect(benchViewFixture(after([pieceScan('A'), pieceScan('B')], quiet)).task).toMatchObject({
      at: 'fill',
      asUsual: [],
    });
  });

  it('is folded anew where its container does not close and the next one asks for another fold', () => {
    const filled = after([pieceScan('A'), pieceScan('B')], from(BASKET));
    const tight = transition(filled, command('too-tight'), FACTS).state;
    const again = transition(tight, { type: 'replanned', plan: plan([parcel(['A', 'B'], 'box', 'loose')]) }, FACTS);
    expect(again.effects).toEqual([{ type: 'folded-otherwise', order: '1047' }]);
    expect(again.state.step).toEqual({ at: 'fold', piece: 0, step: 0 });
    const same = transition(tight, { type: 'replanned', plan: plan([parcel(['A', 'B'], 'box')]) }, FACTS);
    expect([same.effects, same.state.step]).toEqual([[], { at: 'fill' }]);
  });

  it('that has to be folded anew is looked over and folded like any other', () => {
    const begun = from({ ...BASKET, folded: false });
    expect(begun.notice?.code).toBe('folded-otherwise');
    expect(after([pieceScan('A'), pieceScan('B')], begun).step).toEqual({ at: 'look-over', piece: 0 });
  });
});

it('an order that was set aside says at which place of the shelf it lies, and is packed from there', () => {
  const begun = from({ at: 'aside', number: 2 });
  expect(begun.notice).toMatchObject({ code: 'order-was-aside', values: { place: '2' } });
  expect(after([pieceScan('A'), pieceScan('B')], begun).step).toEqual({ at: 'look-over', piece: 0 });
});

describe('giving an order back', () => {
  it('is possible until its container is filled, asks first, and frees it with everything gathered', () => {
    const inHand = after([taken([parcel(['A'])]), pieceScan('A'), command('next')]);
    expect(inHand.step.at).toBe('fold');
    const asked = transition(inHand, command('release'), FACTS);
    expect([asked.effects, asked.state.confirming?.command]).toEqual([[], 'release']);
    const done = transition(asked.state, command('confirm', 'voice'), { ...FACTS, now: FACTS.now + 60_000 });
    expect(done.state.confirming).not.toBeNull();
    const sure = transition(asked.state, command('confirm'), { ...FACTS, now: FACTS.now + 1000 });
    expect(sure.effects).toEqual([{ type: 'release-order', order: '1047' }]);
    expect(sure.state).toMatchObject({ order: null, step: { at: 'idle' }, gathered: {} });
    expect(sure.state.notice?.code).toBe('released');
    const filling = after([command('next'), command('next')], inHand);
    expect([filling.step.at, commandsFor(filling).includes('release')]).toEqual(['fill', false]);
  });

  it('is not possible any more once a parcel of it is packed, from the bench or from the office', () => {
    const packedOne = after([
      taken([parcel(['A']), parcel(['B'])]),
      pieceScan('A'),
      pieceScan('B'),
      ...Array.from({ length: 5 }, () => command('next')),
      { type: 'reading', reading: reading('14.5') },
      command('next'),
      labelScan('N1', null),
    ]);
    expect([packedOne.parcel, packedOne.step.at]).toEqual([1, 'fold']);
    expect(commandsFor(packedOne)).not.toContain('release');
    expect(transition(packedOne, { type: 'released-by-office', order: '1047' }, FACTS).accepted).toBe(false);
  });

  it('by the office works for the order that the bench has in hand, and no other', () => {
    const inHand = after([taken([parcel(['A'])]), pieceScan('A')]);
    const taking = (order: string) => transition(inHand, { type: 'released-by-office', order }, FACTS);
    expect(taking('1048')).toMatchObject({ accepted: false, effects: [] });
    const done = taking('1047');
    expect(done.effects).toEqual([{ type: 'release-order', order: '1047' }]);
    expect(done.state.notice?.code).toBe('released-by-office');
    expect(transition(done.state, { type: 'released-by-office', order: '1047' }, FACTS).accepted).toBe(false);
  });
});
