import { describe, expect, it } from 'vitest';
import type { ParcelPlan } from '#shared/planning/types.ts';
import { IDLE } from '#shared/run/initial.ts';
import { transition } from '#shared/run/transition.ts';
import type { ParcelProgress, RunFacts, RunInput, RunState } from '#shared/run/types.ts';
import {
  after,
  command,
  FACTS,
  labelScan,
  order,
  parcel,
  pieceScan,
  plan,
  plannedPiece,
  taken,
} from '#tests/support/run-fixtures.ts';
import {
  ONE,
  toClose,
  toDone,
  toFold,
  toLabel,
  toMismatch,
  toSeal,
  toStop,
  toWeigh,
  weighed,
} from '#tests/support/run-moments.ts';
import { badge, scan } from '#tests/support/run-told.ts';

const next = command('next');
const container = (id: string): RunInput => scan({ means: 'container', text: id, container: id });
const language: RunInput = { type: 'language', language: 'es', by: 'touch' };
/** Somebody stands here who chose a language and asked to hear something again. */
const SOMEBODY: Partial<RunState> = {
  packer: 'rosa',
  language: 'es',
  repeats: 1,
  lastScan: { text: 'b', meaning: 'staff' },
};
const somebody = [badge('rosa'), language, command('repeat')];
const empty = (notice: unknown) => ({ ...IDLE, ...SOMEBODY, notice });
const give = (from: readonly RunInput[], input: RunInput, facts: Partial<RunFacts> = {}) =>
  transition(after(from), input, { ...FACTS, now: FACTS.now + 1_000_000, ...facts });

describe('who stands at the bench', () => {
  it.each<[string, readonly RunInput[], RunInput]>([
    ['a released order', [ONE], command('back')],
    ['the next order', toDone, next],
    ['another order', toDone, scan({ means: 'order', text: '7', order: '7' })],
    ['the order of a piece', toDone, pieceScan('Z')],
    ['folding ahead', toDone, command('fold-ahead')],
    ['practice', toDone, command('practice')],
    ['an order set aside', [...toFold, command('set-aside')], command('confirm')],
    ['an order that the office took', toFold, { type: 'released-by-office', order: '1047' }],
    ['an order that goes on elsewhere', toFold, { type: 'given-over', order: '1047', to: 'bench-2' }],
    [
      'an order that cannot go on without a piece',
      [ONE],
      { type: 'not-shortened', order: '1047', why: 'nothing-fits' },
    ],
  ])('stays after %s, and nothing else does', (_, from, input) => {
    const before: RunState = { ...after(from), ...SOMEBODY };
    const { state } = transition(before, input, { ...FACTS, now: FACTS.now + 1_000_000 });
    expect({ ...state, lastScan: SOMEBODY.lastScan }).toEqual(empty(state.notice));
  });

  it('is nobody, with nobody’s language, after signing off', () => {
    expect(after([...somebody, command('sign-off')])).toMatchObject({ packer: null, language: null });
    expect(after(somebody)).toMatchObject(SOMEBODY);
    expect(after([...somebody, badge('lucia')])).toMatchObject({ packer: 'lucia', language: null });
  });
});

describe('an order begins', () => {
  it('with nothing left over from the one before', () => {
    const stale: RunState = {
      ...after([...somebody]),
      tooTight: ['pouch-z'],
      slip: 'failed',
      gathered: { Z: 1 },
      mistakes: [{ mistake: 'wrong-piece', garments: [] }],
    };
    const begun = transition(stale, ONE, FACTS).state;
    const parcels = [parcel(['A', 'B'])];
    expect(begun).toEqual({
      ...IDLE,
      ...SOMEBODY,
      run: 'run-1',
      order: order([
        { sku: 'A', count: 1 },
        { sku: 'B', count: 1 },
      ]),
      parcels,
      step: { at: 'gather' },
      progress: [{ weighing: null, label: null }],
      startedAt: FACTS.now,
      remarks: {},
    });
  });

  it('and its shortened rest too', () => {
    const input: RunInput = {
      type: 'shortened',
      order: order([
        { sku: 'B', count: 1 },
        { sku: 'C', count: 1 },
      ]),
      plan: plan([parcel(['B']), parcel(['C'])]),
      sku: 'A',
      follows: '1047-2',
    };
    const from = { ...after([taken([parcel(['A', 'B', 'C'])]), pieceScan('B')]), tooTight: ['pouch-z'] };
    const { state, accepted } = transition(from, input, FACTS);
    expect(accepted).toBe(true);
    expect(state).toMatchObject({
      step: { at: 'gather' },
      gathered: { B: 1 },
      tooTight: [],
      parcel: 0,
      confirming: null,
    });
    expect(state.progress).toEqual([
      { weighing: null, label: null },
      { weighing: null, label: null },
    ]);
    expect(transition({ ...from, order: { ...from.order!, id: '7' } }, input, FACTS).accepted).toBe(false);
    expect(transition(after(toFold), input, FACTS).accepted).toBe(false);
    expect(transition(IDLE, input, FACTS)).toEqual({ state: IDLE, effects: [], accepted: false });
  });

  it('and is planned anew where it could not be divided, as before', () => {
    const { state, accepted } = give([ONE], { type: 'not-shortened', order: '1047' });
    expect([accepted, state.step, state.order?.id]).toEqual([true, { at: 'gather' }, '1047']);
  });
});

describe('an order of another bench', () => {
  const there = { ...after([...toSeal.slice(0, -1), weighed('14.5'), command('set-aside')]), ...{ packer: 'lucia' } };
  const { parcels, ...run } = there;
  const over = (change: Partial<RunState> = {}): RunInput => ({
    type: 'taken-over',
    from: 'bench-2',
    run: { ...run, ...change },
    plan: { parcels },
  });

  it('goes on in its exact step with who stands here, and its slip comes out here', () => {
    const { state, effects } = give(somebody, over());
    expect(state).toEqual({
      ...there,
      ...SOMEBODY,
      confirming: null,
      notice: { tone: 'attention', code: 'run-taken-over', values: { order: '1047', bench: 'bench-2' } },
    });
    expect(effects).toEqual([{ type: 'print-slip', parcel: 0, again: false }]);
  });

  it('asks for no slip that is there', () => {
    expect(give([], over({ slip: 'printed' })).effects).toEqual([]);
    // Its weight is taken again: it gets its slip when it is weighed.
    const again = over({ step: { at: 'weigh' }, progress: [{ weighing: null, label: null }] });
    expect(give([], again).effects).toEqual([]);
  });

  it('does not push aside what is in hand here, and is none without an order', () => {
    for (const result of [give([ONE], over()), give([], over({ order: null }))]) {
      expect([result.accepted, result.effects]).toEqual([false, []]);
    }
    expect(give([], over({ order: null })).state).toEqual(IDLE);
  });
});

describe('a weight', () => {
  const progress = (inputs: readonly RunInput[]): ParcelProgress | undefined => after(inputs).progress[0];
  const decided = (inputs: readonly RunInput[]) => progress(inputs)?.weighing?.decided;

  it('is kept with what was decided of it', () => {
    expect(decided(toSeal)).toBeNull();
    expect(decided(toClose)).toBeNull();
    expect(decided([...toClose, command('pay-next-bracket'), command('confirm')])).toBe('pay-next-bracket');
    expect(decided([...toMismatch, next, command('confirm')])).toBe('as-is');
    expect(progress(toLabel)?.weighing).toEqual(progress(toSeal)?.weighing);
  });

  it.each<[string, readonly RunInput[]]>([
    ['weighing again', [...toClose, command('weigh-again')]],
    ['making it lighter', [...toClose, command('make-lighter')]],
    ['going back from the decision', [...toClose, command('back')]],
    ['going back from sealing', [...toSeal, command('back')]],
    ['going back from the scale', [...toClose, command('weigh-again'), command('back')]],
  ])('is forgotten by %s', (_, inputs) => {
    expect(progress(inputs)?.weighing).toBeNull();
  });

  it.each<[string, readonly RunInput[]]>([
    ['going back from the label', [...toLabel, command('back')]],
    ['a wrong label', toStop],
    ['putting it away', [...toStop, command('back')]],
  ])('is kept by %s', (_, inputs) => {
    expect(progress(inputs)?.weighing).not.toBeNull();
  });

  it('asks for a slip, which is printed, fails or is asked for again', () => {
    const slips = (...inputs: readonly RunInput[]) => after([...toSeal, ...inputs]).slip;
    expect(after(toWeigh).slip).toBe('none');
    expect(after(toMismatch).slip).toBe('none');
    expect(slips()).toBe('queued');
    for (const outcome of ['printed', 'failed', 'unknown'] as const) {
      expect(slips({ type: 'print-result', outcome })).toBe(outcome);
    }
    expect(slips({ type: 'print-result', outcome: 'failed' }, command('print-again'), command('confirm'))).toBe(
      'queued',
    );
    expect(after([...toClose, { type: 'print-result', outcome: 'printed' }]).slip).toBe('printed');
    const paid = [...toClose, { type: 'print-result', outcome: 'printed' } as const, command('pay-next-bracket')];
    expect(after([...paid, command('confirm')]).slip).toBe('queued');
  });

  it('a slip that is there leaves what is said; a result that nobody asked for leaves all', () => {
    expect(after([...toSeal, badge('rosa'), { type: 'print-result', outcome: 'printed' }]).notice?.code).toBe(
      'packer-changed',
    );
    for (const outcome of ['failed', 'unknown'] as const) {
      const late = after([...toSeal, { type: 'print-result', outcome }, { type: 'print-result', outcome: 'printed' }]);
      expect([late.slip, late.notice], 'a slip that came out late').toEqual(['printed', null]);
    }
    const { state, accepted } = give(toWeigh, { type: 'print-result', outcome: 'failed' });
    expect([state, accepted]).toEqual([after(toWeigh), false]);
    expect(give(toSeal, { type: 'print-result', outcome: 'failed' }).accepted).toBe(true);
  });
});

describe('what a scan leaves', () => {
  it.each<[string, RunInput, string, string]>([
    ['a piece', pieceScan('A'), 'A', 'piece'],
    ['a container', container('pouch-z'), 'pouch-z', 'container'],
    ['an unknown code', scan({ means: 'unknown', text: '?!', why: 'not-known' }), '?!', 'unknown'],
    ['a card', scan({ means: 'command', text: 'card', command: 'help' }), 'card', 'command'],
  ])('%s is shown as it was read', (_, input, text, meaning) => {
    expect(after([ONE, input]).lastScan).toEqual({ text, meaning });
  });

  it('a postcode in either form, in large or small letters, with or without blanks', () => {
    const doneWith = (postcode: string, due: string) => {
      const state = after(toLabel);
      const to = { ...state.order!, to: { postcode: due, country: 'US' } };
      return transition({ ...state, order: to }, labelScan('N1', postcode), FACTS).state.step.at;
    };
    for (const [found, due] of [
      ['55802', '55802-1234'],
      ['558021234', '55802'],
      ['K1A 0B1', 'k1a0b1'],
      ['k1a0b1', 'K1A 0B1'],
      ['101', '101'],
    ] as const)
      expect([found, doneWith(found, due)]).toEqual([found, 'done']);
    // Three or four digits are a whole postcode elsewhere, and no short form of a longer one.
    for (const [found, due] of [
      ['1010', '101'],
      ['101', '1010'],
      ['101', '102'],
      ['K1A 0B1', 'K1B 0B1'],
      ['55802', '55803-1234'],
    ] as const)
      expect([found, doneWith(found, due)]).toEqual([found, 'label']);
  });
});

describe('mistakes', () => {
  const hat = { ...plannedPiece('C'), piece: { sku: 'C', title: 'piece C', kind: 'hat' } };
  const mixed = [taken([parcel(['A']), { ...parcel([]), pieces: [hat] }]), pieceScan('A'), pieceScan('C')];

  it('are made with the kinds at hand, a wrong piece with all of the order', () => {
    const made = (inputs: readonly RunInput[]) => after(inputs).mistakes;
    expect(made([mixed[0]!, pieceScan('Z')])).toEqual([{ mistake: 'wrong-piece', garments: ['t-shirt', 'hat'] }]);
    const fill = [...mixed, next, next, next, next];
    expect(made([...fill, container('x')])).toEqual([{ mistake: 'wrong-container', garments: ['t-shirt'] }]);
    expect(made([pieceScan('Z'), scan({ means: 'unknown', text: '?', why: 'not-known' })])).toEqual([]);
  });

  it.each<[string, Partial<ParcelPlan['fit']>, number]>([
    ['surely closes', { verdict: 'easy', probability: 0.95 }, 1],
    ['closes easily, less surely', { verdict: 'easy', probability: 0.94 }, 0],
    ['closes snugly', { verdict: 'snug', probability: 0.99 }, 0],
  ])('too tight is one where the container %s', (_, fit, count) => {
    const planned = { ...parcel(['A']), fit: { ...parcel(['A']).fit, ...fit } };
    const filling = [taken([planned]), pieceScan('A'), ...Array.from({ length: 3 }, () => next)];
    expect(after([...filling, command('too-tight')]).mistakes).toHaveLength(count);
  });
});

describe('an answer', () => {
  const asked = after([...toFold, command('set-aside', 'key')]);
  const since = asked.confirming?.since ?? 0;
  const answer = (by: 'key' | 'touch' | 'scan' | 'voice', waited: number) =>
    transition(asked, command('confirm', by), { ...FACTS, now: since + waited });

  it.each<['key' | 'touch' | 'scan' | 'voice', number, boolean]>([
    ['key', 0, false],
    ['key', 499, false],
    ['key', 500, true],
    ['touch', 499, false],
    ['touch', 500, true],
    ['scan', 0, true],
    ['voice', 0, true],
    ['voice', 30_000, true],
    ['voice', 30_001, false],
    ['touch', 30_001, true],
    // The clock was set back since: nothing bounces for hours.
    ['touch', -3_600_000, true],
  ])('by %s after %d ms is one: %s', (by, waited, taken) => {
    const { effects } = answer(by, waited);
    expect(effects.length > 0).toBe(taken);
  });

  it('that only bounced changes nothing', () => {
    expect(answer('key', 10)).toEqual({ state: asked, effects: [], accepted: false });
  });

  it('is still waited for while the question is said again or help comes', () => {
    const { confirming } = asked;
    for (const each of ['repeat', 'help'] as const) {
      const { state, accepted } = transition(asked, command(each), FACTS);
      expect([state.confirming, accepted, state.step]).toEqual([confirming, true, asked.step]);
    }
    expect(transition(asked, command('back'), FACTS).state).toMatchObject({ confirming, notice: { code: 'not-now' } });
    expect(transition(asked, badge('rosa'), FACTS).state.confirming).toBeNull();
  });
});

it('an input that says nothing new is no mistake', () => {
  const wrong = after([taken([parcel(['A'])]), scan({ means: 'piece', text: 'Z', sku: 'Z' })]);
  const ignored: RunInput = {
    type: 'reading',
    reading: (weighed('1') as Extract<RunInput, { type: 'reading' }>).reading,
  };
  expect(transition(wrong, ignored, FACTS).state).toBe(wrong);
  expect(wrong.mistakes).toHaveLength(1);
});
