import { calendarDay } from '#server/calendar.ts';
import type { StoreOrTransaction } from '#server/store/open.ts';
import { findPieces } from '#server/store/pieces.ts';
import { PlanError } from '#shared/planning/plan-error.ts';
import { planOrder } from '#shared/planning/plan-order.ts';
import type { Order, OrderPlan } from '#shared/planning/types.ts';
import type { Shop } from '#shared/shop/shop.ts';

export type Planned = { readonly ok: true; readonly plan: OrderPlan } | { readonly ok: false; readonly why: string };

/** The cheapest plan for an order from what the store knows of its pieces, on the shop's day. */
export async function planFor(
  store: StoreOrTransaction,
  shop: Shop,
  order: Order,
  now: number,
  without: readonly string[] = [],
): Promise<Planned> {
  const pieces = await findPieces(
    store,
    order.pieces.map((line) => line.sku),
  );
  try {
    return { ok: true, plan: planOrder({ order, pieces, shop, day: calendarDay(now, shop.timeZone), without }) };
  } catch (error) {
    if (error instanceof PlanError) return { ok: false, why: error.message };
    throw error;
  }
}
