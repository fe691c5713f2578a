import { describe, expect, it } from 'vitest';
import { PROBLEMS } from '#shared/people/rules.ts';
import { practiceCommands } from '#shared/practice/commands.ts';
import { optionsOf } from '#shared/practice/options.ts';
import type { PracticeEffect, PracticeFacts, PracticeInput } from '#shared/practice/practise.ts';
import { NO_PRACTICE, type PracticeNotice, type PracticeScreen } from '#shared/practice/types.ts';
import { commandsFor } from '#shared/run/commands-for.ts';
import { FACTS } from '#tests/support/run-fixtures.ts';
import {
  skills,
  say,
  card,
  choose,
  PACKING,
  SUITS,
  bin,
  piece,
  badge,
  begin,
  ROUND,
  SPOT,
  round,
  invented,
  toSkill,
  toPreparing,
  toRound,
  toSpot,
  toGuided,
  toProgress,
  at,
  give,
} from '#tests/support/practice-moments.ts';

const MENU: PracticeScreen = { at: 'menu' };
const PACKING_SCREEN: PracticeScreen = { at: 'skill', skill: 'packing', signing: null };
const preparing = (exercise: 'guided' | 'choose' | 'spot', skill = 'packing'): PracticeScreen => ({
  at: 'preparing',
  skill,
  exercise,
});
const prepare = (exercise: 'guided' | 'choose' | 'spot', skill = 'packing'): PracticeEffect[] => [
  { type: 'prepare', skill, exercise },
];
const mark = (exercise: 'choose' | 'spot', about: string, answer: string, right: boolean): PracticeEffect[] => [
  { type: 'mark', person: 'lucia', mark: { skill: 'packing', exercise, about: [about], answer, right } },
];
type Says = readonly [PracticeNotice['tone'], PracticeNotice['code'], PracticeNotice['values']?] | null;
const notHere = (values: PracticeNotice['values'] = {}): Says => ['attention', 'not-here', values];

type Row = readonly [
  name: string,
  from: readonly PracticeInput[],
  input: PracticeInput,
  screen: PracticeScreen,
  says: Says,
  does?: readonly PracticeEffect[],
  more?: Partial<PracticeFacts>,
];

const ROWS: readonly Row[] = [
  ['practice begins with the menu', [], begin, MENU, null],
  ['it does not begin twice', toSkill, begin, PACKING_SCREEN, null],
  ['a skill is chosen', [begin], choose('skill:packing'), PACKING_SCREEN, null],
  ['another one', [begin], choose('skill:suits'), { at: 'skill', skill: 'suits', signing: null }, null],
  ['a skill that is none', [begin], choose('skill:juggling'), MENU, notHere()],
  ['one’s progress', [begin], choose('progress'), { at: 'progress' }, null],
  ['leaving', [begin], choose('leave'), { at: 'off' }, null],
  ['the next option is marked', [begin], say('next'), MENU, null],
  ['nothing is marked to be confirmed', [begin], say('confirm'), MENU, notHere({ command: 'confirm' })],
  ['the marked one is confirmed', [begin, say('next')], say('confirm'), PACKING_SCREEN, null],
  [
    'the second',
    [begin, say('next'), say('next')],
    say('confirm'),
    { at: 'skill', skill: 'suits', signing: null },
    null,
  ],
  ['help', [begin], say('help'), MENU, null, [{ type: 'call-help' }]],
  ['help by a card', [begin], card('help'), MENU, null, [{ type: 'call-help' }]],
  ['what is said of a piece of nobody’s', [begin], piece('A'), MENU, notHere({ text: 'A' })],
  ['a bin that is not asked for', [begin], bin('pouch-a'), MENU, notHere({ text: 'pouch-a' })],
  ['a command that leads nowhere', [begin], say('too-tight'), MENU, notHere({ command: 'too-tight' })],
  ['somebody else practises', [begin], badge('rosa'), MENU, null],
  ['also from one’s progress', toProgress, badge('rosa'), MENU, null],
  ['out of one’s progress', toProgress, say('back'), MENU, null],
  ['on from one’s progress', toProgress, say('next'), MENU, null],
  ['back out of the menu', [begin], say('back'), { at: 'off' }, null],
  ['back out of a skill', toSkill, say('back'), MENU, null],
  ['the menu, chosen', toSkill, choose('menu'), MENU, null],
  [
    'a record is printed',
    toSkill,
    choose('record'),
    PACKING_SCREEN,
    ['well', 'printed-record'],
    [{ type: 'print-record', person: 'lucia' }],
  ],
  [
    'nobody’s record is none',
    [{ ...begin, person: null }, choose('skill:packing')],
    choose('record'),
    PACKING_SCREEN,
    ['attention', 'nobody-here'],
  ],
  ['choosing containers', toSkill, choose('choose'), preparing('choose'), null, prepare('choose')],
  ['finding what is wrong', toSkill, choose('spot'), preparing('spot'), null, prepare('spot')],
  ['a guided run', toSkill, choose('guided'), preparing('guided'), null, prepare('guided')],
  [
    'an exercise that the skill does not ask for',
    [begin, choose('skill:suits')],
    choose('spot'),
    { at: 'skill', skill: 'suits', signing: null },
    notHere(),
  ],
  ['nothing can be prepared', toPreparing, { type: 'cannot-prepare' }, PACKING_SCREEN, ['attention', 'cannot-prepare']],
  [
    'nothing can be prepared, too late',
    toRound,
    { type: 'cannot-prepare' },
    { at: 'round', skill: 'packing', round: ROUND, answer: null },
    null,
  ],
  ['out of what is prepared', toPreparing, say('back'), PACKING_SCREEN, null],
  ['next while it is prepared', toPreparing, say('next'), preparing('choose'), notHere({ command: 'next' })],
  ['a choice while it is prepared', toPreparing, choose('pouch-a'), preparing('choose'), notHere()],
  ['a badge while it is prepared', toPreparing, badge('rosa'), preparing('choose'), notHere()],
  ['the round comes', toPreparing, round(ROUND), { at: 'round', skill: 'packing', round: ROUND, answer: null }, null],
  ['a round that nobody waits for', [begin], round(ROUND), MENU, null],
  [
    'answered',
    toRound,
    choose('pouch-a'),
    { at: 'round', skill: 'packing', round: ROUND, answer: 'pouch-a' },
    null,
    mark('choose', 'shirt', 'pouch-a', true),
  ],
  [
    'answered wrongly',
    toRound,
    choose('carton-b'),
    { at: 'round', skill: 'packing', round: ROUND, answer: 'carton-b' },
    null,
    mark('choose', 'shirt', 'carton-b', false),
  ],
  [
    'answered by the bin',
    toRound,
    bin('carton-b'),
    { at: 'round', skill: 'packing', round: ROUND, answer: 'carton-b' },
    null,
    mark('choose', 'shirt', 'carton-b', false),
  ],
  [
    'a bin that is not offered',
    toRound,
    bin('pouch-z'),
    { at: 'round', skill: 'packing', round: ROUND, answer: null },
    notHere({ text: 'pouch-z' }),
  ],
  [
    'answered twice',
    [...toRound, choose('pouch-a')],
    choose('carton-b'),
    { at: 'round', skill: 'packing', round: ROUND, answer: 'pouch-a' },
    notHere(),
  ],
  ['another one', [...toRound, choose('pouch-a')], say('next'), preparing('choose'), null, prepare('choose')],
  ['out of a round', toRound, say('back'), PACKING_SCREEN, null],
  [
    'what is wrong, found',
    toSpot,
    choose('wrong-label'),
    { at: 'round', skill: 'packing', round: SPOT, answer: 'wrong-label' },
    null,
    mark('spot', 'wrong-label', 'wrong-label', true),
  ],
  [
    'what is wrong, not found',
    toSpot,
    choose('nothing-wrong'),
    { at: 'round', skill: 'packing', round: SPOT, answer: 'nothing-wrong' },
    null,
    mark('spot', 'wrong-label', 'nothing-wrong', false),
  ],
  [
    'nothing wrong, seen',
    [...toSkill, choose('spot'), round({ ...SPOT, problem: null })],
    choose('nothing-wrong'),
    { at: 'round', skill: 'packing', round: { ...SPOT, problem: null }, answer: 'nothing-wrong' },
    null,
    mark('spot', 'nothing-wrong', 'nothing-wrong', true),
  ],
  [
    'one’s own badge signs nothing',
    toSkill,
    badge('lucia'),
    PACKING_SCREEN,
    ['attention', 'own-skill'],
    [],
    { ready: ['packing'] },
  ],
  [
    'a packer’s badge signs nothing',
    toSkill,
    badge('rosa'),
    PACKING_SCREEN,
    ['attention', 'not-a-supervisor', { staff: 'rosa' }],
    [],
    { ready: ['packing'] },
  ],
  [
    'a badge before enough was practised',
    toSkill,
    badge('tobias'),
    PACKING_SCREEN,
    ['attention', 'not-ready'],
    [],
    { ready: ['suits'] },
  ],
  [
    'a supervisor’s badge asks',
    toSkill,
    badge('tobias'),
    { at: 'skill', skill: 'packing', signing: { by: 'tobias', since: FACTS.now + 25_000 } },
    null,
    [],
    { ready: ['packing'] },
  ],
  [
    'signed',
    [...toSkill, badge('tobias')],
    say('confirm'),
    PACKING_SCREEN,
    ['well', 'signed', { by: 'tobias' }],
    [{ type: 'sign', person: 'lucia', skill: 'packing', by: 'tobias' }],
    { ready: ['packing'] },
  ],
  ['not signed', [...toSkill, badge('tobias')], say('cancel'), PACKING_SCREEN, null, [], { ready: ['packing'] }],
  [
    'a badge in a round',
    toRound,
    badge('tobias'),
    { at: 'round', skill: 'packing', round: ROUND, answer: null },
    notHere(),
    [],
    { ready: ['packing'] },
  ],
];

describe('each screen of practice', () => {
  for (const [name, from, input, screen, says, does = [], more = {}] of ROWS) {
    it(name, () => {
      const { state, effects, accepted } = give(from, input, more);
      expect(state.screen).toEqual(screen);
      expect(state.notice).toEqual(says === null ? null : { tone: says[0], code: says[1], values: says[2] ?? {} });
      expect(effects).toEqual(does);
      const refused = says !== null && !['signed', 'printed-record', 'cannot-prepare'].includes(says[1]);
      if (refused) expect(accepted).toBe(false);
      if (effects.length > 0) expect(accepted).toBe(true);
    });
  }

  it.each<[string, readonly PracticeInput[], PracticeInput]>([
    ['that it begins twice', toSkill, begin],
    ['a round too late', toRound, round(ROUND)],
    ['that nothing was prepared, too late', toRound, { type: 'cannot-prepare' }],
    ['digits', toRound, { type: 'digits', digits: '5', by: 'touch' }],
    ['another plan', toRound, { type: 'replanned', plan: null }],
    ['an order too late', toRound, invented],
  ])('says nothing to %s and stays', (_, from, input) => {
    expect(give(from, input)).toEqual({ state: at(from), effects: [], accepted: false });
  });

  it('is what is offered on it, the main command first', () => {
    const offered = (inputs: readonly PracticeInput[], more: Partial<PracticeFacts> = {}) =>
      practiceCommands(at(inputs, more)).join(' ');
    expect(offered([begin])).toBe('next back repeat help');
    expect(offered([begin, say('next')])).toBe('next confirm back repeat help');
    expect(offered(toSkill)).toBe('next back repeat help');
    expect(offered([...toSkill, badge('tobias')], { ready: ['packing'] })).toBe('confirm cancel repeat help');
    expect(offered(toPreparing)).toBe('back repeat help');
    expect(offered(toRound)).toBe('next back repeat help');
    expect(offered([...toRound, choose('pouch-a')])).toBe('next back repeat help');
    expect(offered(toProgress)).toBe('next back repeat help');
    const guided = at(toGuided);
    if (guided.screen.at !== 'guided') throw new Error('no guided run');
    expect(offered(toGuided)).toBe(commandsFor(guided.screen.run).join(' '));
  });

  it('is what can be chosen on it, in its order', () => {
    const options = (inputs: readonly PracticeInput[]) => optionsOf(at(inputs), skills);
    expect(options([begin])).toEqual(['skill:packing', 'skill:suits', 'progress', 'leave']);
    expect(options(toSkill)).toEqual(['guided', 'choose', 'spot', 'record', 'menu']);
    expect(options([begin, choose('skill:suits')])).toEqual(['guided', 'record', 'menu']);
    expect(options(toRound)).toEqual(['pouch-a', 'carton-b']);
    expect(options(toSpot)).toEqual([...PROBLEMS, 'nothing-wrong']);
    for (const nothing of [[], toPreparing, toGuided, toProgress, [...toRound, choose('pouch-a')]])
      expect(options(nothing)).toEqual([]);
    expect(optionsOf({ ...NO_PRACTICE, screen: { at: 'skill', skill: 'gone', signing: null } }, skills)).toEqual([
      'record',
      'menu',
    ]);
  });
});

describe('what is kept from screen to screen', () => {
  it('who practises, in which language', () => {
    expect(at(toRound)).toMatchObject({ person: 'lucia', language: 'es' });
    expect(at([begin, badge('rosa')])).toMatchObject({ person: 'rosa', language: null });
    expect(at([...toRound, { type: 'language', language: 'en', by: 'touch' }])).toMatchObject({
      language: 'en',
      screen: { at: 'round' },
    });
    expect(at([begin, choose('leave')])).toEqual(NO_PRACTICE);
    expect(at([begin, say('back')])).toEqual(NO_PRACTICE);
  });

  it('a mark goes round and is gone on another screen, with what was said', () => {
    expect(
      [1, 2, 3].map((times) => at([...toRound, ...Array.from({ length: times }, () => say('next'))]).marked),
    ).toEqual([0, 1, 0]);
    expect(at([begin, say('next'), say('confirm')])).toMatchObject({ marked: null });
    expect(at([begin, piece('A'), say('next')])).toMatchObject({ notice: null, marked: 0 });
    expect(at([...toSkill, choose('record'), say('back')])).toMatchObject({ notice: null });
    expect(at([begin, say('next'), choose('skill:packing')]).marked).toBeNull();
  });

  it('how often something was asked to be said again', () => {
    expect(at([begin, say('repeat'), say('repeat')])).toMatchObject({ repeats: 2, screen: MENU });
  });

  it('what was asked and right, until an exercise begins anew or another skill does', () => {
    const answered = [...toRound, choose('pouch-a'), say('next'), round(ROUND), choose('carton-b')];
    expect(at(answered)).toMatchObject({ asked: 2, right: 1 });
    expect(at([...answered, say('back')])).toMatchObject({ asked: 2, right: 1 });
    expect(at([...answered, say('back'), choose('spot')])).toMatchObject({ asked: 0, right: 0 });
    expect(at([...answered, say('back'), say('back'), choose('skill:suits')])).toMatchObject({ asked: 0, right: 0 });
  });
});

describe('a set of rounds', () => {
  /** Answers rounds until the skill is shown again: how many there were. */
  const rounds = (answers: readonly boolean[], more: Partial<PracticeFacts> = {}): number => {
    let inputs: readonly PracticeInput[] = toPreparing;
    let count = 0;
    for (const right of answers) {
      inputs = [...inputs, round(ROUND), choose(right ? 'pouch-a' : 'carton-b'), say('next')];
      count++;
      if (at(inputs, more).screen.at === 'skill') return count;
    }
    throw new Error('it goes on');
  };
  const [right, wrong] = [true, false];

  it('ends after as many right answers as the skill asks for, and two more where one was wrong', () => {
    // "Packing" asks for three.
    expect(rounds([right, right, right, right])).toBe(3);
    expect(rounds([right, right, right, right], { skills: [SUITS, PACKING] })).toBe(3);
    expect(rounds([wrong, right, right, right, right, right])).toBe(5);
    expect(rounds([right, right, wrong, right, right, right])).toBe(5);
    expect(rounds([wrong, wrong, wrong, wrong, wrong, wrong])).toBe(5);
  });
});
