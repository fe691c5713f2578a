import type { Store } from '#server/store/open.ts';
import { combinationOf } from '#server/store/combining.ts';
import { findOrder, orderWaitingFor } from '#server/store/orders.ts';
import { hasPiece } from '#server/store/pieces.ts';
import { parcelWithLabel } from '#server/store/sacks.ts';
import { scanMeaning } from '#shared/codes/scan-meaning.ts';
import type { ScanMeaning } from '#shared/codes/types.ts';
import type { OpenWork } from '#shared/run/open-work.ts';
import type { Shop } from '#shared/shop/shop.ts';

/**
 * What a scanned text means, asked of the store. The pure reading asks for the forms that it wants to know about; each
 * that was not looked up yet is, and the reading begins again with the answers, until it asks for nothing new.
 */
export async function meaningOf(text: string, store: Store, shop: Shop): Promise<ScanMeaning> {
  const skus = new Map<string, boolean>();
  const orders = new Map<string, boolean>();
  for (;;) {
    const askedSkus = new Set<string>();
    const askedOrders = new Set<string>();
    const ask = (asked: Set<string>, known: ReadonlyMap<string, boolean>) => (form: string) => {
      const answer = known.get(form);
      if (answer === undefined) asked.add(form);
      return answer ?? false;
    };
    const meaning = scanMeaning(text, {
      isSku: ask(askedSkus, skus),
      isOrder: ask(askedOrders, orders),
      isContainer: (id) => shop.containers.has(id),
      isCarrier: (id) => shop.collections.some(({ carrier }) => carrier === id),
      staffByBadge: (badge) => shop.staff.find((each) => each.badge === badge)?.id ?? null,
    });
    if (askedSkus.size === 0 && askedOrders.size === 0) return meaning;
    for (const sku of askedSkus) skus.set(sku, await hasPiece(store, sku));
    for (const id of askedOrders) orders.set(id, (await findOrder(store, id)) !== null);
  }
}

/** What the store knows of the open work about a code's meaning. */
export async function openWorkOf(meaning: ScanMeaning, store: Store): Promise<OpenWork> {
  switch (meaning.means) {
    case 'piece':
      return { waits: (await orderWaitingFor(store, meaning.sku)) !== null };
    case 'order': {
      const named = (await combinationOf(store, meaning.order)) ?? meaning.order;
      const state = (await findOrder(store, named))?.state;
      return { waits: state === 'open' || state === 'set-aside' };
    }
    case 'label': {
      const parcel = await parcelWithLabel(store, meaning.number);
      return { waits: parcel !== null && parcel.leftAt === null };
    }
    default:
      return { waits: false };
  }
}
