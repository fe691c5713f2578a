import type { StoredOrder } from './orders.ts';
import type { Existing } from './existing.ts';
import type { Store } from '#server/store/open.ts';
import { findPieces } from '#server/store/pieces.ts';
import type { Order, OrderState } from '#shared/planning/types.ts';

/** SQLite takes a bounded number of parameters in one statement. */
const NAMES = 400;

/** What the store has, for a file to be held against: asked piece by piece, so a shop's whole past is never in memory. */
export function existingInStore(store: Store): Existing {
  const orders = () => store.selectFrom('shop_order').select(['shop_order.id', 'shop_order.body', 'shop_order.state']);
  return {
    pieces: (skus) => findPieces(store, skus),
    skus: async (codes) => {
      const found = await inParts(codes, (some) =>
        store.selectFrom('piece').select('sku').where('sku', 'in', some).execute(),
      );
      return new Set(found.map(({ sku }) => sku));
    },
    orderIds: async (codes) => {
      const found = await inParts(codes, (some) =>
        store.selectFrom('shop_order').select('id').where('id', 'in', some).execute(),
      );
      return new Set(found.map(({ id }) => id));
    },
    orders: async (ids) => byId(await inParts(ids, (some) => orders().where('shop_order.id', 'in', some).execute())),
    ordersWith: async (skus) =>
      byId(
        await inParts(skus, (some) =>
          orders()
            .innerJoin('order_piece', 'order_piece.order_id', 'shop_order.id')
            .where('order_piece.sku', 'in', some)
            .execute(),
        ),
      ),
  };
}

async function inParts<Row>(
  all: readonly string[],
  ask: (some: readonly string[]) => Promise<readonly Row[]>,
): Promise<readonly Row[]> {
  const names = [...new Set(all)];
  const found: Row[] = [];
  for (let at = 0; at < names.length; at += NAMES) found.push(...(await ask(names.slice(at, at + NAMES))));
  return found;
}

function byId(
  rows: readonly { readonly id: string; readonly body: string; readonly state: OrderState }[],
): ReadonlyMap<string, StoredOrder> {
  return new Map(rows.map(({ id, body, state }) => [id, { order: JSON.parse(body) as Order, state }]));
}
