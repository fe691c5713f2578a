import { sql } from 'kysely';
import { containerName } from '#server/office/names.ts';
import type { Store } from '#server/store/open.ts';
import { findOrder, type StoredOrder } from '#server/store/orders.ts';
import { parcelsOfOrder, type ParcelOnItsWay } from '#server/store/sacks.ts';
import { entriesOf, soughtIn } from '#server/store/search.ts';
import { ORDER_STATES, type OrderState } from '#shared/planning/types.ts';
import { serviceName } from '#shared/run/view/service-name.ts';
import type { Shop } from '#shared/shop/shop.ts';
import type { OrderPage, OrderQuestion, OrderRow, OrderSorting } from '#shared/wire/office.ts';

/** With a text, so many of the newest that hold it are put in order; the page says that there are others. */
const MOST_FOUND = 1000;

/** A page of the orders, with how many there are of each state. */
export async function orderPage(store: Store, shop: Shop, asked: OrderQuestion): Promise<OrderPage> {
  const counts = await countByState(store);
  const all = ORDER_STATES.reduce((sum, state) => sum + counts[state], 0);
  const sought = soughtIn(asked.text);
  const { ids, matching, more } =
    sought.text === ''
      ? {
          ids: await idsInOrder(store, asked, null),
          matching: asked.state === null ? all : counts[asked.state],
          more: false,
        }
      : await found(store, asked);
  const rows: OrderRow[] = [];
  for (const id of ids) {
    const stored = await findOrder(store, id);
    if (stored !== null) rows.push(rowOf(stored, await parcelsOfOrder(store, id), shop));
  }
  return { rows, from: asked.from, matching, more, all, counts, timeZone: shop.timeZone };
}

async function found(store: Store, asked: OrderQuestion) {
  const entries = await entriesOf(store, 'order', soughtIn(asked.text), MOST_FOUND + 1);
  const ids = entries.slice(0, MOST_FOUND).map(({ ref }) => ref);
  const { matching } = await store
    .selectFrom('shop_order')
    .select((select) => select.fn.countAll<number>().as('matching'))
    .where('id', 'in', ids)
    .$if(asked.state !== null, (query) => query.where('state', '=', asked.state ?? 'open'))
    .executeTakeFirstOrThrow();
  return { ids: await idsInOrder(store, asked, ids), matching, more: entries.length > MOST_FOUND };
}

const BY: Readonly<Record<OrderSorting, readonly string[]>> = {
  id: ['length(id)', 'id'],
  buyer: [`json_extract(body, '$.buyer')`, 'id'],
  shipBy: ['ship_by', 'id'],
  state: ['state', 'ship_by', 'id'],
};

/** The ids of one page. Every order of rows has an index, so that a page costs the same of 200,000 as of 20. */
async function idsInOrder(
  store: Store,
  { by, descending, state, from, count }: OrderQuestion,
  within: readonly string[] | null,
): Promise<readonly string[]> {
  let query = store.selectFrom('shop_order').select('id').limit(count).offset(from);
  if (state !== null) query = query.where('state', '=', state);
  if (within !== null) query = query.where('id', 'in', within);
  for (const each of BY[by]) query = query.orderBy(sql.raw(each), descending ? 'desc' : 'asc');
  return (await query.execute()).map(({ id }) => id);
}

async function countByState(store: Store): Promise<Readonly<Record<OrderState, number>>> {
  const counts = { open: 0, packing: 0, 'set-aside': 0, packed: 0, cancelled: 0, combined: 0 };
  const rows = await store
    .selectFrom('shop_order')
    .select((select) => ['state', select.fn.countAll<number>().as('count')])
    .groupBy('state')
    .execute();
  for (const { state, count } of rows) counts[state] = count;
  return counts;
}

/** An order as a row of the table; of several parcels the last one is named. */
export function rowOf(
  { order, state, bench, reason }: StoredOrder,
  parcels: readonly ParcelOnItsWay[],
  shop: Shop,
): OrderRow {
  const last = parcels.at(-1);
  return {
    id: order.id,
    buyer: order.buyer,
    pieces: order.pieces.reduce((sum, line) => sum + line.count, 0),
    shipBy: order.shipBy,
    state,
    bench: shop.benches.find(({ id }) => id === bench)?.name ?? bench,
    reason,
    container: last === undefined ? null : containerName(shop, last.container),
    service: last === undefined ? null : serviceName(shop, last.service),
  };
}
