import { expect, it } from 'vitest';
import { scanMeaning } from '#shared/codes/scan-meaning.ts';
import { commandsFor } from '#shared/run/commands-for.ts';
import { COMMANDS, type GivenBy } from '#shared/run/commands.ts';
import { enteringOf, MOST_DIGITS, numberToLookUp } from '#shared/run/entering.ts';
import { transition } from '#shared/run/transition.ts';
import type { RunFacts, RunInput, RunState, Step } from '#shared/run/types.ts';
import { after, command, FACTS, labelScan, parcel, pieceScan, reading, taken } from '#tests/support/run-fixtures.ts';

const digits = (text: string, by: GivenBy = 'touch'): RunInput => ({ type: 'digits', digits: text, by });
const toLabel: readonly RunInput[] = [
  taken([parcel(['A'])]),
  pieceScan('A'),
  ...Array.from({ length: 4 }, () => command('next')),
  { type: 'reading', reading: reading('14.5') },
  command('next'),
];
const toNumber = [...toLabel, command('enter-number', 'voice')];
const given = (...texts: readonly string[]) => [...toNumber, ...texts.map((text) => digits(text, 'voice'))];

/** Invented; its last digit is the check digit of the GS1 General Specifications, 7.9. */
const NUMBER = '9212391234567812345670';

/** What the outside looks up, of a shop that knows none of its codes. */
function factsFor(state: RunState, input: RunInput, used: readonly string[] = []): RunFacts {
  const number = numberToLookUp(state, input);
  if (number === null) return FACTS;
  const nothing = () => false;
  const known = { isSku: nothing, isContainer: nothing, isOrder: nothing, staffByBadge: () => null };
  return { ...FACTS, entered: scanMeaning(number, known), labelUsedBefore: used.includes(number) };
}

const LATER = { ...FACTS, now: FACTS.now + 20_000 };
const give = (from: readonly RunInput[], input: RunInput, used: readonly string[] = []) => {
  const state = after(from);
  return transition(state, input, { ...factsFor(state, input, used), now: LATER.now });
};

interface Row {
  readonly name: string;
  readonly from: readonly RunInput[];
  readonly input: RunInput;
  readonly to: Step;
  readonly notice?: string;
  readonly used?: readonly string[];
}

const entering = (groups: readonly string[], since = LATER.now): Step => ({
  at: 'label',
  entering: { groups, since },
});
const sinceOf = (from: readonly RunInput[]): number => enteringOf(after(from))?.since ?? 0;
const stays = (from: readonly RunInput[], ...groups: readonly string[]): Step => entering(groups, sinceOf(from));
const wrong = (found: string): Step => ({ at: 'label', stop: { why: 'postcode', found, due: '55802' } });
const confirm = command('confirm', 'voice');

const ROWS: readonly Row[] = [
  { name: 'the command begins it', from: toLabel, input: command('enter-number'), to: entering([]) },
  { name: 'digits come', from: toNumber, input: digits('558'), to: entering(['558']), notice: 'number-so-far' },
  { name: 'and more', from: given('558'), input: digits('02'), to: entering(['558', '02']), notice: 'number-so-far' },
  { name: 'back takes away what came last', from: given('558', '09'), input: command('back'), to: entering(['558']) },
  { name: 'start over takes all away', from: given('558', '09'), input: command('start-over'), to: entering([]) },
  { name: 'cancel leaves it', from: given('558'), input: command('cancel'), to: { at: 'label' }, notice: 'cancelled' },
  {
    name: 'the postcode in its digits is the check by eye',
    from: given('558', '02'),
    input: confirm,
    to: { at: 'done' },
    notice: 'label-right',
  },
  {
    name: 'so is its long form',
    from: given('5580', '21', '234'),
    input: confirm,
    to: { at: 'done' },
    notice: 'label-right',
  },
  {
    name: 'another postcode stops the run',
    from: given('558', '11'),
    input: confirm,
    to: wrong('55811'),
    notice: 'label-wrong-postcode',
  },
  {
    name: 'a digit too many is another postcode',
    from: given('558', '021'),
    input: confirm,
    to: wrong('558021'),
    notice: 'label-wrong-postcode',
  },
  {
    name: 'half a postcode is another',
    from: given('558'),
    input: confirm,
    to: wrong('558'),
    notice: 'label-wrong-postcode',
  },
  {
    name: 'two digits are nothing yet',
    from: given('55'),
    input: confirm,
    to: stays(given('55'), '55'),
    notice: 'number-too-short',
  },
  {
    name: 'a parcel number is a scanned label’s',
    from: given(NUMBER),
    input: confirm,
    to: { at: 'done' },
    notice: 'label-right',
  },
  {
    name: 'with a digit wrong it is none',
    from: given('9212391234567812345671'),
    input: confirm,
    to: stays(given('9212391234567812345671'), '9212391234567812345671'),
    notice: 'number-does-not-check',
  },
  {
    name: 'a number of goods is none',
    from: given('9506000134352'),
    input: confirm,
    to: stays(given('9506000134352'), '9506000134352'),
    notice: 'number-of-no-label',
  },
  {
    name: 'a number that is on another parcel stops the run',
    from: given(NUMBER),
    input: confirm,
    used: [NUMBER],
    to: { at: 'label', stop: { why: 'used', number: NUMBER } },
    notice: 'label-used-before',
  },
  {
    name: 'a card confirms as a finger does',
    from: given('55802'),
    input: { type: 'scan', by: 'scan', meaning: { means: 'command', text: 'BFC-CONFIRM', command: 'confirm' } },
    to: { at: 'done' },
    notice: 'label-right',
  },
  {
    name: 'a label that scans after all ends it',
    from: given('558'),
    input: labelScan(NUMBER, '55802'),
    to: { at: 'done' },
    notice: 'label-right',
  },
  {
    name: 'more digits than any number has are not taken',
    from: given('1'.repeat(MOST_DIGITS)),
    input: digits('2'),
    to: stays(given('1'.repeat(MOST_DIGITS)), '1'.repeat(MOST_DIGITS)),
    notice: 'number-too-long',
  },
  { name: 'what is no digit is not taken', from: given('558'), input: digits('5a'), to: stays(given('558'), '558') },
  { name: 'digits mean nothing before it', from: toLabel, input: digits('55802'), to: { at: 'label' } },
  {
    name: 'nor at a stop',
    from: [...toLabel, labelScan(NUMBER, '00501')],
    input: digits('55802'),
    to: { at: 'label', stop: { why: 'postcode', found: '00501', due: '55802' } },
  },
  { name: 'nor while weighing', from: toLabel.slice(0, -2), input: digits('145'), to: { at: 'weigh' } },
  { name: 'nor at an idle bench', from: [], input: digits('1'), to: { at: 'idle' } },
];

it.each(ROWS)('$name', ({ from, input, to, notice, used }) => {
  const { state } = give(from, input, used);
  expect(state.step).toEqual(to);
  if (notice !== undefined) expect(state.notice?.code).toBe(notice);
});

it('a stop is left before a number is entered, and the check by eye is stored as that', () => {
  const stop = after([...toLabel, labelScan(NUMBER, '00501')]);
  expect(commandsFor(stop)).not.toContain('enter-number');
  expect(commandsFor({ ...after(toLabel), practice: true })).toContain('enter-number');
  expect(give(given('55802'), confirm).state.progress[0]?.label).toBe('by-eye');
  expect(give(given(NUMBER), confirm).state.progress[0]?.label).toEqual({ number: NUMBER });
});

it('digits where none are asked for change nothing at all, and nothing is said', () => {
  const state = after(toLabel);
  const result = transition(state, digits('55802', 'voice'), FACTS);
  expect(result).toEqual({ state, effects: [], accepted: false });
});

it('while digits come no other command is one', () => {
  const from = given('558');
  const possible = ['confirm', 'back', 'start-over', 'cancel', 'repeat', 'help'];
  expect(commandsFor(after(from))).toEqual(possible);
  for (const each of COMMANDS.filter((one) => !possible.includes(one))) {
    const { state, effects, accepted } = give(from, command(each, 'voice'));
    expect([each, state.step, effects, accepted]).toEqual([each, stays(from, '558'), [], false]);
  }
  expect(commandsFor(after(toNumber))).toEqual(['confirm', 'cancel', 'repeat', 'help']);
});

it('the whole number is read again when asked, and before it is confirmed by a voice that waited', () => {
  const again = give(given('558', '02'), command('repeat', 'voice')).state;
  expect([again.notice, again.repeats]).toEqual([null, 1]);
  const state = after(given('55802'));
  const late = { ...FACTS, now: sinceOf(given('55802')) + 30_001 };
  const asked = transition(state, confirm, late).state;
  expect([asked.step, asked.repeats]).toEqual([entering(['55802'], late.now), 1]);
  expect(transition(asked, confirm, { ...late, now: late.now + 2000 }).state.step).toEqual({ at: 'done' });
  expect(transition(state, command('confirm', 'touch'), late).state.step).toEqual({ at: 'done' });
});

it('a postcode with letters cannot be given in digits, and no label is blamed', () => {
  const from = given('55802');
  const state = after(from);
  if (state.order === null) throw new Error('no order');
  const lettered = { ...state, order: { ...state.order, to: { postcode: 'K4B 1C2', country: 'XX' } } };
  const result = transition(lettered, confirm, LATER);
  expect(result.state.notice?.code).toBe('postcode-has-letters');
  expect([result.accepted, result.state.step]).toEqual([false, stays(from, '55802')]);
});

it('a parcel number that nobody looked up goes through nothing', () => {
  expect(transition(after(given(NUMBER)), confirm, LATER).state.step.at).toBe('label');
});
