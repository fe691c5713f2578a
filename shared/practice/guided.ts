import type { Mark, PracticeState } from './types.ts';
import type { PracticeEffect, PracticeInput, Practised } from './practise.ts';
import { parcelHere } from '#shared/run/here.ts';
import { IDLE } from '#shared/run/initial.ts';
import { transition } from '#shared/run/transition.ts';
import type { RunEffect, RunFacts, RunInput, RunState } from '#shared/run/types.ts';
import { massFromGrams, subtractMass, type MassUnit } from '#shared/units/mass.ts';
import type { Reading } from '#shared/weighing/types.ts';

export interface GuidedFacts {
  readonly run: RunFacts;
  readonly unit: { readonly mass: MassUnit; readonly places: number };
}

/** The run's input in what happened to practice; null where it means nothing to a run. */
function runInput(input: PracticeInput): RunInput | null {
  switch (input.type) {
    case 'command':
    case 'scan':
    case 'digits':
      return input;
    case 'order':
      return { type: 'order-taken', run: 'practice', order: input.order, plan: input.plan };
    case 'replanned':
      return input.plan === null ? { type: 'no-other-plan' } : { type: 'replanned', plan: input.plan };
    default:
      return null;
  }
}

/** What the invented parcel weighs, as a scale would show it. */
function inventedReading(run: RunState, { run: facts, unit }: GuidedFacts): Reading | null {
  const parcel = parcelHere(run);
  if (parcel === undefined) return null;
  return {
    mass: subtractMass(massFromGrams(parcel.mass.mean), parcel.toCome.mass),
    unit: unit.mass,
    places: unit.places,
    division: facts.weigh.division,
    stability: 'still',
    net: false,
    condition: 'ok',
    at: facts.now,
  };
}

interface Walked {
  readonly run: RunState;
  readonly effects: readonly PracticeEffect[];
  /** how the run ended, if it did */
  readonly end: 'done' | 'left' | null;
}

/** The effects of a run on an invented order: nothing is printed, stored or claimed; what they lead to happens at once. */
function follow(before: RunState, effect: RunEffect, facts: GuidedFacts): Walked {
  const stays: Walked = { run: before, effects: [], end: null };
  const take = (input: RunInput | null): Walked =>
    input === null ? stays : { ...stays, run: transition(before, input, facts.run).state };
  switch (effect.type) {
    case 'print-slip':
      return take({ type: 'print-result', outcome: 'printed' });
    case 'weigh-invented': {
      const reading = inventedReading(before, facts);
      return walk(before, reading === null ? null : { type: 'reading', reading }, facts);
    }
    case 'replan':
      return { ...stays, effects: [{ type: 'replan', pieces: effect.pieces, without: effect.without }] };
    case 'order-done':
      return { ...stays, end: 'done' };
    case 'release-order':
    case 'set-aside':
      return { ...stays, end: 'left' };
    case 'call-help':
      return { ...stays, effects: [{ type: 'call-help' }] };
    case 'take-order':
    case 'go-without':
    case 'parcel-done':
    case 'zero-scale':
    case 'begin-practice':
    case 'begin-side-work':
    case 'folded-otherwise':
    case 'read-guidance':
    case 'keep-guidance':
      return stays;
  }
}

function walk(run: RunState, input: RunInput | null, facts: GuidedFacts): Walked & { readonly accepted: boolean } {
  if (input === null) return { run, effects: [], end: null, accepted: false };
  const first = transition(run, input, facts.run);
  const walked = first.effects.reduce<Walked>(
    (so, effect) => {
      const then = follow(so.run, effect, facts);
      return { run: then.run, effects: [...so.effects, ...then.effects], end: so.end ?? then.end };
    },
    { run: first.state, effects: [], end: null },
  );
  return { ...walked, accepted: first.accepted };
}

/** An input for the run on an invented order; null where there is none. */
export function guidedInput(state: PracticeState, input: PracticeInput, facts: GuidedFacts): Practised | null {
  const { screen } = state;
  if (input.type === 'order' && screen.at === 'preparing') {
    const begun = walk({ ...IDLE, practice: true }, runInput(input), facts);
    const guided = { ...state, notice: null, screen: { at: 'guided', skill: screen.skill, run: begun.run } } as const;
    return { state: guided, effects: [], accepted: true };
  }
  if (screen.at !== 'guided') return null;
  const { skill, run } = screen;
  // Finished: whatever says "go on" leads back to the skill.
  if (run.step.at === 'done' && input.type === 'command' && input.command === 'next') {
    return { state: backToSkill(state, skill), effects: [], accepted: true };
  }
  const walked = walk(run, runInput(input), facts);
  if (walked.end === 'left') return { state: backToSkill(state, skill), effects: [], accepted: true };
  const moved: PracticeState = { ...state, screen: { ...screen, run: walked.run } };
  const effects: readonly PracticeEffect[] =
    walked.end === 'done'
      ? [...walked.effects, { type: 'mark', person: state.person, mark: markOf(skill, walked.run) }]
      : walked.effects;
  return { state: moved, effects, accepted: walked.accepted };
}

function backToSkill(state: PracticeState, skill: string): PracticeState {
  return { ...state, screen: { at: 'skill', skill, signing: null }, marked: null, notice: null };
}

/** A run without a mistake is right. */
function markOf(skill: string, run: RunState): Mark {
  const kinds = run.parcels.flatMap((parcel) => parcel.pieces.map(({ piece }) => piece.kind));
  const mistakes = [...new Set(run.mistakes.map(({ mistake }) => mistake))];
  return {
    skill,
    exercise: 'guided',
    about: [...new Set(kinds)],
    answer: mistakes.join(' '),
    right: mistakes.length === 0,
  };
}
