import type { FinishedParcel } from '#server/store/parcels.ts';
import { owed } from '#shared/run/pay.ts';
import type { RunState } from '#shared/run/types.ts';

/** The facts of a parcel that has just been finished, and the number on its label when one was scanned. */
export function finishedParcel(
  state: RunState,
  index: number,
  bench: string,
): { readonly parcel: FinishedParcel; readonly label: string | null } {
  const parcel = state.parcels[index];
  const progress = state.progress[index];
  if (parcel === undefined || !progress?.weighing || state.order === null || state.run === null) {
    throw new Error(`parcel ${String(index + 1)} of run ${state.run ?? 'none'} is finished without a weighing`);
  }
  const { weighing, label } = progress;
  const bracket = owed(parcel, weighing);
  return {
    label: label === null || label === 'by-eye' ? null : label.number,
    parcel: {
      order: state.order.id,
      run: state.run,
      number: index + 1,
      of: state.parcels.length,
      bench,
      packer: state.packer,
      pieces: parcel.pieces.map((each) => each.piece.sku),
      container: parcel.container.id,
      filled: parcel.fit.filled,
      wrap: parcel.wrap.id,
      recipes: parcel.pieces.map((each) => each.fold.recipe),
      carrier: bracket.carrier,
      service: bracket.service,
      zone: parcel.offer.zone,
      planned: parcel.offer.price,
      owed: bracket.price,
      reading: weighing.reading.mass,
      readingUnit: weighing.reading.unit,
      toCome: parcel.toCome.mass,
      ceiling: weighing.verdict.ceiling,
      uncertainty: weighing.verdict.uncertainty,
      expectedGrams: parcel.mass.mean,
      verdict: weighing.verdict.verdict,
      because: weighing.because,
      decided: weighing.decided,
      labelByEye: label === 'by-eye',
      postcode: state.order.to.postcode,
      startedAt: state.startedAt,
    },
  };
}
