import type { OrderPlan, ParcelPlan, PlannedPiece } from './types.ts';
import { coarseDrawing } from '#shared/folding/coarse-drawing.ts';

/** The piece with its drawings as fine as a screen shows. */
function withCoarseDrawings(each: PlannedPiece): PlannedPiece {
  const steps = each.fold.steps.map((step) => ({ ...step, drawing: coarseDrawing(step.drawing) }));
  return { ...each, fold: { ...each.fold, steps } };
}

function withoutFolds(parcel: ParcelPlan): ParcelPlan {
  const pieces = parcel.pieces.map((each) => ({ ...each, fold: { ...each.fold, steps: [] } }));
  return { ...parcel, pieces, otherServices: [] };
}

/**
 * A plan as a run needs it: its parcels in full, of the alternatives only the next best with another container and without
 * its folds, and no reasons why not. It crosses to another thread and is stored with every input of the run, so what the run
 * never looks at would only hold both up.
 */
export function planForRun(plan: OrderPlan): OrderPlan {
  const container = plan.parcels[0]?.container.id;
  const next = plan.alternatives.find(
    ({ parcels: [first] }) => first !== undefined && first.container.id !== container,
  );
  const { order, cost, promise, proven, lowerBound } = plan;
  return {
    order,
    parcels: plan.parcels.map((parcel) => ({ ...parcel, pieces: parcel.pieces.map(withCoarseDrawings) })),
    cost,
    alternatives: next === undefined ? [] : [{ cost: next.cost, parcels: next.parcels.map(withoutFolds) }],
    whyNot: [],
    ...(promise === undefined ? {} : { promise }),
    proven,
    ...(lowerBound === undefined ? {} : { lowerBound }),
  };
}
