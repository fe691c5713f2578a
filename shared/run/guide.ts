import { allPieces, isBetweenOrders, parcelHere } from './here.ts';
import { at, foldFrom } from './move.ts';
import { goOn, notice } from './outcome.ts';
import type { RunState, Transition } from './types.ts';
import { fuller, fullerOf, quieter, type GuidanceLevel } from '#shared/guidance/level.ts';
import { foldStops, guidanceOf, type Guidance } from '#shared/guidance/stops.ts';

/** The kinds of garment that what is done now is about: the piece at hand, else all of the parcel. */
export function kindsHere(state: RunState): readonly string[] {
  const { step } = state;
  if (isBetweenOrders(state)) return [];
  const pieces = step.at === 'gather' || step.at === 'look-over' ? allPieces(state) : (parcelHere(state)?.pieces ?? []);
  const one = step.at === 'fold' || step.at === 'look-over' ? pieces[step.piece] : undefined;
  const about = one === undefined ? pieces : [one];
  return [...new Set(about.map(({ piece }) => piece.kind))];
}

/** How much is told here: of several kinds, what the one that needs most is told. */
export function levelHere(state: RunState): GuidanceLevel | null {
  const levels = kindsHere(state).map((kind) => guidanceOf(state.guidance, kind).level);
  return levels.length === 0 ? null : levels.reduce(fullerOf);
}

function changed(guidance: Guidance, kinds: readonly string[], to: (level: GuidanceLevel) => GuidanceLevel): Guidance {
  const entries = kinds.map((kind) => {
    const before = guidanceOf(guidance, kind);
    return [kind, { ...before, level: to(before.level) }] as const;
  });
  return { ...guidance, ...Object.fromEntries(entries) };
}

/** The same place in the run where the levels now ask for other stops; what is fully told begins at its first step. */
export function atItsStop(before: RunState, guidance: Guidance): RunState {
  const state: RunState = { ...before, guidance };
  const { step } = state;
  if (step.at === 'fill') {
    const step = foldFrom(state, 0);
    const wasToldMore = foldFrom(before, 0).at === 'fill' && step.at === 'fold';
    return wasToldMore ? at(state, step) : state;
  }
  const planned = step.at === 'fold' ? parcelHere(state)?.pieces[step.piece] : undefined;
  if (step.at !== 'fold' || planned === undefined) return state;
  const stops = foldStops(planned, guidance);
  const were = foldStops(planned, before.guidance);
  const [first] = stops;
  if (first === undefined) return at(state, foldFrom(state, step.piece + 1));
  return stops.length === were.length ? state : at(state, { ...step, step: first });
}

/** More or less is told of what is at hand from now on; a person who is signed on is remembered by it. */
export function tell(state: RunState, how: 'more' | 'less'): Transition {
  const kinds = kindsHere(state);
  const guidance = changed(state.guidance, kinds, how === 'more' ? fuller : quieter);
  const moved = atItsStop(state, guidance);
  const level = kinds.map((kind) => guidanceOf(guidance, kind).level).reduce(fullerOf);
  const told: RunState = { ...moved, notice: notice('guidance-changed', { level }) };
  if (state.packer === null) return goOn(told);
  const levels = Object.fromEntries(kinds.map((kind) => [kind, guidanceOf(guidance, kind).level]));
  return goOn(told, { type: 'keep-guidance', packer: state.packer, levels });
}

/** After a mistake more is told at once of what it was made with. */
export function toldMoreAfter(guidance: Guidance, kinds: readonly string[]): Guidance {
  return changed(guidance, kinds, fuller);
}
