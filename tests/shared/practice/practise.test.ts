import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { DEFAULT_PEOPLE, type Skill } from '#shared/people/rules.ts';
import { practiceCommands } from '#shared/practice/commands.ts';
import { optionsOf } from '#shared/practice/options.ts';
import { practise, type PracticeEffect, type PracticeFacts, type PracticeInput } from '#shared/practice/practise.ts';
import { inARow, skillsLacking, skillStanding } from '#shared/practice/standing.ts';
import { NO_PRACTICE, type ChooseRound, type Mark, type PracticeState } from '#shared/practice/types.ts';
import { COMMANDS, type Command } from '#shared/run/commands.ts';
import { FACTS, order, parcel, plan } from '#tests/support/run-fixtures.ts';

const skills = DEFAULT_PEOPLE.skills;
const facts: PracticeFacts = {
  run: FACTS,
  unit: { mass: 'oz', places: 1 },
  skills,
  supervisors: ['tobias', 'maren'],
  ready: [],
};
const say = (command: Command): PracticeInput => ({ type: 'command', command, by: 'voice' });
const choose = (option: string): PracticeInput => ({ type: 'choose', option, by: 'touch' });
const badge = (staff: string): PracticeInput => ({
  type: 'scan',
  by: 'scan',
  meaning: { means: 'staff', text: staff, staff },
});
const begin: PracticeInput = { type: 'begin', person: 'lucia', language: 'es' };
const words = (text: string) => ({ en: text, es: text });
const round: ChooseRound = {
  exercise: 'choose',
  kind: 'shirt',
  kindName: words('Shirt'),
  size: 'M',
  block: { width: 1, length: 1, thickness: 1 },
  grams: 200,
  options: [
    { container: 'pouch-a', name: words('a'), type: 'pouch', fit: 'easy', right: true, why: words('cheapest') },
    { container: 'carton-b', name: words('b'), type: 'carton', fit: 'no', right: false, why: words('too tight') },
  ],
};
const orderInput: PracticeInput = {
  type: 'order',
  order: order([{ sku: 'A', count: 1 }]),
  plan: plan([parcel(['A'])]),
};

function walk(inputs: readonly PracticeInput[], with_: Partial<PracticeFacts> = {}) {
  let state: PracticeState = NO_PRACTICE;
  const effects: PracticeEffect[] = [];
  let { now } = FACTS;
  for (const input of inputs) {
    now += 1000;
    const result = practise(state, input, { ...facts, ...with_, run: { ...FACTS, now } });
    ({ state } = result);
    effects.push(...result.effects);
  }
  return { state, effects, types: effects.map(({ type }) => type) };
}

const atRound = [begin, choose('skill:packing'), choose('choose'), { type: 'round', round } as const];

describe('a round', () => {
  it.each<[string, PracticeInput[], boolean]>([
    ['by touch', [choose('pouch-a')], true],
    ['by touch, wrong', [choose('carton-b')], false],
    ['by voice, card or key: marked and confirmed', [say('next'), say('confirm')], true],
    ['the second one', [say('next'), say('next'), say('confirm')], false],
    ['marking goes round', [say('next'), say('next'), say('next'), say('confirm')], true],
    [
      'by scanning the bin',
      [{ type: 'scan', by: 'scan', meaning: { means: 'container', text: 'x', container: 'pouch-a' } }],
      true,
    ],
  ])('is answered %s', (_, inputs, right) => {
    const { state, effects } = walk([...atRound, ...inputs]);
    expect(effects.at(-1)).toMatchObject({
      type: 'mark',
      person: 'lucia',
      mark: { skill: 'packing', exercise: 'choose', about: ['shirt'], right },
    });
    expect(state).toMatchObject({ asked: 1, right: right ? 1 : 0 });
    expect(practiceCommands(state)[0]).toBe('next');
  });

  it('is answered once, and "next" asks for another until the skill has enough', () => {
    const once = walk([...atRound, choose('pouch-a'), choose('carton-b')]);
    expect(once.types.filter((type) => type === 'mark')).toHaveLength(1);
    const again = [say('next'), { type: 'round', round } as const, choose('pouch-a')];
    const done = walk([...atRound, choose('pouch-a'), ...again, ...again, say('next')]);
    expect(done.types.filter((type) => type === 'prepare')).toHaveLength(3);
    expect(done.state.screen).toMatchObject({ at: 'skill', skill: 'packing' });
  });
});

it('counts what was right for the skill that was practised, and for no other', () => {
  const back = walk([...atRound, choose('pouch-a'), say('back')]);
  expect(back.state).toMatchObject({ screen: { at: 'skill', skill: 'packing' }, asked: 1, right: 1 });
  const other = walk([...atRound, choose('pouch-a'), say('back'), choose('menu'), choose('skill:packing')]);
  expect(other.state).toMatchObject({ asked: 0, right: 0 });
});

describe('a guided run', () => {
  const toEnd: readonly PracticeInput[] = [
    say('next'), // the piece is in hand
    say('next'), // it is fine
    say('next'),
    say('next'), // folded
    say('next'), // it closes
    say('next'), // weighed
    say('next'), // sealed
    say('next'),
    say('confirm'), // the label is right
  ];

  it('goes through the run’s own steps by "next" and "confirm" alone, and is marked right without a mistake', () => {
    const { state, effects, types } = walk([begin, choose('skill:packing'), choose('guided'), orderInput, ...toEnd]);
    expect(state.screen.at === 'guided' && state.screen.run.step.at).toBe('done');
    expect(types.filter((type) => type === 'mark')).toHaveLength(1);
    expect(effects.at(-1)).toMatchObject({ mark: { exercise: 'guided', right: true, about: ['t-shirt'] } });
    // Nothing that a real run asks of the world is asked: neither a claim, a slip, a parcel nor a count.
    expect(new Set(types)).toEqual(new Set(['prepare', 'mark']));
  });

  it('with a wrong piece is marked wrong, with what was wrong', () => {
    const wrong: PracticeInput = { type: 'scan', by: 'scan', meaning: { means: 'piece', text: 'Z', sku: 'Z' } };
    const { effects } = walk([begin, choose('skill:packing'), choose('guided'), orderInput, wrong, ...toEnd]);
    expect(effects.at(-1)).toMatchObject({ mark: { right: false, answer: 'wrong-piece' } });
  });

  it('has the number by hand: the label’s postcode in digits ends it, a number that no label has does not', () => {
    const toDigits = [begin, choose('skill:packing'), choose('guided'), orderInput, ...toEnd.slice(0, -2)];
    const digits = (text: string): PracticeInput => ({ type: 'digits', digits: text, by: 'voice' });
    const stepOf = ({ screen }: PracticeState) => (screen.at === 'guided' ? screen.run.step : null);
    const entered = [...toDigits, say('enter-number'), digits('55'), digits('802')];
    expect(stepOf(walk(entered).state)).toMatchObject({ at: 'label', entering: { groups: ['55', '802'] } });
    expect(stepOf(walk([...entered, say('confirm')]).state)).toEqual({ at: 'done' });
    const wrong = walk([...toDigits, say('enter-number'), digits('9212391234567812345670'), say('confirm')]);
    expect(stepOf(wrong.state)).toMatchObject({ at: 'label' });
    expect(walk([begin, digits('5')]).state.screen).toEqual({ at: 'menu' });
  });

  it('set aside or given back it leads back to the skill and marks nothing', () => {
    const { state, types } = walk([begin, choose('skill:packing'), choose('guided'), orderInput, say('back')]);
    expect(state.screen.at).toBe('skill');
    expect(types).not.toContain('mark');
  });
});

describe('signing off', () => {
  const atSkill = [begin, choose('skill:packing')];
  const sign = (staff: string, ready: readonly string[]) => walk([...atSkill, badge(staff), say('confirm')], { ready });

  it('says whether practice is missing or the person', () => {
    const lacks = (person: string | null) =>
      walk([{ ...begin, person }, choose('skill:packing'), badge('tobias')]).state.notice?.code;
    expect(lacks('lucia')).toBe('not-ready');
    expect(lacks(null)).toBe('nobody-here');
  });

  it('needs enough practice, a supervisor’s badge, another person, and a confirmation', () => {
    expect(sign('tobias', ['packing']).effects).toEqual([
      { type: 'sign', person: 'lucia', skill: 'packing', by: 'tobias' },
    ]);
    expect(sign('tobias', []).types).toEqual([]);
    expect(sign('somebody', ['packing']).types).toEqual([]);
    expect(
      walk([{ ...begin, person: 'tobias' }, choose('skill:packing'), badge('tobias'), say('confirm')], {
        ready: ['packing'],
      }).types,
    ).toEqual([]);
    expect(walk([...atSkill, badge('tobias'), say('cancel')], { ready: ['packing'] }).types).toEqual([]);
    expect(
      walk([{ ...begin, person: null }, choose('skill:packing'), badge('tobias'), say('confirm')], {
        ready: ['packing'],
      }).types,
    ).toEqual([]);
  });

  it('right answers count in a row, per skill and exercise', () => {
    const mark = (right: boolean, exercise: Mark['exercise'] = 'choose', skill = 'packing'): Mark => ({
      skill,
      exercise,
      about: [],
      answer: '',
      right,
    });
    expect(inARow([mark(true), mark(false), mark(true), mark(true)], 'packing', 'choose')).toBe(2);
    expect(inARow([mark(true), mark(false, 'spot'), mark(false, 'choose', 'other')], 'packing', 'choose')).toBe(1);
    expect(inARow([], 'packing', 'choose')).toBe(0);
    const [skill] = skills as [Skill];
    const enough = [
      mark(true, 'guided'),
      ...[1, 2, 3].map(() => mark(true)),
      ...[1, 2, 3, 4].map(() => mark(true, 'spot')),
    ];
    expect(skillStanding(skill, enough).ready).toBe(true);
    expect(skillStanding(skill, [...enough, mark(false, 'guided')]).ready).toBe(false);
  });

  it('an order asks for the skills of its kinds that are not signed', () => {
    const suits: Skill = { ...skills[0]!, id: 'suits', kinds: ['suit', 'coat'] };
    expect(skillsLacking([suits, ...skills], ['suit', 'shirt'], new Set())).toEqual([suits]);
    expect(skillsLacking([suits], ['suit'], new Set(['suits']))).toEqual([]);
    expect(skillsLacking([suits], ['shirt'], new Set())).toEqual([]);
  });
});

it('whatever comes in, there is a way on and a way out, and nothing real is asked for', () => {
  const anyInput = fc.oneof(
    { weight: 5, arbitrary: fc.constantFrom(...COMMANDS).map(say) },
    { weight: 4, arbitrary: fc.constantFrom('next', 'confirm', 'back').map((each) => say(each as Command)) },
    {
      weight: 4,
      arbitrary: fc
        .constantFrom('skill:packing', 'choose', 'guided', 'spot', 'pouch-a', 'leave', 'progress', 'nonsense')
        .map(choose),
    },
    {
      weight: 2,
      arbitrary: fc.constantFrom<PracticeInput>(
        { type: 'round', round },
        orderInput,
        { type: 'cannot-prepare' },
        begin,
      ),
    },
    { weight: 1, arbitrary: fc.constantFrom('tobias', 'lucia').map(badge) },
  );
  fc.assert(
    fc.property(fc.array(anyInput, { maxLength: 40 }), (inputs) => {
      const { state, types } = walk([begin, ...inputs]);
      for (const type of types)
        expect(['prepare', 'replan', 'mark', 'sign', 'print-record', 'call-help']).toContain(type);
      expect(JSON.parse(JSON.stringify(state))).toEqual(state);
      if (state.screen.at === 'off') return;
      expect(practiceCommands(state).length).toBeGreaterThan(0);
      const options = optionsOf(state, skills);
      expect(new Set(options).size).toBe(options.length);
    }),
    { numRuns: 200 },
  );
});
