import { describe, expect, it } from 'vitest';
import type { ScanMeaning } from '#shared/codes/types.ts';
import { enteringOf, MOST_DIGITS, numberToLookUp } from '#shared/run/entering.ts';
import { transition } from '#shared/run/transition.ts';
import type { RunFacts, RunInput, RunState } from '#shared/run/types.ts';
import { after, command, FACTS } from '#tests/support/run-fixtures.ts';
import { toLabel } from '#tests/support/run-moments.ts';
import { scan } from '#tests/support/run-told.ts';

const digits = (text: string): RunInput => ({ type: 'digits', digits: text, by: 'touch' });
const entering = (...groups: readonly string[]) => after([...toLabel, command('enter-number'), ...groups.map(digits)]);

describe('a number given by hand', () => {
  const say = (state: RunState, input: RunInput, facts: Partial<RunFacts> = {}) =>
    transition(state, input, { ...FACTS, now: FACTS.now + 20_000, ...facts });
  const confirm = command('confirm');
  const TEN = '1234567890';

  it.each<[string, RunState, RunInput, string | null]>([
    ['ten digits, confirmed', entering(TEN), confirm, TEN],
    ['in groups', entering('12345', '67890'), confirm, TEN],
    ['confirmed by a card', entering(TEN), scan({ means: 'command', text: 'c', command: 'confirm' }), TEN],
    ['nine digits, which are a postcode', entering('123456789'), confirm, null],
    ['not confirmed', entering(TEN), command('back'), null],
    ['another card', entering(TEN), scan({ means: 'command', text: 'c', command: 'help' }), null],
    ['a scan of something else', entering(TEN), scan({ means: 'piece', text: 'A', sku: 'A' }), null],
    ['more digits', entering(TEN), digits('1'), null],
    ['where none is given', after(toLabel), confirm, null],
  ])('is looked up: %s', (_, state, input, number) => {
    expect(numberToLookUp(state, input)).toBe(number);
  });

  it.each<[string, readonly string[], RunInput, Partial<RunFacts>, string, Readonly<Record<string, string>>]>([
    ['what came last is read back', ['558'], digits('02'), {}, 'number-so-far', { number: '02' }],
    ['too few', ['55'], confirm, {}, 'number-too-short', { fewest: '3' }],
    ['too many', ['1'.repeat(MOST_DIGITS)], digits('2'), {}, 'number-too-long', { most: '34' }],
    ['that nobody knows', [TEN], confirm, {}, 'number-of-no-label', { number: TEN }],
    [
      'of goods',
      [TEN],
      confirm,
      { entered: { means: 'unknown', text: TEN, why: 'not-known' } },
      'number-of-no-label',
      { number: TEN },
    ],
    [
      'misread',
      [TEN],
      confirm,
      { entered: { means: 'unknown', text: TEN, why: 'bad-check-digit' } },
      'number-does-not-check',
      { number: TEN },
    ],
    ['another command', ['558'], command('next'), {}, 'not-now', { command: 'next' }],
  ])('%s', (_, groups, input, facts, code, values) => {
    expect(say(entering(...groups), input, facts).state.notice).toMatchObject({ code, values });
  });

  it('of a label is that label, and is shown as what was read', () => {
    const entered: ScanMeaning = { means: 'label', text: TEN, number: TEN, postcode: null };
    const { state } = say(entering(TEN), confirm, { entered });
    expect(state).toMatchObject({ step: { at: 'done' }, lastScan: { text: TEN, meaning: 'label' } });
    expect(say(entering(TEN), confirm, { entered, labelDue: '999' }).state.step).toEqual({
      at: 'label',
      stop: { why: 'number', found: TEN, due: '999' },
    });
  });

  it('loses its last group alone by going back', () => {
    const back = after([command('back')], entering('1', '2', '3'));
    expect(back.step).toMatchObject({ entering: { groups: ['1', '2'] } });
  });

  it('is confirmed by voice for half a minute', () => {
    const state = entering('55802');
    const since = enteringOf(state)?.since ?? 0;
    const after = (ms: number) => transition(state, command('confirm', 'voice'), { ...FACTS, now: since + ms });
    expect([after(30_000), after(30_001)].map((each) => each.state.step.at)).toEqual(['done', 'label']);
  });

  it('does not take what has more than digits, wherever the digits stand', () => {
    for (const text of ['5a', 'a5', '5 5', '', '５']) expect(say(entering('5'), digits(text)).accepted).toBe(false);
    expect(say(entering('5'), digits('12345')).accepted).toBe(true);
  });

  it('a postcode with letters is named, whatever their size', () => {
    for (const due of ['K1A 0B1', 'k1a']) {
      const state = entering('110');
      const lettered = { ...state, order: { ...state.order!, to: { postcode: due, country: 'XX' } } };
      expect(say(lettered, confirm).state.notice).toMatchObject({ code: 'postcode-has-letters', values: { due } });
    }
  });

  it('a postcode of two parts is its digits', () => {
    const state = entering('12', '345', '678');
    const parted = { ...state, order: { ...state.order!, to: { postcode: '12345-678', country: 'XX' } } };
    expect(say(parted, confirm).state.step.at).toBe('done');
    const short = { ...entering('12345'), order: parted.order };
    expect(say(short, confirm).state.step).toMatchObject({ stop: { why: 'postcode', found: '12345' } });
  });
});
