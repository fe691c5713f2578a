import { sql } from 'kysely';
import { forgetPurged, purgeOrders } from './purge.ts';
import { TAKEN_OUT } from './scrub.ts';
import type { PhotoFiles } from '#server/proof/photo-files.ts';
import type { KeptForATime } from '#server/retention/retention.ts';
import type { ShopHolder } from '#server/shop-holder.ts';
import { recordChange } from '#server/store/changes.ts';
import { dialectOf } from '#server/store/dialect.ts';
import type { Store } from '#server/store/open.ts';
import type { Order } from '#shared/planning/types.ts';

const DAY_MS = 86_400_000;
/** Noted as one. */
const AT_ONCE = 25;

/** Buyers' data are kept for as many days as the shop says after an order was packed or cancelled; for ever where it says nothing. */
export function buyerRetention({
  store,
  shops,
  files,
}: {
  store: Store;
  shops: ShopHolder;
  files: PhotoFiles;
}): KeptForATime {
  return {
    what: 'buyers',
    holdsUpInputs: true,
    remove: async (now) => {
      const days = shops.current.privacy?.buyersDays;
      if (days === undefined) return 0;
      let removed = 0;
      for (;;) {
        const due = await settledBefore(store, now - days * DAY_MS);
        if (due.length === 0) break;
        await purgeOrders({ store, files, now }, { found: due }, (transaction, orders) =>
          recordChange(
            transaction,
            {
              what: 'kept-time-over',
              about: 'buyers',
              who: null,
              from: 'station',
              details: { orders: String(orders.length) },
            },
            now,
          ),
        );
        removed += due.length;
      }
      if (removed > 0) await forgetPurged(store);
      return removed;
    },
  };
}

async function settledBefore(store: Store, before: number) {
  const name =
    dialectOf(store) === 'sqlite' ? sql<string>`json_extract(body, '$.buyer')` : sql<string>`body::json ->> 'buyer'`;
  const rows = await store
    .selectFrom('shop_order')
    .select(['body', 'state'])
    .where('state', 'in', ['packed', 'cancelled', 'combined'])
    .where('changed_at', '<', before)
    .where(name, '!=', TAKEN_OUT)
    .limit(AT_ONCE)
    .execute();
  return rows.map(({ body, state }) => ({ order: JSON.parse(body) as Order, state }));
}
