import { freeNumbers } from './free-numbers.ts';
import type { StoreOrTransaction } from './open.ts';
import { closeOrder } from './orders.ts';
import type { Order } from '#shared/planning/types.ts';
import type { SetAsideReason } from '#shared/run/types.ts';
import type { AsideChoice } from '#shared/side-work/types.ts';

/** The set-aside shelf, what leaves first before the others. */
export async function asideChoices(store: StoreOrTransaction): Promise<readonly AsideChoice[]> {
  const rows = await store
    .selectFrom('shop_order')
    .select(['body', 'reason', 'aside_place'])
    .where('state', '=', 'set-aside')
    .orderBy('ship_by')
    .orderBy('id')
    .execute();
  return rows.map(({ body, reason, aside_place }) => {
    const { id, buyer, pieces } = JSON.parse(body) as Order;
    return {
      order: id,
      buyer,
      pieces: pieces.reduce((sum, { count }) => sum + count, 0),
      reason,
      place: aside_place,
    };
  });
}

/**
 * Sets an order aside whose pieces are in somebody's hands: they get a place of the set-aside shelf, the one that they came
 * from if they came from there, else the first free one.
 * @returns the number of the place
 */
export async function setAsideOnShelf(
  store: StoreOrTransaction,
  aside: { readonly order: string; readonly reason: SetAsideReason; readonly now: number },
): Promise<number> {
  const rows = await store
    .selectFrom('shop_order')
    .select(['id', 'aside_place'])
    .where('aside_place', 'is not', null)
    .execute();
  const own = rows.find(({ id }) => id === aside.order)?.aside_place ?? null;
  const asidePlace = own ?? freeNumbers(rows.map(({ aside_place }) => aside_place)).next().value;
  await closeOrder(store, { ...aside, state: 'set-aside', asidePlace });
  return asidePlace;
}
