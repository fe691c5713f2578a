import type { OrderPlan } from './types.ts';

/**
 * A plan as a run needs it: its parcels in full, and of the alternatives only the next best with another container, without
 * the drawings of its folds. It is stored with the run, so what the run never looks at would only fill the store.
 */
export function planForRun(plan: OrderPlan): OrderPlan {
  const container = plan.parcels[0]?.container.id;
  const next = plan.alternatives.find(
    ({ parcels: [first] }) => first !== undefined && first.container.id !== container,
  );
  if (next === undefined) return { ...plan, alternatives: [] };
  const parcels = next.parcels.map((parcel) => ({
    ...parcel,
    pieces: parcel.pieces.map((each) => ({ ...each, fold: { ...each.fold, steps: [] } })),
    otherServices: [],
  }));
  return { ...plan, alternatives: [{ ...next, parcels }] };
}
