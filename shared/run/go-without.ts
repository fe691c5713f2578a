import { hasFinishedParcel, missingPieces, titleOf } from './here.ts';
import { afterGather, at, emptied } from './move.ts';
import { nextBestOf } from './next-best.ts';
import { goOn, ignore, notice, refuse } from './outcome.ts';
import { NO_PROGRESS } from './progress.ts';
import { remarksOn } from './remarks.ts';
import type { RunInput, RunState, Transition } from './types.ts';

/**
 * The piece without which the order could be sent: the one that is named on the screen and is looked for. Null where nothing
 * would be left to send, or the order is not one that can be divided here: invented, made of several, folded ahead, or of
 * which a parcel is finished.
 */
export function pieceToLeaveOut(state: RunState): string | null {
  const { order, practice, step, lies } = state;
  if (order === null || practice || step.at !== 'gather' || hasFinishedParcel(state)) return null;
  if (order.combines !== undefined || lies?.at === 'basket') return null;
  const [sku] = missingPieces(state);
  if (sku === undefined || (state.gathered[sku] ?? 0) > 0) return null;
  return order.pieces.some((line) => line.sku !== sku) ? sku : null;
}

/** Confirmed: the order is divided in the store, and what is left of it planned anew. */
export function goWithout(state: RunState): Transition {
  const sku = pieceToLeaveOut(state);
  if (state.order === null || sku === null) return refuse(state, 'not-now', { command: 'go-without' });
  return goOn({ ...state, notice: null }, { type: 'go-without', order: state.order.id, sku });
}

/** The order goes on with the other pieces; those that were gathered stay so. */
export function onShortened(
  state: RunState,
  { order, plan, sku, follows }: Extract<RunInput, { type: 'shortened' }>,
): Transition {
  if (state.step.at !== 'gather' || state.order?.id !== order.id) return ignore(state);
  const told = notice('goes-without', { title: titleOf(state, sku), order: follows });
  const shorter: RunState = {
    ...state,
    order,
    parcels: plan.parcels,
    nextBest: nextBestOf(plan),
    remarks: remarksOn(plan),
    parcel: 0,
    progress: plan.parcels.map(() => NO_PROGRESS),
    tooTight: [],
    confirming: null,
    notice: told,
  };
  return goOn(missingPieces(shorter).length > 0 ? shorter : at(shorter, afterGather(shorter), told));
}

/** It could not be divided, or what is left of it cannot be planned: then it was set aside. */
export function onNotShortened(
  state: RunState,
  { order, why }: Extract<RunInput, { type: 'not-shortened' }>,
): Transition {
  if (state.step.at !== 'gather' || state.order?.id !== order) return ignore(state);
  if (why === undefined) return { ...refuse(state, 'not-now', { command: 'go-without' }), accepted: true };
  return goOn(emptied(state, notice('cannot-be-planned', { order, why })));
}
