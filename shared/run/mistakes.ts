import { toldMoreAfter } from './guide.ts';
import { allPieces, parcelHere } from './here.ts';
import type { MistakeKind, NoticeCode, RunState } from './types.ts';

/** A container that is this sure to close and does not was filled with something folded otherwise. */
const NEARLY_SURE = 0.95;

/** The state with a mistake that was made in it; more is told at once of what it was made with. */
export function withMistake(state: RunState, mistake: MistakeKind): RunState {
  if (state.order === null) return state;
  const pieces = mistake === 'wrong-piece' ? allPieces(state) : (parcelHere(state)?.pieces ?? []);
  const garments = [...new Set(pieces.map(({ piece }) => piece.kind))];
  return {
    ...state,
    mistakes: [...state.mistakes, { mistake, garments }],
    guidance: toldMoreAfter(state.guidance, garments),
  };
}

const MISTAKE_OF: Readonly<Partial<Record<NoticeCode, MistakeKind>>> = {
  'piece-not-in-order': 'wrong-piece',
  'container-wrong': 'wrong-container',
  'label-wrong-postcode': 'wrong-label',
  'label-used-before': 'wrong-label',
  'label-other-number': 'wrong-label',
};

/** What a refusal tells of the person's work: some are mistakes that the station caught, the others are not. */
export function withRefusedMistake(state: RunState, code: NoticeCode): RunState {
  const mistake = MISTAKE_OF[code];
  return mistake === undefined ? state : withMistake(state, mistake);
}

/** A stack that did not close in a container that it should easily have closed in. */
export function withUnclosed(state: RunState): RunState {
  const fit = parcelHere(state)?.fit;
  const sure = fit?.verdict === 'easy' && fit.probability >= NEARLY_SURE;
  return sure ? withMistake(state, 'did-not-close') : state;
}
