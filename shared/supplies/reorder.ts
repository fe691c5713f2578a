import type { Demand, StockState } from './types.ts';
import { normalQuantile } from '#shared/weighing/normal-quantile.ts';

export interface Replenishment {
  /** a day's */
  readonly demand: Demand;
  /** in days */
  readonly leadTime: { readonly mean: number; readonly sd: number };
  /** the chance of not running out while an order is on its way */
  readonly serviceLevel: number;
}

/**
 * The standard deviation of what is used while an order is on its way, days and lead time being independent:
 * sqrt(L s_d^2 + d^2 s_L^2). The textbook formula of inventory control.
 */
export function leadTimeSpread({ demand, leadTime }: Replenishment): number {
  return Math.sqrt(leadTime.mean * demand.sd ** 2 + demand.mean ** 2 * leadTime.sd ** 2);
}

/** z x the spread over the lead time; never below zero. */
export function safetyStock(of: Replenishment): number {
  return Math.max(0, normalQuantile(of.serviceLevel) * leadTimeSpread(of));
}

/** At this much or less it is time to order: demand over the lead time plus the safety stock. */
export function reorderPoint(of: Replenishment): number {
  return of.demand.mean * of.leadTime.mean + safetyStock(of);
}

/** For how many days the shelf lasts; null where nothing is used. Nothing left lasts no day. */
export function daysOfCover(onHand: number, demand: Demand): number | null {
  if (demand.mean <= 0) return null;
  return Math.max(0, onHand) / demand.mean;
}

/** @param onHand null where nobody has counted yet */
export function stockState(onHand: number | null, reorderAt: number): StockState {
  if (onHand === null) return 'not-counted';
  if (onHand <= 0) return 'out';
  return onHand <= reorderAt ? 'low' : 'enough';
}

/**
 * How many packs to order: none while what is on hand and on order lies above the reorder point, else as many as bring it
 * to the reorder point and what the days to cover take.
 */
export function packsToOrder(
  of: Replenishment & {
    readonly onHand: number;
    readonly onOrder: number;
    readonly coverDays: number;
    readonly pack: number;
  },
): number {
  const at = reorderPoint(of);
  const have = Math.max(0, of.onHand) + of.onOrder;
  if (have > at) return 0;
  // Reached exactly at zero use: nothing is needed of what is never taken, unless there is none at all.
  const wanted = at + of.demand.mean * of.coverDays - have;
  return Math.max(have === 0 ? 1 : 0, Math.ceil(wanted / of.pack - 1e-9));
}
