import { allPieces, parcelHere } from './here.ts';
import { isFoldedAhead } from './lies.ts';
import { IDLE } from './initial.ts';
import type { RunState, Step } from './types.ts';
import { foldStops } from '#shared/guidance/stops.ts';

/** The state standing at another step, with nothing left over from the one before. */
export function at(state: RunState, step: Step, notice: RunState['notice'] = null): RunState {
  return { ...state, step, notice, confirming: null };
}

/** The bench empty again; who stands at it stays. */
export function emptied(state: RunState, notice: RunState['notice'] = null): RunState {
  return {
    ...IDLE,
    packer: state.packer,
    language: state.language,
    repeats: state.repeats,
    lastScan: state.lastScan,
    notice,
  };
}

/** Where the run goes once every piece is there. */
export function afterGather(state: RunState): Step {
  return isFoldedAhead(state) ? { at: 'fill' } : { at: 'look-over', piece: 0 };
}

/** At which fold steps of a piece the bench stops, by what the packer is told of its kind. */
function stopsOf(state: RunState, piece: number): readonly number[] {
  const planned = parcelHere(state)?.pieces[piece];
  return planned === undefined || isFoldedAhead(state) ? [] : foldStops(planned, state.guidance);
}

/** The first fold stop of the parcel at or after a piece; `fill` when nothing is left to be told. */
export function foldFrom(state: RunState, piece: number): Step {
  const pieces = parcelHere(state)?.pieces ?? [];
  for (let index = piece; index < pieces.length; index++) {
    const [first] = stopsOf(state, index);
    if (first !== undefined) return { at: 'fold', piece: index, step: first };
  }
  return { at: 'fill' };
}

/** The last fold stop of the parcel before a piece; the end of looking over when there is none. */
function foldBefore(state: RunState, piece: number): Step {
  for (let index = piece - 1; index >= 0; index--) {
    const last = stopsOf(state, index).at(-1);
    if (last !== undefined) return { at: 'fold', piece: index, step: last };
  }
  return { at: 'look-over', piece: allPieces(state).length - 1 };
}

/** The next step of a walk that is only a matter of going on; null where going on needs an event. */
export function stepAfter(state: RunState): Step | null {
  const { step } = state;
  switch (step.at) {
    case 'look-over':
      return step.piece + 1 < allPieces(state).length ? { at: 'look-over', piece: step.piece + 1 } : foldFrom(state, 0);
    case 'fold': {
      const following = stopsOf(state, step.piece).find((stop) => stop > step.step);
      return following === undefined ? foldFrom(state, step.piece + 1) : { ...step, step: following };
    }
    case 'fill':
      return { at: 'weigh' };
    case 'seal':
      return { at: 'label' };
    default:
      return null;
  }
}

/** Where `back` leads; null where there is no way back. A sealed or labelled parcel of the same order is not reopened. */
export function stepBefore(state: RunState): Step | null {
  const { step } = state;
  switch (step.at) {
    case 'look-over':
      return step.piece > 0 ? { at: 'look-over', piece: step.piece - 1 } : { at: 'gather' };
    case 'fold': {
      const earlier = stopsOf(state, step.piece).findLast((stop) => stop < step.step);
      if (earlier !== undefined) return { ...step, step: earlier };
      return backAcross(state, foldBefore(state, step.piece));
    }
    case 'fill':
      if (isFoldedAhead(state)) return state.parcel > 0 ? null : { at: 'gather' };
      return backAcross(state, foldBefore(state, parcelHere(state)?.pieces.length ?? 0));
    case 'weigh':
    case 'decide':
      return { at: 'fill' };
    case 'seal':
      return { at: 'weigh' };
    case 'label':
      return { at: 'seal' };
    default:
      return null;
  }
}

/** Looking over belongs to the whole order: from a later parcel there is no way back into it. */
function backAcross(state: RunState, step: Step): Step | null {
  return step.at === 'look-over' && state.parcel > 0 ? null : step;
}
