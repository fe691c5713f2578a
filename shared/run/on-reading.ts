import { parcelHere } from './here.ts';
import { withMistake } from './mistakes.ts';
import { at } from './move.ts';
import { goOn, ignore, notice, refuse } from './outcome.ts';
import { plannedCeiling } from './pay.ts';
import { withProgress } from './progress.ts';
import type { DecideBecause, RunFacts, RunState, Transition, Weighing } from './types.ts';
import type { ParcelPlan } from '#shared/planning/types.ts';
import type { Reading, Verdict } from '#shared/weighing/types.ts';
import { matchMass } from '#shared/weighing/mismatch.ts';
import { judge } from '#shared/weighing/verdict.ts';

/** A settled reading counts where a weight is awaited: at the scale, or while deciding about the one before. */
export function onReading(state: RunState, reading: Reading, facts: RunFacts): Transition {
  if (state.step.at !== 'weigh' && state.step.at !== 'decide') return ignore(state);
  if (reading.condition !== 'ok') return refuse(state, 'scale-fault', { condition: reading.condition });
  // With a tare taken off, a part of the parcel could be missing from its weight.
  if (reading.net) return refuse(state, 'scale-fault', { condition: 'net' });
  if (reading.mass <= 0) return refuse(state, 'scale-empty');
  return judged(state, reading, facts, false);
}

/**
 * Judges a reading against the planned bracket and moves to sealing or deciding; the slip is printed either way, with
 * its warning where one is due.
 * @param asIs the packer has said that an unexpected mass is right
 */
export function judged(state: RunState, reading: Reading, facts: RunFacts, asIs: boolean): Transition {
  const parcel = parcelHere(state);
  if (parcel === undefined) return ignore(state);
  const verdict = verdictOf(parcel, reading, facts);
  const because = asIs || !matchMass(verdict.total, parcel.mass).mismatch ? needsDeciding(verdict) : 'mismatch';
  const weighing: Weighing = { reading, verdict, because, decided: asIs ? 'as-is' : null };
  const weighed = withProgress(state, { weighing, doubted: because === 'mismatch' });
  if (because === 'mismatch') return goOn(at(weighed, { at: 'decide', because }, notice('mass-mismatch')));
  // Weighed as it should after it had not: something else was in it before.
  const wasWrong = !asIs && state.progress[state.parcel]?.doubted === true;
  const step = because === null ? ({ at: 'seal' } as const) : ({ at: 'decide', because } as const);
  const after = at(wasWrong ? withMistake(weighed, 'wrong-contents') : weighed, step);
  return goOn({ ...after, slip: 'queued' }, { type: 'print-slip', parcel: state.parcel, again: false });
}

function needsDeciding(verdict: Verdict): Exclude<DecideBecause, 'mismatch'> | null {
  return verdict.verdict === 'clear' ? null : verdict.verdict;
}

/** The verdict on a reading against the planned ceiling, with what is still to come. */
export function verdictOf(parcel: ParcelPlan, reading: Pick<Reading, 'mass' | 'division'>, facts: RunFacts): Verdict {
  return judge({
    reading,
    additions: [{ name: 'to-come', ...parcel.toCome }],
    ...facts.weigh,
    ceiling: plannedCeiling(parcel),
  });
}
