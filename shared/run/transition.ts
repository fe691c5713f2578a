import { onNotShortened, onShortened } from './go-without.ts';
import { atItsStop } from './guide.ts';
import { onDigits } from './entering.ts';
import { stopNotice } from './label.ts';
import { withRefusedMistake } from './mistakes.ts';
import { hasFinishedParcel, isWeighed } from './here.ts';
import { whereItLies } from './lies.ts';
import { at, emptied, foldFrom } from './move.ts';
import { onCommand } from './on-command.ts';
import { onReading } from './on-reading.ts';
import { onOrder, onScan } from './on-scan.ts';
import { nextBestOf } from './next-best.ts';
import { remarksOn } from './remarks.ts';
import { goOn, ignore, notice, refuse } from './outcome.ts';
import { NO_PROGRESS } from './progress.ts';
import { gathered } from './on-command.ts';
import type { Lies, NoticeCode, RunFacts, RunInput, RunState, Transition } from './types.ts';
import type { OrderPlan, ParcelPlan } from '#shared/planning/types.ts';

/**
 * The run's one transition: what an input makes of a state, and what the outside must do about it. Pure: the same state,
 * input and facts always give the same answer, and nothing is done here.
 */
export function transition(state: RunState, input: RunInput, facts: RunFacts): Transition {
  const result = withEnd(state, taken(state, input, facts), facts.now);
  const told = result.state.notice;
  if (result.accepted || told === null || told === state.notice) return result;
  // The stop at a wrong label, told again, is no second mistake.
  if (told.code === stopNotice(state)?.code) return result;
  return { ...result, state: withRefusedMistake(result.state, told.code) };
}

/** When the order was finished is kept, so that what it took grows no further. */
function withEnd(before: RunState, result: Transition, now: number): Transition {
  if (result.state.step.at !== 'done' || before.step.at === 'done') return result;
  return { ...result, state: { ...result.state, endedAt: now } };
}

function taken(state: RunState, input: RunInput, facts: RunFacts): Transition {
  switch (input.type) {
    case 'command':
      return onCommand(state, input, facts);
    case 'digits':
      return onDigits(state, input.digits, facts);
    case 'scan':
      return onScan(state, input, facts);
    case 'language':
      return { state: { ...state, language: input.language }, effects: [], accepted: true };
    case 'reading':
      return onReading(state, input.reading, facts);
    case 'order-taken':
      return onOrderTaken(state, input, facts);
    case 'order-refused':
      return state.step.at === 'idle' ? refuse(state, input.code, valuesOf(input)) : ignore(state);
    case 'take-up':
      return onOrder(state, input.order);
    case 'aside-placed':
      return { state: asidePlaced(state, input), effects: [], accepted: true };
    case 'released-by-office':
      return releasedByOffice(state, input);
    case 'taken-over':
      return takenOver(state, input);
    case 'given-over':
      return givenOver(state, input);
    case 'guidance':
      return { state: atItsStop(state, input.guidance), effects: [], accepted: true };
    case 'replanned':
      return onReplanned(state, input.plan);
    case 'shortened':
      return onShortened(state, input);
    case 'not-shortened':
      return onNotShortened(state, input);
    case 'no-other-plan':
      return { ...refuse(state, 'no-other-plan'), accepted: true };
    case 'print-result':
      return onPrintResult(state, input.outcome);
  }
}

function valuesOf({ order, why, values }: Extract<RunInput, { type: 'order-refused' }>) {
  return { order, ...(why === undefined ? {} : { why }), ...values };
}

function onOrderTaken(state: RunState, input: Extract<RunInput, { type: 'order-taken' }>, facts: RunFacts): Transition {
  if (state.step.at !== 'idle') return ignore(state);
  const begun: RunState = {
    ...state,
    run: input.run,
    order: input.order,
    parcels: input.plan.parcels,
    nextBest: nextBestOf(input.plan),
    remarks: remarksOn(input.plan),
    parcel: 0,
    step: { at: 'gather' },
    gathered: {},
    progress: input.plan.parcels.map(() => NO_PROGRESS),
    tooTight: [],
    notice: warningOn(input),
    slip: 'none',
    startedAt: facts.now,
    guidance: input.guidance ?? {},
    mistakes: [],
    lies: input.lies ?? null,
  };
  return goOn(input.sku === undefined ? begun : gathered(begun, input.sku));
}

function warningOn({ lacking = [], addressDoubtful, lies, order }: Extract<RunInput, { type: 'order-taken' }>) {
  if (lacking.length > 0) return notice('skill-lacking', { skill: lacking.join(', ') });
  if (addressDoubtful === true) return notice('address-doubtful', { order: order.id });
  return lies === undefined ? null : notice(liesCode(lies), whereItLies(lies));
}

function liesCode(lies: Lies): NoticeCode {
  if (lies.at === 'aside') return 'order-was-aside';
  return lies.folded ? 'order-folded' : 'folded-otherwise';
}

/** The notice that the order was set aside says where, as long as it stands. */
function asidePlaced(state: RunState, { order, place }: Extract<RunInput, { type: 'aside-placed' }>): RunState {
  const { notice: told } = state;
  if (told?.code !== 'set-aside-done' || told.values['order'] !== order) return state;
  return { ...state, notice: { ...told, values: { ...told.values, place: String(place) } } };
}

function releasedByOffice(
  state: RunState,
  { order, by }: Extract<RunInput, { type: 'released-by-office' }>,
): Transition {
  if (state.order?.id !== order || hasFinishedParcel(state)) return ignore(state);
  const told = notice('released-by-office', { order, ...whereItLies(state.lies) });
  return goOn(emptied(state, told), { type: 'release-order', order, ...(by === undefined ? {} : { by }) });
}

/** Who stands here packs on; a slip that still waits at the other bench is printed here in its place. */
function takenOver(state: RunState, { from, run, plan }: Extract<RunInput, { type: 'taken-over' }>): Transition {
  if (state.step.at !== 'idle' || run.order === null) return ignore(state);
  const { packer, language, repeats, lastScan } = state;
  const told = notice('run-taken-over', { order: run.order.id, bench: from });
  const going: RunState = {
    ...run,
    parcels: plan.parcels,
    confirming: null,
    packer,
    language,
    repeats,
    lastScan,
    notice: told,
  };
  if (run.slip !== 'queued' || !isWeighed(run)) return goOn(going);
  return goOn(going, { type: 'print-slip', parcel: run.parcel, again: false });
}

function givenOver(state: RunState, { order, to }: Extract<RunInput, { type: 'given-over' }>): Transition {
  if (state.order?.id !== order || state.step.at === 'done') return ignore(state);
  return goOn(emptied(state, notice('run-given-over', { order, bench: to })));
}

/** A new plan for the pieces of the parcel at hand: it takes that parcel's place. */
function onReplanned(state: RunState, plan: OrderPlan): Transition {
  const [first] = plan.parcels;
  if (first === undefined || (state.step.at !== 'fill' && state.step.at !== 'fold')) return ignore(state);
  const before = state.parcels[state.parcel];
  const splice = <Each>(list: readonly Each[], put: readonly Each[]): readonly Each[] => [
    ...list.slice(0, state.parcel),
    ...put,
    ...list.slice(state.parcel + 1),
  ];
  const replaced: RunState = {
    ...state,
    parcels: splice(state.parcels, plan.parcels),
    progress: splice(
      state.progress,
      plan.parcels.map(() => NO_PROGRESS),
    ),
    nextBest: nextBestOf(plan),
    // The bound on the whole order still holds: leaving a container out makes nothing cheaper.
    remarks: { ...remarksOn(plan), ...state.remarks },
  };
  const changed = firstChangedFold(before, first);
  const { lies, order } = replaced;
  if (changed !== null && order !== null && lies?.at === 'basket' && lies.folded) {
    const unfolded: RunState = { ...replaced, lies: { ...lies, folded: false } };
    const again = at(unfolded, foldFrom(unfolded, changed), notice('next-plan', { container: first.container.id }));
    return goOn(again, { type: 'folded-otherwise', order: order.id });
  }
  const told = notice('next-plan', { container: first.container.id });
  const step =
    state.step.at === 'fill' && changed === null ? ({ at: 'fill' } as const) : foldFrom(replaced, changed ?? 0);
  return goOn(at(replaced, step, told));
}

/** The first piece that must be folded another way, or null when the stack can stay as it is. */
function firstChangedFold(before: ParcelPlan | undefined, after: ParcelPlan): number | null {
  // Another wrap is one of the steps of every piece.
  if (before !== undefined && before.wrap.id !== after.wrap.id) return 0;
  const index = after.pieces.findIndex((each, at) => {
    const was = before?.pieces[at];
    return was?.piece.sku !== each.piece.sku || was.fold.recipe !== each.fold.recipe;
  });
  return index === -1 ? null : index;
}

/** A slip that came out after all is not told as missing any more; what else is told stays. */
function onceThere({ notice: told }: RunState): RunState['notice'] {
  return told?.code === 'print-failed' || told?.code === 'print-unknown' ? null : told;
}

function onPrintResult(state: RunState, outcome: 'printed' | 'failed' | 'unknown'): Transition {
  if (state.slip === 'none') return ignore(state);
  const told =
    outcome === 'printed' ? onceThere(state) : notice(outcome === 'failed' ? 'print-failed' : 'print-unknown');
  return { state: { ...state, slip: outcome, notice: told }, effects: [], accepted: true };
}
