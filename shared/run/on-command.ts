import { commandsFor } from './commands-for.ts';
import { asksFirst, CONFIRM_BY_VOICE_WITHIN_MS } from './command-rules.ts';
import type { Command } from './commands.ts';
import { enteringOf, onEnteringCommand } from './entering.ts';
import { goWithout } from './go-without.ts';
import { dueOf, isWeighed, missingPieces, parcelHere, titleOf } from './here.ts';
import { labelled, stopNotice } from './label.ts';
import { whereItLies } from './lies.ts';
import { afterGather, at, emptied, stepAfter, stepBefore } from './move.ts';
import { askFirst, goOn, notice, refuse } from './outcome.ts';
import { nextBracket } from './pay.ts';
import { withProgress } from './progress.ts';
import { judged } from './on-reading.ts';
import { tell } from './guide.ts';
import { withUnclosed } from './mistakes.ts';
import type { RunFacts, RunInput, RunState, SetAsideReason, Transition } from './types.ts';

type CommandInput = Extract<RunInput, { type: 'command' }>;

/** A foot switch or a finger bounces: a confirmation sooner than this after the question is not one. */
export const CONFIRM_NOT_BEFORE_MS = 500;

export function onCommand(state: RunState, input: CommandInput, facts: RunFacts): Transition {
  const { command } = input;
  if (!commandsFor(state).includes(command)) return notNow(state, command);
  const entering = enteringOf(state);
  const toNumber = entering === null ? null : onEnteringCommand(state, entering, input, facts);
  if (toNumber !== null) return toNumber;
  const meant = meantBy(command);
  if (meant !== null) {
    const reason = input.reason ?? meant.reason;
    if (asksFirst(command, input.by, facts.unasked)) return ask(state, meant.command, facts, reason);
    return carryOut({ ...state, confirming: null }, meant.command, reason, facts);
  }
  switch (command) {
    case 'next':
      return next(state, facts);
    case 'back':
      return back(state);
    case 'repeat':
      return goOnAsking(state, { ...state, repeats: state.repeats + 1 });
    case 'help':
      return { ...goOnAsking(state, { ...state, notice: notice('help-called') }), effects: [{ type: 'call-help' }] };
    case 'too-tight':
      return tooTight(state);
    case 'zero-scale':
      return goOn(at(state, { at: 'weigh' }, notice('zero-asked')), { type: 'zero-scale' });
    case 'weigh-again':
      return goOn(withProgress(at(state, { at: 'weigh' }, notice('weigh-again-asked')), { weighing: null }));
    case 'make-lighter':
      return goOn(withProgress(at(state, { at: 'weigh' }, notice('lighter-asked')), { weighing: null }));
    case 'enter-number':
      return goOn(at(state, { at: 'label', entering: { groups: [], since: facts.now } }));
    case 'tell-more':
      return tell(state, 'more');
    case 'tell-less':
      return tell(state, 'less');
    case 'fold-ahead':
    case 'aside-list':
      return goOn(emptied(state), { type: 'begin-side-work', what: command });
    case 'practice':
      return goOn(emptied(state), { type: 'begin-practice' });
    case 'sign-off':
      return goOn({ ...state, packer: null, language: null, notice: notice('signed-off') });
    case 'confirm':
      return confirmed(state, input, facts);
    case 'cancel':
      return goOn({ ...state, notice: stopNotice(state) ?? notice('cancelled') });
    default:
      return notNow(state, command);
  }
}

/** What cannot be taken back, by whatever name it was asked for. */
function meantBy(command: Command): { readonly command: Command; readonly reason?: SetAsideReason } | null {
  switch (command) {
    case 'item-missing':
      return { command: 'set-aside', reason: 'missing' };
    case 'item-damaged':
      return { command: 'set-aside', reason: 'damaged' };
    case 'set-aside':
    case 'go-without':
    case 'pay-next-bracket':
    case 'print-again':
    case 'release':
      return { command };
    default:
      return null;
  }
}

/** At a stop the packer is told of the stop again, not of the command. */
function notNow(state: RunState, command: Command): Transition {
  const stop = stopNotice(state);
  if (stop !== null && state.confirming === null) return refuse(state, stop.code, stop.values);
  return refuse(state, 'not-now', { command });
}

/** A question on the screen stays while the cue is said again or help is called. */
function goOnAsking(before: RunState, after: RunState): Transition {
  return { state: { ...after, confirming: before.confirming }, effects: [], accepted: true };
}

function ask(state: RunState, command: Command, facts: RunFacts, reason?: SetAsideReason): Transition {
  const confirming = { command, since: facts.now, ...(reason === undefined ? {} : { reason }) };
  return askFirst(state, confirming, 'confirm-asked', { command, reason: reason ?? '' });
}

function next(state: RunState, facts: RunFacts): Transition {
  switch (state.step.at) {
    case 'idle':
    case 'done':
      return goOn(emptied(state), { type: 'take-order' });
    case 'gather':
      return gatherByHand(state);
    case 'label':
      return askFirst(state, { command: 'next', since: facts.now }, 'label-by-eye-asked', {
        postcode: state.order?.to.postcode ?? '',
      });
    case 'weigh':
      return state.practice ? goOn(state, { type: 'weigh-invented' }) : notNow(state, 'next');
    case 'decide':
      return askFirst(state, { command: 'next', since: facts.now }, 'mass-mismatch');
    default: {
      const step = stepAfter(state);
      if (step === null) return notNow(state, 'next');
      return goOn(at(state, step));
    }
  }
}

/** Without a scanner: the packer says that the piece named on the screen is in hand. */
function gatherByHand(state: RunState): Transition {
  const [sku] = missingPieces(state);
  return sku === undefined ? goOn(at(state, afterGather(state))) : goOn(gathered(state, sku));
}

/** One more of a piece is on the bench; with the last one the looking over begins. */
export function gathered(state: RunState, sku: string): RunState {
  const count = (state.gathered[sku] ?? 0) + 1;
  const found = notice('piece-found', {
    title: titleOf(state, sku),
    count: String(count),
    due: String(state.order === null ? count : dueOf(state.order, sku)),
  });
  const after = { ...state, gathered: { ...state.gathered, [sku]: count }, notice: found };
  return missingPieces(after).length > 0 ? after : at(after, afterGather(after), found);
}

function back(state: RunState): Transition {
  if (state.step.at === 'gather') {
    const order = state.order;
    if (order === null) return notNow(state, 'back');
    const skus = Object.keys(state.gathered);
    if (skus.length > 0) return goOn({ ...state, gathered: {}, notice: notice('undone') });
    return released(state);
  }
  if (state.step.at === 'label' && state.step.stop !== undefined) return goOn(at(state, { at: 'label' }));
  const step = stepBefore(state);
  if (step === null) return notNow(state, 'back');
  const moved = at(step.at === 'gather' ? { ...state, gathered: {} } : state, step);
  return goOn(step.at === 'weigh' || step.at === 'fill' ? withProgress(moved, { weighing: null }) : moved);
}

/** The order goes back to the others; its pieces go back to where they came from. */
function released(state: RunState): Transition {
  if (state.order === null) return notNow(state, 'release');
  const order = state.order.id;
  const told = notice('released', { order, ...whereItLies(state.lies) });
  return goOn(emptied(state, told), { type: 'release-order', order });
}

function tooTight(state: RunState): Transition {
  const parcel = parcelHere(state);
  if (parcel === undefined || state.order === null) return notNow(state, 'too-tight');
  const without = [...state.tooTight, parcel.container.id];
  const pieces = parcel.pieces.map((each) => each.piece.sku);
  return goOn(
    { ...withUnclosed(state), tooTight: without, notice: null },
    { type: 'replan', order: state.order, pieces, without },
  );
}

function confirmed(state: RunState, input: CommandInput, facts: RunFacts): Transition {
  const { confirming } = state;
  if (confirming === null) return notNow(state, 'confirm');
  const bounced = facts.now - confirming.since < CONFIRM_NOT_BEFORE_MS && facts.now >= confirming.since;
  if (bounced && (input.by === 'key' || input.by === 'touch')) return { state, effects: [], accepted: false };
  if (input.by === 'voice' && facts.now - confirming.since > CONFIRM_BY_VOICE_WITHIN_MS) {
    return goOnAsking(
      { ...state, confirming: { ...confirming, since: facts.now } },
      { ...state, repeats: state.repeats + 1 },
    );
  }
  return carryOut({ ...state, confirming: null }, confirming.command, input.reason ?? confirming.reason, facts);
}

/** Does what was confirmed, or what needs no confirming here. */
function carryOut(state: RunState, command: Command, reason: SetAsideReason | undefined, facts: RunFacts): Transition {
  switch (command) {
    case 'set-aside':
      return setAside(state, reason ?? 'other');
    case 'release':
      return released(state);
    case 'go-without':
      return goWithout(state);
    case 'print-again':
      if (!isWeighed(state)) return notNow(state, command);
      return goOn(
        { ...state, slip: 'queued', notice: null },
        { type: 'print-slip', parcel: state.parcel, again: true },
      );
    case 'pay-next-bracket':
      return payNext(state);
    case 'next':
      return state.step.at === 'label' ? labelled(state, 'by-eye') : acceptMismatch(state, facts);
    default:
      return notNow(state, command);
  }
}

function setAside(state: RunState, reason: SetAsideReason): Transition {
  if (state.order === null) return notNow(state, 'set-aside');
  const order = state.order.id;
  return goOn(emptied(state, notice('set-aside-done', { order, reason })), { type: 'set-aside', order, reason });
}

function payNext(state: RunState): Transition {
  const weighing = state.progress[state.parcel]?.weighing;
  if (!weighing || nextBracket(state) === null) return notNow(state, 'pay-next-bracket');
  const paid = withProgress(state, { weighing: { ...weighing, decided: 'pay-next-bracket' } });
  // Printed anew: it names the service that is paid, and the warning is no longer true.
  return goOn(
    { ...at(paid, { at: 'seal' }), slip: 'queued' },
    { type: 'print-slip', parcel: state.parcel, again: true },
  );
}

/** "It is right as it is": the mass is taken for true and judged against the ceiling after all. */
function acceptMismatch(state: RunState, facts: RunFacts): Transition {
  const weighing = state.progress[state.parcel]?.weighing;
  if (!weighing) return notNow(state, 'next');
  return judged(state, weighing.reading, facts, true);
}
