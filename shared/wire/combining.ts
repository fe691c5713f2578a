import type { OrderState } from '#shared/planning/types.ts';
import type { Money } from '#shared/units/money.ts';

/** One of several orders that may go together. */
export interface TogetherOrder {
  readonly id: string;
  readonly pieces: number;
  readonly shipBy: string;
}

/** Orders of one buyer to one address that wait, and what packing them as one is expected to save. */
export interface CombineProposal {
  readonly orders: readonly TogetherOrder[];
  readonly buyer: string;
  readonly lines: readonly string[];
  /** postage, material, labour and risk as planned: each by itself, and all as one */
  readonly apart: Money;
  readonly together: Money;
  readonly saves: Money;
  readonly parcelsApart: number;
  readonly parcelsTogether: number;
}

/** Orders that were made one and are not packed yet. */
export interface CombinedOrders {
  readonly id: string;
  readonly orders: readonly string[];
  readonly buyer: string;
  readonly state: OrderState;
}

/**
 * GET  /api/combining -> CombiningView
 * POST /api/combining { orders } -> CombiningView: they become one order
 * POST /api/combining/decline { orders } -> CombiningView: not proposed again
 * POST /api/combining/:id/part -> CombiningView: each by itself again
 */
export interface CombiningView {
  /** what saves most first */
  readonly proposals: readonly CombineProposal[];
  readonly taken: readonly CombinedOrders[];
  readonly timeZone: string;
}
