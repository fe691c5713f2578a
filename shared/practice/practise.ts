import { practiceCommands } from './commands.ts';
import { guidedInput, type GuidedFacts } from './guided.ts';
import { exerciseOf, NOTHING_WRONG, optionsOf } from './options.ts';
import { NO_PRACTICE, type Exercise, type Mark, type PracticeNotice, type PracticeState, type Round } from './types.ts';
import type { ScanMeaning } from '#shared/codes/types.ts';
import type { Skill } from '#shared/people/rules.ts';
import type { Order, OrderPlan } from '#shared/planning/types.ts';
import type { Command, GivenBy } from '#shared/run/commands.ts';
import type { Language } from '#shared/words/language.ts';

/** What can happen in practice. */
export type PracticeInput =
  | { readonly type: 'begin'; readonly person: string | null; readonly language: Language | null }
  | { readonly type: 'command'; readonly command: Command; readonly by: GivenBy }
  | { readonly type: 'scan'; readonly meaning: ScanMeaning; readonly by: GivenBy }
  /** digits of a number that is being entered; an invented label has only its postcode */
  | { readonly type: 'digits'; readonly digits: string; readonly by: GivenBy }
  /** an option was touched */
  | { readonly type: 'choose'; readonly option: string; readonly by: GivenBy }
  | { readonly type: 'language'; readonly language: Language; readonly by: GivenBy }
  | { readonly type: 'round'; readonly round: Round }
  | { readonly type: 'order'; readonly order: Order; readonly plan: OrderPlan }
  | { readonly type: 'replanned'; readonly plan: OrderPlan | null }
  | { readonly type: 'cannot-prepare' };

/** What the outside must do. */
export type PracticeEffect =
  | { readonly type: 'prepare'; readonly skill: string; readonly exercise: Exercise }
  | { readonly type: 'replan'; readonly pieces: readonly string[]; readonly without: readonly string[] }
  | { readonly type: 'mark'; readonly person: string | null; readonly mark: Mark }
  | { readonly type: 'sign'; readonly person: string; readonly skill: string; readonly by: string }
  | { readonly type: 'print-record'; readonly person: string }
  | { readonly type: 'call-help' };

export interface PracticeFacts extends GuidedFacts {
  readonly skills: readonly Skill[];
  /** who may sign a skill off, by staff id */
  readonly supervisors: readonly string[];
  /** skills that the person has practised enough to have signed off */
  readonly ready: readonly string[];
}

export interface Practised {
  readonly state: PracticeState;
  readonly effects: readonly PracticeEffect[];
  /** false: nothing moved; at most there is a notice to show */
  readonly accepted: boolean;
}

function goOn(state: PracticeState, ...effects: readonly PracticeEffect[]): Practised {
  return { state, effects, accepted: true };
}

function tell(
  state: PracticeState,
  code: PracticeNotice['code'],
  values: PracticeNotice['values'] = {},
): PracticeState {
  const tone = code === 'signed' || code === 'printed-record' ? 'well' : 'attention';
  return { ...state, notice: { tone, code, values } };
}

function refuse(state: PracticeState, code: PracticeNotice['code'], values: PracticeNotice['values'] = {}): Practised {
  return { state: tell(state, code, values), effects: [], accepted: false };
}

/** Another screen, with nothing marked and nothing left to say. */
function show(state: PracticeState, screen: PracticeState['screen']): PracticeState {
  return { ...state, screen, marked: null, notice: null };
}

function skillScreen(state: PracticeState, skill: string): PracticeState {
  return show(state, { at: 'skill', skill, signing: null });
}

/** Practice's one transition, pure like the run's: what an input makes of it, and what the outside must do. */
export function practise(state: PracticeState, input: PracticeInput, facts: PracticeFacts): Practised {
  switch (input.type) {
    case 'begin':
      return state.screen.at === 'off'
        ? goOn({ ...NO_PRACTICE, person: input.person, language: input.language, screen: { at: 'menu' } })
        : { state, effects: [], accepted: false };
    case 'language':
      return goOn({ ...state, language: input.language });
    case 'round':
      return state.screen.at === 'preparing'
        ? goOn(show(state, { at: 'round', skill: state.screen.skill, round: input.round, answer: null }))
        : { state, effects: [], accepted: false };
    case 'cannot-prepare':
      return state.screen.at === 'preparing'
        ? goOn(tell(skillScreen(state, state.screen.skill), 'cannot-prepare'))
        : { state, effects: [], accepted: false };
    case 'digits':
    case 'order':
    case 'replanned':
      return guidedInput(state, input, facts) ?? { state, effects: [], accepted: false };
    case 'choose':
      return optionsOf(state, facts.skills).includes(input.option)
        ? chosen(state, input.option)
        : refuse(state, 'not-here');
    case 'scan':
      return onScan(state, input, facts);
    case 'command':
      return onCommand(state, input, facts);
  }
}

function onScan(
  state: PracticeState,
  input: Extract<PracticeInput, { type: 'scan' }>,
  facts: PracticeFacts,
): Practised {
  const { meaning, by } = input;
  const { screen } = state;
  if (meaning.means === 'staff') return onBadge(state, meaning.staff, facts);
  if (screen.at === 'guided') return guidedInput(state, input, facts) ?? refuse(state, 'not-here');
  if (meaning.means === 'command') {
    return onCommand(state, { type: 'command', command: meaning.command, by }, facts);
  }
  if (meaning.means === 'container' && optionsOf(state, facts.skills).includes(meaning.container)) {
    return chosen(state, meaning.container);
  }
  return refuse(state, 'not-here', { text: meaning.text });
}

/** On a skill's screen a supervisor's badge asks to sign it off; anywhere else but in a run, whoever scans practises. */
function onBadge(state: PracticeState, staff: string, facts: PracticeFacts): Practised {
  const { screen, person } = state;
  if (screen.at !== 'skill') {
    if (screen.at !== 'menu' && screen.at !== 'progress') return refuse(state, 'not-here');
    return goOn({ ...show(state, { at: 'menu' }), person: staff, language: null });
  }
  if (staff === person) return refuse(state, 'own-skill');
  if (!facts.supervisors.includes(staff)) return refuse(state, 'not-a-supervisor', { staff });
  if (person === null) return refuse(state, 'nobody-here');
  if (!facts.ready.includes(screen.skill)) return refuse(state, 'not-ready');
  return goOn({ ...state, notice: null, screen: { ...screen, signing: { by: staff, since: facts.run.now } } });
}

function onCommand(
  state: PracticeState,
  input: Extract<PracticeInput, { type: 'command' }>,
  facts: PracticeFacts,
): Practised {
  const { command } = input;
  const { screen } = state;
  if (screen.at === 'guided') return guidedInput(state, input, facts) ?? refuse(state, 'not-here');
  if (!practiceCommands(state).includes(command)) return refuse(state, 'not-here', { command });
  switch (command) {
    case 'repeat':
      return goOn({ ...state, repeats: state.repeats + 1 });
    case 'help':
      return goOn(state, { type: 'call-help' });
    case 'back':
      return goOn(stepBack(state));
    case 'cancel':
      return goOn(screen.at === 'skill' ? skillScreen(state, screen.skill) : state);
    case 'confirm':
      return confirmed(state, facts);
    case 'next':
      return next(state, facts);
    default:
      return refuse(state, 'not-here', { command });
  }
}

function stepBack(state: PracticeState): PracticeState {
  const { screen } = state;
  switch (screen.at) {
    case 'skill':
    case 'progress':
      return show(state, { at: 'menu' });
    case 'preparing':
    case 'round':
      return skillScreen(state, screen.skill);
    default:
      return NO_PRACTICE;
  }
}

function next(state: PracticeState, facts: PracticeFacts): Practised {
  const { screen } = state;
  const options = optionsOf(state, facts.skills);
  if (options.length > 0) {
    const marked = state.marked === null ? 0 : (state.marked + 1) % options.length;
    return goOn({ ...state, marked, notice: null });
  }
  if (screen.at === 'round') return another(state, screen.skill, screen.round.exercise, facts);
  return goOn(show(state, { at: 'menu' }));
}

/** The next round of a set; after as many as the skill asks for in a row, and two more, the skill is shown. */
function another(state: PracticeState, skill: string, exercise: Exercise, facts: PracticeFacts): Practised {
  const needed = facts.skills.find((each) => each.id === skill)?.practise[exercise] ?? 0;
  if (state.asked >= needed + 2 || (state.asked >= needed && state.right === state.asked)) {
    return goOn(skillScreen(state, skill));
  }
  return goOn(show(state, { at: 'preparing', skill, exercise }), { type: 'prepare', skill, exercise });
}

function confirmed(state: PracticeState, facts: PracticeFacts): Practised {
  const { screen, person } = state;
  if (screen.at === 'skill' && screen.signing !== null) {
    if (person === null) return refuse(state, 'nobody-here');
    const signed = tell(skillScreen(state, screen.skill), 'signed', { by: screen.signing.by });
    return goOn(signed, { type: 'sign', person, skill: screen.skill, by: screen.signing.by });
  }
  const option = state.marked === null ? undefined : optionsOf(state, facts.skills)[state.marked];
  return option === undefined ? refuse(state, 'not-here') : chosen(state, option);
}

function chosen(state: PracticeState, option: string): Practised {
  const { screen } = state;
  switch (screen.at) {
    case 'menu':
      if (option === 'leave') return goOn(NO_PRACTICE);
      if (option === 'progress') return goOn(show(state, { at: 'progress' }));
      return goOn(otherSkill(state, option.slice('skill:'.length)));
    case 'skill':
      return chosenOfSkill(state, screen.skill, option);
    case 'round':
      return answered(state, option);
    default:
      return refuse(state, 'not-here');
  }
}

/** Another skill: what was right of the one before counts for that one alone. */
function otherSkill(state: PracticeState, skill: string): PracticeState {
  return { ...skillScreen(state, skill), asked: 0, right: 0 };
}

function chosenOfSkill(state: PracticeState, skill: string, option: string): Practised {
  if (option === 'menu') return goOn(show(state, { at: 'menu' }));
  if (option === 'record') {
    if (state.person === null) return refuse(state, 'nobody-here');
    return goOn(tell(state, 'printed-record'), { type: 'print-record', person: state.person });
  }
  const exercise = exerciseOf(option);
  if (exercise === null) return refuse(state, 'not-here');
  const begun = { ...show(state, { at: 'preparing', skill, exercise }), asked: 0, right: 0 };
  return goOn(begun, { type: 'prepare', skill, exercise });
}

function answered(state: PracticeState, option: string): Practised {
  const { screen } = state;
  if (screen.at !== 'round') return refuse(state, 'not-here');
  const { round, skill } = screen;
  const right =
    round.exercise === 'choose'
      ? round.options.some((each) => each.container === option && each.right)
      : option === (round.problem ?? NOTHING_WRONG);
  const about = round.exercise === 'choose' ? [round.kind] : [round.problem ?? NOTHING_WRONG];
  const mark: Mark = { skill, exercise: round.exercise, about, answer: option, right };
  return goOn(
    {
      ...show(state, { ...screen, answer: option }),
      asked: state.asked + 1,
      right: state.right + (right ? 1 : 0),
    },
    { type: 'mark', person: state.person, mark },
  );
}
