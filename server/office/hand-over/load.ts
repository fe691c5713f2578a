import { collectionNow } from './carriers.ts';
import { meaningOf } from '#server/runs/meaning.ts';
import { inTransaction } from '#server/store/in-transaction.ts';
import type { Store, StoreOrTransaction } from '#server/store/open.ts';
import {
  loadAt,
  openSack,
  openSacks,
  parcelsOfOrder,
  parcelWithLabel,
  putInSack,
  type ParcelOnItsWay,
  type Sack,
} from '#server/store/sacks.ts';
import type { ScanMeaning } from '#shared/codes/types.ts';
import { sackVerdict, type SackVerdict } from '#shared/hand-over/sack.ts';
import type { Shop } from '#shared/shop/shop.ts';

export interface LoadParts {
  readonly store: Store;
  readonly shop: Shop;
  readonly now: number;
}

/** What a scan into a sack came to. */
export interface Loaded {
  readonly verdict: SackVerdict;
  readonly parcel: ParcelOnItsWay | null;
  readonly sack: Sack;
}

/** The carrier never comes: there is nothing to load for. */
export class NoCollection extends Error {
  override readonly name = 'NoCollection';
}

/** The carrier's open sack, begun for its next collection where there is none. @throws NoCollection */
async function sackOf(store: StoreOrTransaction, { shop, now }: LoadParts, carrier: string): Promise<Sack> {
  const open = (await openSacks(store)).find((each) => each.carrier === carrier);
  if (open !== undefined) return open;
  const collection = collectionNow(shop, carrier, now);
  if (collection === null) throw new NoCollection(`${carrier} has no collection in shop.yaml`);
  return openSack(store, collection, now);
}

/** Begins a carrier's sack, and lets a bench's scanner load it. @throws NoCollection */
export async function beginSack(parts: LoadParts, carrier: string, bench: string | null): Promise<Sack> {
  return inTransaction(parts.store, async (transaction) => {
    const sack = await sackOf(transaction, parts, carrier);
    await loadAt(transaction, sack.id, bench);
    return { ...sack, bench };
  });
}

/** The parcel that a scanned code is of; of an order with several, the first that still waits. */
async function parcelOf(store: StoreOrTransaction, meaning: ScanMeaning): Promise<ParcelOnItsWay | null> {
  if (meaning.means === 'label') return parcelWithLabel(store, meaning.number);
  if (meaning.means !== 'order') return null;
  const parcels = await parcelsOfOrder(store, meaning.order);
  return (
    parcels.find(({ sack, leftAt, stays }) => sack === null && leftAt === null && stays === null) ?? parcels[0] ?? null
  );
}

async function load(parts: LoadParts, carrier: string, parcel: ParcelOnItsWay | null): Promise<Loaded> {
  return inTransaction(parts.store, async (transaction) => {
    const sack = await sackOf(transaction, parts, carrier);
    const standing = parcel === null ? null : { ...parcel, left: parcel.leftAt !== null, stays: parcel.stays !== null };
    const verdict = sackVerdict(standing, sack);
    if (verdict !== 'in' || parcel === null) return { verdict, parcel, sack };
    const put = await putInSack(transaction, parcel.id, sack.id, parts.now);
    return { verdict: put ? 'in' : 'already-in', parcel, sack };
  });
}

/** Scans a code into a carrier's sack. @throws NoCollection */
export async function scanIntoSack(parts: LoadParts, carrier: string, text: string): Promise<Loaded> {
  const meaning = await meaningOf(text, parts.store, parts.shop);
  return load(parts, carrier, await parcelOf(parts.store, meaning));
}

/** Puts a parcel into its sack that no scanner can read. @throws NoCollection */
export function putByHand(parts: LoadParts, carrier: string, parcel: ParcelOnItsWay): Promise<Loaded> {
  return load(parts, carrier, parcel);
}

/**
 * What a bench's scanner makes of a code between two orders: a sack's card opens it here; a label goes into the sack that is
 * open here, or opens its own carrier's. Null where the code is none of that.
 * @throws NoCollection
 */
export async function scanAtBench(
  parts: LoadParts,
  bench: string,
  meaning: ScanMeaning,
): Promise<{ readonly opened: Sack } | Loaded | null> {
  if (meaning.means === 'sack') return { opened: await beginSack(parts, meaning.carrier, bench) };
  if (meaning.means !== 'label') return null;
  const here = (await openSacks(parts.store)).find((each) => each.bench === bench);
  const parcel = await parcelOf(parts.store, meaning);
  if (here !== undefined) return load(parts, here.carrier, parcel);
  if (parcel === null) return null;
  await beginSack(parts, parcel.carrier, bench);
  return load(parts, parcel.carrier, parcel);
}
