import { sql } from 'kysely';
import type { Identity } from './scrub.ts';
import { dialectOf } from '#server/store/dialect.ts';
import type { StoreOrTransaction } from '#server/store/open.ts';
import type { FinishedParcel } from '#server/store/parcels.ts';
import type { Order, OrderState } from '#shared/planning/types.ts';

export interface BuyersOrder {
  readonly order: Order;
  readonly state: OrderState;
}

/** Every order of somebody, by the name exactly as it came. */
export async function ordersOfBuyer(store: StoreOrTransaction, buyer: string): Promise<readonly BuyersOrder[]> {
  const name =
    dialectOf(store) === 'sqlite' ? sql<string>`json_extract(body, '$.buyer')` : sql<string>`body::json ->> 'buyer'`;
  const rows = await store
    .selectFrom('shop_order')
    .select(['body', 'state'])
    .where(name, '=', buyer)
    .orderBy('id')
    .execute();
  return rows.map(({ body, state }) => ({ order: JSON.parse(body) as Order, state }));
}

/** What tells who the buyer of some orders is, in whatever is kept with them. */
export async function identityOf(store: StoreOrTransaction, orders: readonly Order[]): Promise<Identity> {
  const ids = orders.map(({ id }) => id);
  const parcels = await store.selectFrom('parcel').select(['label', 'body']).where('order_id', 'in', ids).execute();
  const labels = await store.selectFrom('label_request').select('tracking').where('order_id', 'in', ids).execute();
  const bodies = parcels.map(({ body }) => JSON.parse(body) as FinishedParcel);
  const texts = [
    ...orders.flatMap(({ buyer, address, note }) => [buyer, ...address, note ?? '']),
    ...parcels.map(({ label }) => label ?? ''),
    ...labels.map(({ tracking }) => tracking ?? ''),
  ];
  const postcodes = [...orders.map(({ to }) => to.postcode), ...bodies.map(({ postcode }) => postcode)];
  return { texts: longestFirst(texts), postcodes: longestFirst(postcodes) };
}

/** A line that holds another goes first, so that none is left in half. */
function longestFirst(texts: readonly string[]): readonly string[] {
  return [...new Set(texts)].filter((text) => text.trim() !== '').sort((one, other) => other.length - one.length);
}
