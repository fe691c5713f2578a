import { foldStops } from '#shared/guidance/stops.ts';
import { allPieces } from '#shared/run/here.ts';
import { isFoldedAhead } from '#shared/run/lies.ts';
import type { RunState } from '#shared/run/types.ts';
import type { Stitch } from '#shared/wire/views.ts';

/** The run as a seam: one stitch for each thing to do, and which of them the needle stands at. */
export function seamOf(state: RunState): { readonly stitches: readonly Stitch[]; readonly at: number } {
  if (state.order === null) return { stitches: [], at: 0 };
  const stitches: Stitch[] = [{ step: 'gather' }];
  let at = 0;
  const place = (here: boolean, stitch: Stitch) => {
    if (here) at = stitches.length;
    stitches.push(stitch);
  };
  const { step } = state;
  const folded = isFoldedAhead(state);
  allPieces(state).forEach(({ piece }, index) => {
    if (folded) return;
    place(step.at === 'look-over' && step.piece === index, { step: 'look-over', about: piece.title });
  });
  state.parcels.forEach((parcel, index) => {
    const here = index === state.parcel;
    parcel.pieces.forEach((planned, pieceIndex) => {
      const { piece } = planned;
      if (folded || foldStops(planned, state.guidance).length === 0) return;
      place(here && step.at === 'fold' && step.piece === pieceIndex, { step: 'fold', about: piece.title });
    });
    place(here && step.at === 'fill', { step: 'fill' });
    place(here && (step.at === 'weigh' || step.at === 'decide'), { step: 'weigh' });
    place(here && step.at === 'seal', { step: 'seal' });
    place(here && step.at === 'label', { step: 'label' });
  });
  return { stitches, at: step.at === 'done' ? stitches.length : at };
}
