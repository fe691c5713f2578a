import { describe, expect, it } from 'vitest';
import { commandsFor } from '#shared/run/commands-for.ts';
import { COMMANDS, type Command } from '#shared/run/commands.ts';
import { IDLE } from '#shared/run/initial.ts';
import { bracketsOf, nextBracket, owed } from '#shared/run/pay.ts';
import { transition } from '#shared/run/transition.ts';
import type { RunEffect, RunInput, RunState, Step } from '#shared/run/types.ts';
import {
  after,
  command,
  FACTS,
  labelScan,
  order,
  ounces,
  parcel,
  pieceScan,
  plan,
  reading,
  taken,
} from '#tests/support/run-fixtures.ts';

const ONE = taken([parcel(['A', 'B'])]);
const gatherAll = [ONE, pieceScan('A'), pieceScan('B')];
const toFold = [...gatherAll, command('next'), command('next')];
const toFill = [...toFold, command('next'), command('next'), command('next'), command('next')];
const toWeigh = [...toFill, command('next')];
const weighed = (text: string): RunInput => ({ type: 'reading', reading: reading(text) });
const toSeal = [...toWeigh, weighed('14.5')];
const toClose = [...toWeigh, weighed('15.9')];
const toOver = [...toWeigh, weighed('16.2')];
const toMismatch = [...toWeigh, weighed('9')];
const toLabel = [...toSeal, command('next')];
const toStop = [...toLabel, labelScan('9200111122223333444455', '00501')];
const STOPPED: Step = { at: 'label', stop: { why: 'postcode', found: '00501', due: '55802' } };
const toDone = [...toLabel, labelScan('9200111122223333444455', '55802')];

interface Row {
  readonly name: string;
  readonly from: readonly RunInput[];
  readonly input: RunInput;
  readonly to: Step;
  readonly effects?: readonly RunEffect['type'][];
  readonly notice?: string;
}

const containerScan = (container: string): RunInput => ({
  type: 'scan',
  by: 'scan',
  meaning: { means: 'container', text: container, container },
});
const orderScan: RunInput = { type: 'scan', by: 'scan', meaning: { means: 'order', text: '1047', order: '1047' } };
const unknownScan = (why: 'not-known' | 'half-read' | 'bad-check-digit'): RunInput => ({
  type: 'scan',
  by: 'scan',
  meaning: { means: 'unknown', text: '??', why },
});

const ROWS: readonly Row[] = [
  {
    name: 'idle: next asks for the next order',
    from: [],
    input: command('next'),
    to: { at: 'idle' },
    effects: ['take-order'],
  },
  {
    name: 'idle: an order code asks for that order',
    from: [],
    input: orderScan,
    to: { at: 'idle' },
    effects: ['take-order'],
  },
  {
    name: 'idle: a piece asks for its order',
    from: [],
    input: pieceScan('A'),
    to: { at: 'idle' },
    effects: ['take-order'],
  },
  { name: 'idle: a taken order is gathered', from: [], input: ONE, to: { at: 'gather' } },
  { name: 'gather: the first piece', from: [ONE], input: pieceScan('A'), to: { at: 'gather' }, notice: 'piece-found' },
  {
    name: 'gather: the last piece',
    from: [ONE, pieceScan('A')],
    input: pieceScan('B'),
    to: { at: 'look-over', piece: 0 },
  },
  {
    name: 'gather: a foreign piece',
    from: [ONE],
    input: pieceScan('Z'),
    to: { at: 'gather' },
    notice: 'piece-not-in-order',
  },
  {
    name: 'gather: the same piece again',
    from: [ONE, pieceScan('A')],
    input: pieceScan('A'),
    to: { at: 'gather' },
    notice: 'piece-already-scanned',
  },
  { name: 'gather: by hand', from: [ONE, command('next')], input: command('next'), to: { at: 'look-over', piece: 0 } },
  {
    name: 'gather: an unknown code',
    from: [ONE],
    input: unknownScan('not-known'),
    to: { at: 'gather' },
    notice: 'code-not-known',
  },
  {
    name: 'gather: a half-read code',
    from: [ONE],
    input: unknownScan('half-read'),
    to: { at: 'gather' },
    notice: 'code-half-read',
  },
  {
    name: 'gather: a second order is not taken',
    from: [ONE],
    input: orderScan,
    to: { at: 'gather' },
    notice: 'not-now',
  },
  {
    name: 'gather: a late answer for an order changes nothing',
    from: [ONE],
    input: taken([parcel(['Q'])]),
    to: { at: 'gather' },
  },
  {
    name: 'gather: back forgets the pieces',
    from: [ONE, pieceScan('A')],
    input: command('back'),
    to: { at: 'gather' },
    notice: 'undone',
  },
  {
    name: 'gather: back with nothing found gives the order back',
    from: [ONE],
    input: command('back'),
    to: { at: 'idle' },
    effects: ['release-order'],
  },
  { name: 'look over: next piece', from: gatherAll, input: command('next'), to: { at: 'look-over', piece: 1 } },
  {
    name: 'look over: then the first fold',
    from: [...gatherAll, command('next')],
    input: command('next'),
    to: { at: 'fold', piece: 0, step: 0 },
  },
  { name: 'look over: back to gathering', from: gatherAll, input: command('back'), to: { at: 'gather' } },
  { name: 'fold: the second step', from: toFold, input: command('next'), to: { at: 'fold', piece: 0, step: 1 } },
  {
    name: 'fold: the second piece',
    from: [...toFold, command('next')],
    input: command('next'),
    to: { at: 'fold', piece: 1, step: 0 },
  },
  {
    name: 'fold: scanning the piece says it is folded',
    from: toFold,
    input: pieceScan('A'),
    to: { at: 'fold', piece: 1, step: 0 },
  },
  {
    name: 'fold: scanning another piece of the order says nothing',
    from: toFold,
    input: pieceScan('B'),
    to: { at: 'fold', piece: 0, step: 0 },
    notice: 'piece-already-scanned',
  },
  {
    name: 'fold: back over a piece',
    from: [...toFold, command('next'), command('next')],
    input: command('back'),
    to: { at: 'fold', piece: 0, step: 1 },
  },
  { name: 'fold: back to looking over', from: toFold, input: command('back'), to: { at: 'look-over', piece: 1 } },
  {
    name: 'fold: the last step leads to filling',
    from: toFill.slice(0, -1),
    input: command('next'),
    to: { at: 'fill' },
  },
  {
    name: 'fill: the right container',
    from: toFill,
    input: containerScan('pouch-a'),
    to: { at: 'weigh' },
    notice: 'container-right',
  },
  {
    name: 'fill: the wrong container',
    from: toFill,
    input: containerScan('pouch-b'),
    to: { at: 'fill' },
    notice: 'container-wrong',
  },
  {
    name: 'fill: too tight asks for another plan',
    from: toFill,
    input: command('too-tight'),
    to: { at: 'fill' },
    effects: ['replan'],
  },
  {
    name: 'fill: a new plan with the same fold is filled',
    from: [...toFill, command('too-tight')],
    input: { type: 'replanned', plan: plan([parcel(['A', 'B'], 'pouch-b')]) },
    to: { at: 'fill' },
    notice: 'next-plan',
  },
  {
    name: 'fill: a new plan with another fold is folded',
    from: [...toFill, command('too-tight')],
    input: { type: 'replanned', plan: plan([parcel(['A', 'B'], 'pouch-b', 'compact')]) },
    to: { at: 'fold', piece: 0, step: 0 },
    notice: 'next-plan',
  },
  {
    name: 'fill: no other plan',
    from: [...toFill, command('too-tight')],
    input: { type: 'no-other-plan' },
    to: { at: 'fill' },
    notice: 'no-other-plan',
  },
  { name: 'fill: a reading is none of its business', from: toFill, input: weighed('14.5'), to: { at: 'fill' } },
  {
    name: 'weigh: clear prints and goes to sealing',
    from: toWeigh,
    input: weighed('14.5'),
    to: { at: 'seal' },
    effects: ['print-slip'],
  },
  {
    name: 'weigh: close asks',
    from: toWeigh,
    input: weighed('15.9'),
    to: { at: 'decide', because: 'close' },
    effects: ['print-slip'],
  },
  {
    name: 'weigh: over asks',
    from: toWeigh,
    input: weighed('16.2'),
    to: { at: 'decide', because: 'over' },
    effects: ['print-slip'],
  },
  {
    name: 'weigh: far from expected asks before sealing',
    from: toWeigh,
    input: weighed('9'),
    to: { at: 'decide', because: 'mismatch' },
    effects: [],
    notice: 'mass-mismatch',
  },
  {
    name: 'weigh: an overloaded scale is no weight',
    from: toWeigh,
    input: { type: 'reading', reading: reading('14.5', { condition: 'over' }) },
    to: { at: 'weigh' },
    notice: 'scale-fault',
  },
  {
    name: 'weigh: a weight with a tare taken off is none',
    from: toWeigh,
    input: { type: 'reading', reading: { ...reading('14.5'), net: true } },
    to: { at: 'weigh' },
    notice: 'scale-fault',
  },
  {
    name: 'weigh: nothing on the scale',
    from: toWeigh,
    input: weighed('0'),
    to: { at: 'weigh' },
    notice: 'scale-empty',
  },
  {
    name: 'weigh: next cannot skip the weighing',
    from: toWeigh,
    input: command('next'),
    to: { at: 'weigh' },
    notice: 'not-now',
  },
  {
    name: 'weigh: zeroing is done outside',
    from: toWeigh,
    input: command('zero-scale'),
    to: { at: 'weigh' },
    effects: ['zero-scale'],
    notice: 'zero-asked',
  },
  {
    name: 'decide: weigh again',
    from: toClose,
    input: command('weigh-again'),
    to: { at: 'weigh' },
    notice: 'weigh-again-asked',
  },
  {
    name: 'decide: a lighter load put on is judged at once',
    from: toClose,
    input: weighed('14.5'),
    to: { at: 'seal' },
    effects: ['print-slip'],
  },
  {
    name: 'decide: the next bracket asks first',
    from: toClose,
    input: command('pay-next-bracket'),
    to: { at: 'decide', because: 'close' },
    notice: 'confirm-asked',
  },
  {
    name: 'decide: the next bracket, confirmed',
    from: [...toClose, command('pay-next-bracket')],
    input: command('confirm'),
    to: { at: 'seal' },
    effects: [],
  },
  {
    name: 'decide: the next bracket, cancelled',
    from: [...toClose, command('pay-next-bracket')],
    input: command('cancel'),
    to: { at: 'decide', because: 'close' },
    notice: 'cancelled',
  },
  {
    name: 'decide: next never seals a close parcel',
    from: toClose,
    input: command('next'),
    to: { at: 'decide', because: 'close' },
    notice: 'not-now',
  },
  {
    name: 'decide: an unexpected mass, said to be right, is judged after all',
    from: [...toMismatch, command('next')],
    input: command('confirm'),
    to: { at: 'seal' },
    effects: ['print-slip'],
  },
  { name: 'seal: next', from: toSeal, input: command('next'), to: { at: 'label' } },
  {
    name: 'seal: the label may come at once',
    from: toSeal,
    input: labelScan('9200111122223333444455', '55802'),
    to: { at: 'done' },
    effects: ['parcel-done', 'order-done'],
  },
  {
    name: 'label: right postcode',
    from: toLabel,
    input: labelScan('9200111122223333444455', '55802'),
    to: { at: 'done' },
    effects: ['parcel-done', 'order-done'],
  },
  {
    name: 'label: the long form of the postcode',
    from: toLabel,
    input: labelScan('9200111122223333444455', '558021234'),
    to: { at: 'done' },
    effects: ['parcel-done', 'order-done'],
  },
  {
    name: 'label: no postcode on it',
    from: toLabel,
    input: labelScan('TRACK123456', null),
    to: { at: 'done' },
    effects: ['parcel-done', 'order-done'],
  },
  {
    name: 'label: wrong postcode stops',
    from: toLabel,
    input: labelScan('9200111122223333444455', '00501'),
    to: STOPPED,
    notice: 'label-wrong-postcode',
  },
  {
    name: 'seal: a wrong label stops as well',
    from: toSeal,
    input: labelScan('9200111122223333444455', '00501'),
    to: STOPPED,
    notice: 'label-wrong-postcode',
  },
  {
    name: 'label stop: the right label finishes the parcel',
    from: toStop,
    input: labelScan('9200111122223333444455', '55802'),
    to: { at: 'done' },
    effects: ['parcel-done', 'order-done'],
  },
  {
    name: 'label stop: another wrong label stops anew',
    from: toStop,
    input: labelScan('9200111122223333444455', '10001'),
    to: { at: 'label', stop: { why: 'postcode', found: '10001', due: '55802' } },
    notice: 'label-wrong-postcode',
  },
  {
    name: 'label stop: next does not lead on, the stop is told again',
    from: toStop,
    input: command('next'),
    to: STOPPED,
    notice: 'label-wrong-postcode',
  },
  {
    name: 'label stop: a foot on the switch does not lead on',
    from: toStop,
    input: command('next', 'key'),
    to: STOPPED,
    notice: 'label-wrong-postcode',
  },
  {
    name: 'label stop: confirming what nobody asked does not lead on',
    from: toStop,
    input: command('confirm'),
    to: STOPPED,
    notice: 'label-wrong-postcode',
  },
  {
    name: 'label stop: a piece does not lead on',
    from: toStop,
    input: pieceScan('A'),
    to: STOPPED,
    notice: 'piece-already-scanned',
  },
  {
    name: 'label stop: a damaged label does not lead on',
    from: toStop,
    input: unknownScan('bad-check-digit'),
    to: STOPPED,
    notice: 'label-bad-check-digit',
  },
  {
    name: 'label stop: a question by eye that was open is gone',
    from: [...toLabel, command('next'), labelScan('9200111122223333444455', '00501')],
    input: command('confirm'),
    to: STOPPED,
    notice: 'label-wrong-postcode',
  },
  {
    name: 'label stop: said again',
    from: toStop,
    input: command('repeat'),
    to: STOPPED,
    notice: 'label-wrong-postcode',
  },
  {
    name: 'label stop: put away, it is checked by eye only when asked for',
    from: toStop,
    input: command('back'),
    to: { at: 'label' },
  },
  {
    name: 'label stop: set aside',
    from: [...toStop, command('set-aside')],
    input: command('confirm'),
    to: { at: 'idle' },
    effects: ['set-aside'],
  },
  {
    name: 'label stop: setting aside thought better of, it still stops',
    from: [...toStop, command('set-aside')],
    input: command('cancel'),
    to: STOPPED,
    notice: 'label-wrong-postcode',
  },
  {
    name: 'label: by eye asks',
    from: toLabel,
    input: command('next'),
    to: { at: 'label' },
    notice: 'label-by-eye-asked',
  },
  {
    name: 'label: by eye, confirmed',
    from: [...toLabel, command('next')],
    input: command('confirm'),
    to: { at: 'done' },
    effects: ['parcel-done', 'order-done'],
  },
  {
    name: 'label: a bad check digit is no label',
    from: toLabel,
    input: unknownScan('bad-check-digit'),
    to: { at: 'label' },
    notice: 'label-bad-check-digit',
  },
  {
    name: 'done: next takes the next order',
    from: toDone,
    input: command('next'),
    to: { at: 'idle' },
    effects: ['take-order'],
  },
  { name: 'done: there is no way back', from: toDone, input: command('back'), to: { at: 'done' }, notice: 'not-now' },
  {
    name: 'anywhere: set aside asks first',
    from: toFold,
    input: command('set-aside'),
    to: { at: 'fold', piece: 0, step: 0 },
    notice: 'confirm-asked',
  },
  {
    name: 'anywhere: set aside, confirmed',
    from: [...toFold, command('set-aside')],
    input: command('confirm'),
    to: { at: 'idle' },
    effects: ['set-aside'],
    notice: 'set-aside-done',
  },
  {
    name: 'gather: a missing piece sets aside with its reason',
    from: [ONE, command('item-missing')],
    input: command('confirm'),
    to: { at: 'idle' },
    effects: ['set-aside'],
  },
  {
    name: 'gather: going without the piece that is looked for asks first',
    from: [ONE],
    input: command('go-without'),
    to: { at: 'gather' },
    notice: 'confirm-asked',
  },
  {
    name: 'gather: confirmed, the order is divided in the store',
    from: [ONE, command('go-without')],
    input: command('confirm'),
    to: { at: 'gather' },
    effects: ['go-without'],
  },
  {
    name: 'gather: the order goes on without the piece, what was gathered stays so',
    from: [ONE, pieceScan('A'), command('go-without'), command('confirm')],
    input: {
      type: 'shortened',
      order: order([{ sku: 'A', count: 1 }]),
      plan: plan([parcel(['A'])]),
      sku: 'B',
      follows: '1-2',
    },
    to: { at: 'look-over', piece: 0 },
    notice: 'goes-without',
  },
  {
    name: 'gather: what is left cannot be planned, and was set aside',
    from: [ONE, command('go-without'), command('confirm')],
    input: { type: 'not-shortened', order: '1047', why: 'nothing-fits' },
    to: { at: 'idle' },
    notice: 'cannot-be-planned',
  },
  {
    name: 'anywhere: help is called',
    from: toFold,
    input: command('help'),
    to: { at: 'fold', piece: 0, step: 0 },
    effects: ['call-help'],
    notice: 'help-called',
  },
  {
    name: 'a badge changes who packs, nothing else',
    from: toFold,
    input: { type: 'scan', by: 'scan', meaning: { means: 'staff', text: 'b', staff: 'rosa' } },
    to: { at: 'fold', piece: 0, step: 0 },
    notice: 'packer-changed',
  },
];

const FAR_LATER = { ...FACTS, now: FACTS.now + 1_000_000 };

describe('the run as a table', () => {
  it.each(ROWS)('$name', ({ from, input, to, effects, notice }) => {
    const before = after(from);
    const result = transition(before, input, FAR_LATER);
    expect(result.state.step).toEqual(to);
    if (effects !== undefined) expect(result.effects.map((effect) => effect.type)).toEqual(effects);
    if (notice !== undefined) expect(result.state.notice?.code).toBe(notice);
  });
});

const PLACES: readonly (readonly [string, readonly RunInput[]])[] = [
  ['idle', []],
  ['gather', [ONE]],
  ['look-over', gatherAll],
  ['fold', toFold],
  ['fill', toFill],
  ['weigh', toWeigh],
  ['decide close', toClose],
  ['decide over', toOver],
  ['decide mismatch', toMismatch],
  ['seal', toSeal],
  ['label', toLabel],
  ['label stop', toStop],
  ['done', toDone],
];

describe('what must not happen', () => {
  it.each(PLACES)(
    '%s: a command that is not offered moves nothing and asks nothing of the outside',
    (_name, inputs) => {
      const state = after(inputs);
      const offered = new Set<Command>(commandsFor(state));
      for (const each of COMMANDS.filter((name) => !offered.has(name))) {
        const result = transition(state, command(each), FAR_LATER);
        expect(result.accepted, each).toBe(false);
        expect(result.state.step, each).toEqual(state.step);
        expect(result.effects, each).toEqual([]);
      }
    },
  );

  it.each(PLACES)('%s: every offered command is taken', (_name, inputs) => {
    const state = after(inputs);
    for (const each of commandsFor(state))
      expect(transition(state, command(each), FAR_LATER).accepted, each).toBe(true);
  });

  it.each(PLACES)('%s: a label number used before never finishes a parcel', (_name, inputs) => {
    const result = transition(after(inputs), labelScan('9200111122223333444455', '55802'), {
      ...FAR_LATER,
      labelUsedBefore: true,
    });
    expect(result.effects).toEqual([]);
  });

  it('a number that is on another parcel stops, and no command but putting it away or setting aside ends the stop', () => {
    const used = transition(after(toLabel), labelScan('N1', '55802'), { ...FAR_LATER, labelUsedBefore: true }).state;
    expect(used.step).toEqual({ at: 'label', stop: { why: 'used', number: 'N1' } });
    expect(used.notice).toMatchObject({ code: 'label-used-before', tone: 'stop' });
    expect(commandsFor(used)[0]).toBe('repeat');
    for (const each of COMMANDS.filter((name) => name !== 'back' && name !== 'set-aside')) {
      const result = transition(used, command(each), FAR_LATER);
      expect(result.state.step, each).toEqual(used.step);
      expect(result.effects.filter(({ type }) => type === 'parcel-done')).toEqual([]);
    }
    expect(transition(used, labelScan('N2', '55802'), FAR_LATER).state.step.at).toBe('done');
  });

  it('a switch that bounces does not confirm what it has just asked', () => {
    const asked = transition(after(toLabel), command('next', 'key'), FAR_LATER).state;
    const bounce = transition(asked, command('confirm', 'key'), { ...FAR_LATER, now: FAR_LATER.now + 120 });
    expect(bounce.state.step.at).toBe('label');
    const meant = transition(bounce.state, command('confirm', 'key'), { ...FAR_LATER, now: FAR_LATER.now + 900 });
    expect(meant.state.step.at).toBe('done');
  });

  it('two of one piece are due twice and no third time', () => {
    const two = after([taken([parcel(['A', 'A'])]), pieceScan('A')]);
    expect(two.step.at).toBe('gather');
    const both = transition(two, pieceScan('A'), FACTS).state;
    expect(both.step.at).toBe('look-over');
    expect(transition(both, pieceScan('A'), FACTS).state.gathered.A).toBe(2);
  });

  it('a second parcel may not carry the number of the first', () => {
    const packOne: RunInput[] = [command('next'), command('next'), command('next'), weighed('14.5'), command('next')];
    const second = after([
      taken([parcel(['A']), parcel(['B'])]),
      pieceScan('A'),
      pieceScan('B'),
      command('next'),
      command('next'),
      ...packOne,
      labelScan('N1', '55802'),
      ...packOne,
    ]);
    expect(second.parcel).toBe(1);
    expect(second.step.at).toBe('label');
    const again = transition(second, labelScan('N1', '55802'), FACTS);
    expect(again.state.notice?.code).toBe('label-used-before');
    expect(transition(second, labelScan('N2', '55802'), FACTS).state.step.at).toBe('done');
  });
});

describe('what is owed', () => {
  const owedAfter = (inputs: readonly RunInput[]) => {
    const state: RunState = after(inputs);
    const weighing = state.progress[0]?.weighing;
    return weighing ? owed(state.parcels[0]!, weighing).price.minor : null;
  };

  it('is the planned bracket when it holds with its margin of error', () => {
    expect(owedAfter(toSeal)).toBe(625);
  });

  it('is a lower bracket only when that one surely holds', () => {
    expect(owedAfter([...toMismatch, command('next'), command('confirm')])).toBe(465);
    expect(owedAfter([...toWeigh, weighed('11.9'), command('next'), command('confirm')])).toBe(625);
  });

  it('is the next bracket after paying for it, and never the planned one at close or over', () => {
    expect(owedAfter([...toClose, command('pay-next-bracket'), command('confirm')])).toBe(805);
    expect(owedAfter([...toOver, command('pay-next-bracket'), command('confirm')])).toBe(805);
  });
});

describe('idle', () => {
  it('says why an order could not be had', () => {
    const result = transition(IDLE, { type: 'order-refused', code: 'order-taken-elsewhere', order: '1047' }, FACTS);
    expect(result.state.notice).toMatchObject({ code: 'order-taken-elsewhere', values: { order: '1047' } });
  });
});

describe('the next bracket', () => {
  const light = parcel(['A', 'B']);
  const steps = light.prices.steps.slice(0, 3);
  const price = (minor: number) => ({ minor, currency: 'USD' });
  const elsewhere = (service: string, ounceCeilings: readonly (readonly [string, number])[]) => ({
    ...light.prices,
    service,
    steps: ounceCeilings.map(([ceiling, minor]) => ({ ceiling: ounces(ceiling), price: price(minor) })),
  });
  /** The planned service ends at 16 oz; two others go on, one of them undercut by the other. */
  const ends = {
    ...light,
    prices: { ...light.prices, steps },
    otherServices: [
      elsewhere('by-weight', [
        ['16', 700],
        ['32', 905],
        ['48', 1010],
      ]),
      elsewhere('soft-cubic', [['320', 950]]),
    ],
  };

  it('is the cheapest of all services that surely hold the mass, where the planned one ends', () => {
    expect(bracketsOf(ends).map(({ service, price: { minor } }) => [service, minor])).toEqual([
      ['light-parcel', 410],
      ['light-parcel', 465],
      ['light-parcel', 625],
      ['by-weight', 905],
      ['soft-cubic', 950],
    ]);
    const close = after([taken([ends]), pieceScan('A'), pieceScan('B'), ...toWeigh.slice(3), weighed('15.9')]);
    expect(close.step).toEqual({ at: 'decide', because: 'close' });
    expect(nextBracket(close)).toMatchObject({ service: 'by-weight', price: { minor: 905 } });
  });
});
