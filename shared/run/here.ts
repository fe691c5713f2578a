import type { RunState } from './types.ts';
import type { Order, ParcelPlan, PlannedPiece } from '#shared/planning/types.ts';

/** The parcel being packed; undefined only at an idle bench. */
export function parcelHere(state: RunState): ParcelPlan | undefined {
  return state.parcels[state.parcel];
}

/** Whether nothing is in hand, so that another order can be taken. */
export function isBetweenOrders({ step }: RunState): boolean {
  return step.at === 'idle' || step.at === 'done';
}

/** Whether a parcel of the order is packed and labelled already. */
export function hasFinishedParcel({ progress }: RunState): boolean {
  return progress.some(({ label }) => label !== null);
}

/** Whether the parcel at hand has a weight that a slip could be printed of; one that is weighed again gets its slip by itself. */
export function isWeighed({ progress, parcel, step }: Pick<RunState, 'progress' | 'parcel' | 'step'>): boolean {
  return (progress[parcel]?.weighing ?? null) !== null && !(step.at === 'decide' && step.because === 'mismatch');
}

/** Every piece of the order in packing order, parcel after parcel. */
export function allPieces(state: RunState): readonly PlannedPiece[] {
  return state.parcels.flatMap((parcel) => parcel.pieces);
}

/** How many of a piece the order asks for. */
export function dueOf(order: Order, sku: string): number {
  return order.pieces.filter((line) => line.sku === sku).reduce((sum, line) => sum + line.count, 0);
}

/** SKUs still to be found, in the order's own order, once for each that is missing. */
export function missingPieces(state: RunState): readonly string[] {
  if (state.order === null) return [];
  return state.order.pieces.flatMap((line) => {
    const missing = Math.max(0, line.count - (state.gathered[line.sku] ?? 0));
    return Array.from({ length: missing }, () => line.sku);
  });
}

/** The title of a piece, or its SKU when the plan does not carry it. */
export function titleOf(state: RunState, sku: string): string {
  return allPieces(state).find((each) => each.piece.sku === sku)?.piece.title ?? sku;
}
