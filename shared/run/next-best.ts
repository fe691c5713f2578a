import type { NextBest } from './types.ts';
import type { OrderPlan } from '#shared/planning/types.ts';

/** The cheapest alternative that uses another container for the first parcel, or null without one. */
export function nextBestOf(plan: OrderPlan): NextBest | null {
  const container = plan.parcels[0]?.container.id;
  const other = plan.alternatives.find(
    (each) => each.parcels[0] !== undefined && each.parcels[0].container.id !== container,
  );
  const first = other?.parcels[0];
  if (other === undefined || first === undefined) return null;
  return { container: first.container.name, dearerBy: Math.round(other.cost.total - plan.cost.total) };
}
