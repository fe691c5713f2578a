import { describe, expect, it } from 'vitest';
import type { Guidance } from '#shared/guidance/stops.ts';
import type { ParcelPlan } from '#shared/planning/types.ts';
import { commandsFor } from '#shared/run/commands-for.ts';
import { levelHere } from '#shared/run/guide.ts';
import { IDLE } from '#shared/run/initial.ts';
import { transition } from '#shared/run/transition.ts';
import type { RunInput, RunState } from '#shared/run/types.ts';
import {
  after,
  command,
  FACTS,
  labelScan,
  parcel,
  pieceScan,
  plannedPiece,
  taken,
} from '#tests/support/run-fixtures.ts';
import {
  ONE,
  gatherAll,
  toClose,
  toDone,
  toFill,
  toFold,
  toLabel,
  toMismatch,
  toSeal,
  toStop,
  toWeigh,
  weighed,
} from '#tests/support/run-moments.ts';
import { badge, lying } from '#tests/support/run-told.ts';

const next = command('next');
const single = parcel(['A']);
/** The planned bracket is the dearest that there is. */
const NO_MORE: ParcelPlan = { ...single, prices: { ...single.prices, steps: single.prices.steps.slice(0, 3) } };
const toScale = (first: RunInput): readonly RunInput[] => [first, pieceScan('A'), next, next, next, next];
const FIRST_OF_TWO = [
  taken([parcel(['A']), parcel(['B'])]),
  pieceScan('A'),
  pieceScan('B'),
  next,
  next,
  next,
  next,
  next,
  weighed('14.5'),
  next,
];
const SECOND = [...FIRST_OF_TWO, labelScan('N1', '55802')];

/** What a packer may say or press at each moment, the main thing first. */
it.each<[string, readonly RunInput[], string]>([
  ['an empty bench', [], 'next fold-ahead aside-list practice repeat help'],
  ['signed on', [badge('rosa')], 'next fold-ahead aside-list practice sign-off repeat help'],
  ['gather', [ONE], 'next back item-missing go-without set-aside release repeat help'],
  ['gather, the last piece', gatherAll.slice(0, 2), 'next back item-missing go-without set-aside release repeat help'],
  ['gather an order of one piece', [taken([single])], 'next back item-missing set-aside release repeat help'],
  [
    'gather, one of two alike found, which cannot be left out any more',
    [taken([parcel(['A', 'A', 'B'])]), pieceScan('B'), pieceScan('A')],
    'next back item-missing set-aside release repeat help',
  ],
  [
    'gather out of a basket',
    [lying({ at: 'basket', number: 1, folded: true })],
    'next back item-missing set-aside release repeat help',
  ],
  [
    'gather from the set-aside shelf',
    [lying({ at: 'aside', number: 1 })],
    'next back item-missing go-without set-aside release repeat help',
  ],
  ['look over', gatherAll, 'next back item-damaged set-aside release repeat help tell-less'],
  ['fold', toFold, 'next back too-tight set-aside release repeat help tell-less'],
  [
    'fold, told less',
    [...toFold, command('tell-less')],
    'next back too-tight set-aside release repeat help tell-more tell-less',
  ],
  ['fill', toFill, 'next back too-tight set-aside repeat help tell-less'],
  ['weigh', toWeigh, 'weigh-again zero-scale back set-aside repeat help'],
  ['close', toClose, 'weigh-again make-lighter pay-next-bracket zero-scale back set-aside repeat help print-again'],
  [
    'close to the last price there is',
    [...toScale(taken([NO_MORE])), weighed('15.9')],
    'weigh-again make-lighter zero-scale back set-aside repeat help print-again',
  ],
  ['not what it should weigh', toMismatch, 'weigh-again next zero-scale back set-aside repeat help'],
  ['seal', toSeal, 'next back set-aside repeat help print-again'],
  ['label', toLabel, 'next enter-number back set-aside repeat help print-again'],
  ['a wrong label', toStop, 'repeat back set-aside help print-again'],
  ['a question', [...toFold, command('set-aside')], 'confirm cancel repeat help'],
  ['done', toDone, 'next fold-ahead aside-list practice repeat help print-again'],
  ['the second parcel', SECOND, 'next back too-tight set-aside repeat help tell-less'],
])('%s', (_, inputs, offered) => {
  expect(commandsFor(after(inputs)).join(' ')).toBe(offered);
});

describe('in practice', () => {
  const practice = (inputs: readonly RunInput[]) => commandsFor({ ...after(inputs), practice: true }).join(' ');

  it('nothing is given back, divided or ended otherwise than by packing it', () => {
    expect(practice([ONE])).toBe('next back item-missing set-aside repeat help');
    expect(practice(toWeigh)).toBe('next weigh-again zero-scale back set-aside repeat help');
    expect(practice(toDone)).toBe('next repeat help print-again');
  });

  it('next at the scale lays the invented parcel on it', () => {
    const { effects, accepted } = transition({ ...after(toWeigh), practice: true }, next, FACTS);
    expect([effects, accepted]).toEqual([[{ type: 'weigh-invented' }], true]);
  });
});

it('an order of several that became one is not divided', () => {
  const state = after([ONE]);
  const combined: RunState = { ...state, order: { ...state.order!, combines: ['1', '2'] } };
  expect(commandsFor(combined)).not.toContain('go-without');
});

it('a slip of before is not printed again at an empty bench', () => {
  expect(commandsFor({ ...IDLE, slip: 'printed' })).not.toContain('print-again');
});

describe('how much is told', () => {
  const piece = (sku: string, kind: string) => ({ ...plannedPiece(sku), piece: { sku, title: sku, kind } });
  const mixed: ParcelPlan = { ...parcel([]), pieces: [piece('A', 'shirt'), piece('B', 'coat')] };
  const hats: ParcelPlan = { ...parcel([]), pieces: [piece('C', 'hat')] };
  const guidance: Guidance = {
    shirt: { level: 'brief', usual: null },
    coat: { level: 'quiet', usual: null },
    hat: { level: 'full', usual: null },
  };
  const begun: RunInput = {
    ...(taken([mixed, hats]) as Extract<RunInput, { type: 'order-taken' }>),
    guidance,
  };
  const alike: RunInput = {
    ...(taken([mixed]) as Extract<RunInput, { type: 'order-taken' }>),
    guidance: { shirt: { level: 'brief', usual: null } },
  };
  const toTheFill = Array.from({ length: 5 }, () => next);
  const gathered = [begun, pieceScan('A'), pieceScan('B'), pieceScan('C')];
  const folding = [...gathered, next, next, next];

  it.each<[string, readonly RunInput[], string | null, string]>([
    ['of nothing at an empty bench', [], null, ''],
    ['of nothing after an order', toDone, null, ''],
    [
      'more and less of a parcel of which one is told fully',
      [alike, pieceScan('A'), pieceScan('B'), ...toTheFill],
      'full',
      'tell-more tell-less',
    ],
    ['of the kind that needs most, of all that is gathered', [begun], 'full', ''],
    ['of the piece that is looked over', gathered, 'brief', 'tell-more tell-less'],
    ['of the next one', [...gathered, next], 'quiet', 'tell-more'],
    ['of the last one, of another parcel', [...gathered, next, next], 'full', 'tell-less'],
    ['of the piece that is folded', folding, 'brief', 'tell-more tell-less'],
    ['of the other one', [...folding, next], 'quiet', 'tell-more'],
    ['of all of the parcel that is filled', [...folding, next, next], 'brief', 'tell-more tell-less'],
    ['of all of it at the scale, where nothing is told', [...folding, next, next, next], 'brief', ''],
  ])('%s', (_, inputs, level, offered) => {
    const state = after(inputs);
    expect(levelHere(state)).toBe(level);
    expect(
      commandsFor(state)
        .filter((each) => each.startsWith('tell'))
        .join(' '),
    ).toBe(offered);
  });

  it('changes for the piece at hand alone, and for all of the parcel that is filled', () => {
    const levels = (state: RunState) => Object.values(state.guidance).map(({ level }) => level);
    expect(levels(after([...folding, command('tell-more')]))).toEqual(['full', 'quiet', 'full']);
    const filled = [...folding, next, next];
    const more = after([...filled, command('tell-more')]);
    expect(levels(more)).toEqual(['full', 'brief', 'full']);
    expect(more.notice?.values).toEqual({ level: 'full' });
    expect(levels(after([...filled, command('tell-less')]))).toEqual(['quiet', 'quiet', 'full']);
  });

  it('stays at the fill where nothing more is told, and goes back to what is told more', () => {
    const quiet: Guidance = { shirt: { level: 'quiet', usual: 'flat' }, coat: { level: 'quiet', usual: 'flat' } };
    const filled = after([{ ...begun, guidance: quiet }, ...gathered.slice(1), next, next, next]);
    expect(filled.step).toEqual({ at: 'fill' });
    const told = (to: Guidance) => after([{ type: 'guidance', guidance: to }], filled).step;
    expect(told({ ...quiet, hat: { level: 'full', usual: null } })).toEqual({ at: 'fill' });
    expect(told({ ...quiet, coat: { level: 'brief', usual: 'flat' } })).toEqual({ at: 'fold', piece: 1, step: 1 });
    // What was told already when the pouch was filled is not begun again.
    const brief: Guidance = { ...quiet, shirt: { level: 'brief', usual: 'flat' } };
    const after1 = after([{ ...begun, guidance: brief }, ...gathered.slice(1), next, next, next, next]);
    expect(after1.step).toEqual({ at: 'fill' });
    expect(
      after([{ type: 'guidance', guidance: { ...brief, coat: { level: 'full', usual: 'flat' } } }], after1).step,
    ).toEqual({
      at: 'fill',
    });
  });

  it('of who takes over at the first piece goes on with the next that has to be told', () => {
    const full = after([{ ...begun, guidance: {} }, ...gathered.slice(1), next, next, next]);
    expect(full.step).toEqual({ at: 'fold', piece: 0, step: 0 });
    const shirtsKnown: Guidance = { shirt: { level: 'quiet', usual: 'flat' } };
    expect(after([{ type: 'guidance', guidance: shirtsKnown }], full).step).toEqual({ at: 'fold', piece: 1, step: 0 });
    expect(after([{ type: 'guidance', guidance: {} }], after([next], full)).step).toEqual({
      at: 'fold',
      piece: 0,
      step: 1,
    });
    expect(after([{ type: 'guidance', guidance: {} }], after(gathered)).step).toEqual({ at: 'look-over', piece: 0 });
    // What is known of the second piece leads on, not back to the first.
    const coatsKnown: Guidance = { coat: { level: 'quiet', usual: 'flat' } };
    const second = after([next, next], full);
    expect(second.step).toEqual({ at: 'fold', piece: 1, step: 0 });
    expect(after([{ type: 'guidance', guidance: coatsKnown }], second).step).toEqual({ at: 'fill' });
  });
});
