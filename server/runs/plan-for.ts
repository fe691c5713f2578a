import { calendarDay } from '#server/calendar.ts';
import type { PlanJob } from '#server/planning/plan-job.ts';
import { allBeliefs } from '#server/store/learning.ts';
import type { StoreOrTransaction } from '#server/store/open.ts';
import { emptyContainers } from '#server/office/supplies/empty-containers.ts';
import { findPieces } from '#server/store/pieces.ts';
import type { Order } from '#shared/planning/types.ts';
import type { Shop } from '#shared/shop/shop.ts';

/**
 * All that planning an order needs of the store: its pieces, what was learned of their kinds, what has run out, and the
 * shop's day.
 * @param bench which will pack it
 */
export async function planJob(
  store: StoreOrTransaction,
  shop: Shop,
  order: Order,
  now: number,
  { without = [], bench }: { readonly without?: readonly string[]; readonly bench: string },
): Promise<PlanJob> {
  const pieces = await findPieces(
    store,
    order.pieces.map((line) => line.sku),
  );
  return {
    order,
    pieces: [...pieces.values()],
    day: calendarDay(now, shop.timeZone),
    without,
    beliefs: await allBeliefs(store),
    outOfStock: await emptyContainers(store, shop, bench),
  };
}
