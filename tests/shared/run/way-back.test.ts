import { describe, expect, it } from 'vitest';
import type { ParcelPlan } from '#shared/planning/types.ts';
import { transition } from '#shared/run/transition.ts';
import type { RunInput, RunState } from '#shared/run/types.ts';
import {
  after,
  command,
  FACTS,
  labelScan,
  parcel,
  pieceScan,
  plan,
  plannedPiece,
  taken,
} from '#tests/support/run-fixtures.ts';
import { toClose, toFill, toFold, toLabel, toSeal, toWeigh, weighed } from '#tests/support/run-moments.ts';
import { lying } from '#tests/support/run-told.ts';

const next = command('next');
const give = (from: readonly RunInput[], input: RunInput) =>
  transition(after(from), input, { ...FACTS, now: FACTS.now + 1_000_000 });

describe('the way back', () => {
  it.each<[string, readonly RunInput[], RunState['step']]>([
    ['from the label to sealing', toLabel, { at: 'seal' }],
    ['from sealing to the scale', toSeal, { at: 'weigh' }],
    ['from the decision to the filling', toClose, { at: 'fill' }],
    ['from the scale to the filling', toWeigh, { at: 'fill' }],
    ['from the filling to the last fold', toFill, { at: 'fold', piece: 1, step: 1 }],
    ['within a fold', toFill.slice(0, -1), { at: 'fold', piece: 1, step: 0 }],
    ['from the second piece that is looked over', toFold.slice(0, -1), { at: 'look-over', piece: 0 }],
  ])('%s', (_, from, step) => {
    expect(after([...from, command('back')]).step).toEqual(step);
  });

  it('to the gathering begins it anew', () => {
    const back = after([...toFold, command('back'), command('back'), command('back')]);
    expect([back.step, back.gathered]).toEqual([{ at: 'gather' }, {}]);
    expect(after([...toFold, command('back')]).gathered).toEqual({ A: 1, B: 1 });
  });

  const second = [
    taken([parcel(['A']), parcel(['B'])]),
    pieceScan('A'),
    pieceScan('B'),
    ...Array.from({ length: 5 }, () => next),
    weighed('14.5'),
    next,
    labelScan('N1', null),
  ];
  it('from the second parcel ends at its first fold', () => {
    const { state, accepted } = give(second, command('back'));
    expect([state.step, accepted]).toEqual([{ at: 'fold', piece: 0, step: 0 }, false]);
    expect(give([...second, next], command('back')).state.step).toEqual({ at: 'fold', piece: 0, step: 0 });
  });

  it('within the second parcel leads from piece to piece, to the last step of each', () => {
    const long = { ...parcel([]), pieces: [plannedPiece('B', 'flat', 3), plannedPiece('C')] };
    const begun = [
      taken([parcel(['A']), long]),
      ...['A', 'B', 'C'].map(pieceScan),
      next,
      ...second.slice(3),
      next,
      next,
      next,
    ];
    expect(after(begun).step).toEqual({ at: 'fold', piece: 1, step: 0 });
    expect(after([...begun, command('back')]).step).toEqual({ at: 'fold', piece: 0, step: 2 });
    expect(after([...begun, next, next, command('back')]).step).toEqual({ at: 'fold', piece: 1, step: 1 });
  });

  it('from the second parcel of what was folded ahead does not reach the gathering', () => {
    const folded = after([
      { ...(second[0] as Extract<RunInput, { type: 'order-taken' }>), lies: { at: 'basket', number: 1, folded: true } },
    ]);
    const filling = after([pieceScan('A'), pieceScan('B'), next, weighed('14.5'), next, labelScan('N1', null)], folded);
    expect([filling.parcel, filling.step]).toEqual([1, { at: 'fill' }]);
    const { state, accepted } = transition(filling, command('back'), FACTS);
    expect([state.step, accepted]).toEqual([{ at: 'fill' }, false]);
  });

  it('and what the first parcel was is kept: its label, its weight; its slip is the next one’s', () => {
    const tight = {
      ...after(second.slice(0, -1)),
      tooTight: ['pouch-z'],
      nextBest: { container: { en: 'x', es: 'x' }, dearerBy: 1 },
    };
    const state = after([labelScan('N1', null)], tight);
    expect(state).toMatchObject({ parcel: 1, slip: 'none', tooTight: [], nextBest: null });
    expect(state.progress).toMatchObject([
      { label: { number: 'N1' }, weighing: { because: null } },
      { label: null, weighing: null },
    ]);
    const done = after(
      [
        next,
        next,
        next,
        weighed('15.9'),
        command('pay-next-bracket'),
        command('confirm'),
        next,
        next,
        command('confirm'),
      ],
      state,
    );
    expect(done.step).toEqual({ at: 'done' });
    expect(done.progress).toMatchObject([
      { label: { number: 'N1' }, weighing: { decided: null } },
      { label: 'by-eye', weighing: { decided: 'pay-next-bracket' } },
    ]);
    // A number checked by eye is nobody's: the same label scanned later is judged by itself.
    expect(give(second, { type: 'print-result', outcome: 'failed' }).accepted).toBe(false);
  });
});

describe('another plan for the parcel at hand', () => {
  const both = [
    taken([parcel(['A']), parcel(['B'])]),
    pieceScan('A'),
    pieceScan('B'),
    ...Array.from({ length: 4 }, () => next),
  ];
  const anew = (parcels: readonly ParcelPlan[]): RunInput => ({ type: 'replanned', plan: plan(parcels) });
  const ids = (state: RunState) => state.parcels.map(({ container: { id } }) => id);
  const wrapped = (each: ParcelPlan): ParcelPlan => ({ ...each, wrap: { ...each.wrap, id: 'tissue' } });

  it('takes its place among the others, also as two', () => {
    const first = after([...both, anew([parcel(['A'], 'x'), parcel([], 'y')])]);
    expect([ids(first), first.progress.length]).toEqual([['x', 'y', 'pouch-a'], 3]);
    const second = after([
      ...both,
      next,
      weighed('14.5'),
      next,
      labelScan('N1', null),
      next,
      anew([parcel(['B'], 'x')]),
    ]);
    expect(ids(second)).toEqual(['pouch-a', 'x']);
    expect(second.progress).toMatchObject([{ label: { number: 'N1' } }, { weighing: null, label: null }]);
  });

  it.each<[string, ParcelPlan, RunState['step']]>([
    ['the same fold is filled', parcel(['A', 'B'], 'x'), { at: 'fill' }],
    [
      'another wrap is folded from the first piece',
      wrapped(parcel(['A', 'B'], 'x')),
      { at: 'fold', piece: 0, step: 0 },
    ],
    ['another order of the pieces is folded', parcel(['B', 'A'], 'x'), { at: 'fold', piece: 0, step: 0 }],
    [
      'another fold of the second is folded from there',
      { ...parcel(['A', 'B'], 'x'), pieces: [plannedPiece('A'), plannedPiece('B', 'compact')] },
      { at: 'fold', piece: 1, step: 0 },
    ],
    [
      'another piece with the same fold is folded from there',
      { ...parcel([], 'x'), pieces: [plannedPiece('A'), plannedPiece('C')] },
      { at: 'fold', piece: 1, step: 0 },
    ],
    ['fewer pieces of the same fold are filled', parcel(['A'], 'x'), { at: 'fill' }],
  ])('%s', (_, planned, step) => {
    expect(after([...toFill, anew([planned])]).step).toEqual(step);
  });

  it('that comes while a piece is folded begins at the first piece', () => {
    const folding = [...toFold, next, next];
    expect(after([...folding, anew([parcel(['A', 'B'], 'x')])]).step).toEqual({ at: 'fold', piece: 0, step: 0 });
  });

  it('of what was folded ahead unfolds it', () => {
    const filled = [lying({ at: 'basket', number: 3, folded: true }), pieceScan('A'), pieceScan('B')];
    const state = after([...filled, anew([parcel(['A', 'B'], 'x', 'compact')])]);
    expect(state).toMatchObject({
      lies: { at: 'basket', number: 3, folded: false },
      notice: { code: 'next-plan', values: { container: 'x' } },
    });
    expect(after([...filled, anew([parcel(['A', 'B'], 'x')])]).lies).toMatchObject({ folded: true });
    const aside = [
      lying({ at: 'aside', number: 3 }),
      pieceScan('A'),
      pieceScan('B'),
      ...Array.from({ length: 6 }, () => next),
    ];
    expect(give(aside, anew([parcel(['A', 'B'], 'x', 'compact')])).effects).toEqual([]);
    const loose = [lying({ at: 'basket', number: 3, folded: false }), ...aside.slice(1)];
    expect(give(loose, anew([parcel(['A', 'B'], 'x', 'compact')])).effects).toEqual([]);
  });

  it('says what too tight would bring next: the cheapest plan with another container', () => {
    const other = (id: string, total: number) => ({
      parcels: [parcel(['A'], id)],
      cost: { ...parcel([]).cost, total },
    });
    const nextBest = (...alternatives: readonly { parcels: readonly ParcelPlan[]; cost: ParcelPlan['cost'] }[]) =>
      after([taken([parcel(['A'])], alternatives)]).nextBest;
    expect(nextBest()).toBeNull();
    expect(nextBest(other('pouch-a', 740))).toBeNull();
    expect(
      nextBest(
        { parcels: [], cost: parcel([]).cost },
        other('pouch-a', 735),
        other('pouch-b', 741.6),
        other('pouch-c', 800),
      ),
    ).toEqual({
      container: { en: 'pouch-b', es: 'pouch-b' },
      dearerBy: 12,
    });
  });
});
