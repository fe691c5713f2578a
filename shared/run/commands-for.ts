import type { Command } from './commands.ts';
import { kindsHere } from './guide.ts';
import { nextBracket } from './pay.ts';
import { hasFinishedParcel, isWeighed } from './here.ts';
import { enteringOf } from './entering.ts';
import { pieceToLeaveOut } from './go-without.ts';
import type { Entering, RunState } from './types.ts';
import { guidanceOf } from '#shared/guidance/stops.ts';

/** Heard everywhere in a run. */
const ALWAYS: readonly Command[] = ['repeat', 'help'];

/**
 * The commands possible now, the main one first. The transition refuses any other, so a screen, a command card and a
 * recogniser that offer exactly these never offer a dead one.
 */
export function commandsFor(state: RunState): readonly Command[] {
  if (state.confirming !== null) return ['confirm', 'cancel', ...ALWAYS];
  const entering = enteringOf(state);
  if (entering !== null) return [...enteringCommands(entering), ...ALWAYS];
  const here = [...commandsOfStep(state), ...ALWAYS, ...printAgain(state), ...guidanceCommands(state)];
  return [...new Set(here)];
}

const TELLS: ReadonlySet<string> = new Set(['look-over', 'fold', 'fill']);

/** Only where there is more, or less, to tell. */
function guidanceCommands(state: RunState): readonly Command[] {
  if (!TELLS.has(state.step.at)) return [];
  const levels = kindsHere(state).map((kind) => guidanceOf(state.guidance, kind).level);
  return [
    ...(levels.some((level) => level !== 'full') ? (['tell-more'] as const) : []),
    ...(levels.some((level) => level !== 'quiet') ? (['tell-less'] as const) : []),
  ];
}

function printAgain(state: RunState): readonly Command[] {
  return state.slip === 'none' || !isWeighed(state) ? [] : ['print-again'];
}

/** An order of which a parcel is finished is no longer anybody's who begins at its first piece. */
function release(state: RunState): readonly Command[] {
  return state.practice || hasFinishedParcel(state) ? [] : ['release'];
}

function goWithout(state: RunState): readonly Command[] {
  return pieceToLeaveOut(state) === null ? [] : ['go-without'];
}

function commandsOfStep(state: RunState): readonly Command[] {
  switch (state.step.at) {
    case 'idle':
      return betweenOrders(state);
    case 'gather':
      return ['next', 'back', 'item-missing', ...goWithout(state), 'set-aside', ...release(state)];
    case 'look-over':
      return ['next', 'back', 'item-damaged', 'set-aside', ...release(state)];
    case 'fold':
      return ['next', 'back', 'too-tight', 'set-aside', ...release(state)];
    case 'fill':
      return ['next', 'back', 'too-tight', 'set-aside'];
    case 'weigh':
      return [...(state.practice ? (['next'] as const) : []), 'weigh-again', 'zero-scale', 'back', 'set-aside'];
    case 'decide':
      return decideCommands(state);
    case 'label':
      // Nothing that leads on, and the main one does no harm: only the right label ends the stop, or a decision.
      if (state.step.stop !== undefined) return ['repeat', 'back', 'set-aside'];
      return ['next', 'enter-number', 'back', 'set-aside'];
    case 'seal':
      return ['next', 'back', 'set-aside'];
    case 'done':
      if (state.practice) return ['next'];
      return betweenOrders(state);
  }
}

function betweenOrders({ packer }: RunState): readonly Command[] {
  return ['next', 'fold-ahead', 'aside-list', 'practice', ...(packer === null ? [] : (['sign-off'] as const))];
}

/** `back` takes away what was given last. */
function enteringCommands({ groups }: Entering): readonly Command[] {
  return groups.length === 0 ? ['confirm', 'cancel'] : ['confirm', 'back', 'start-over', 'cancel'];
}

function decideCommands(state: RunState): readonly Command[] {
  const rest: readonly Command[] = ['zero-scale', 'back', 'set-aside'];
  if (state.step.at === 'decide' && state.step.because === 'mismatch') return ['weigh-again', 'next', ...rest];
  const pay: readonly Command[] = nextBracket(state) === null ? [] : ['pay-next-bracket'];
  return ['weigh-again', 'make-lighter', ...pay, ...rest];
}
