import { sql } from 'kysely';
import { entriesOf, soughtIn, type SearchEntry } from '#server/store/search.ts';
import type { StoreOrTransaction } from '#server/store/open.ts';
import { photoCounts } from '#server/store/photos.ts';
import { findStaff } from './find-staff.ts';
import type { StaffMember } from '#shared/shop/shop.ts';
import type { OrderState } from '#shared/planning/types.ts';
import { MOST_COUNTED, STORED_KINDS, type SearchAnswer, type SearchHit, type StoredKind } from '#shared/wire/search.ts';

const SHOWN = 12;
/** before the number of a label that was asked for: a tracking number that may be on no parcel yet */
const ASKED = 'asked-';

interface OrderOf {
  readonly order: string;
  readonly state: OrderState;
}

/**
 * Whatever the shop has with a text in it: orders, parcels by their number, pieces, buyers, and who works here.
 * @param staff those whom whoever asks may see
 */
export async function find(
  store: StoreOrTransaction,
  asked: string,
  staff: readonly StaffMember[] = [],
): Promise<SearchAnswer> {
  const sought = soughtIn(asked);
  const groups: SearchAnswer['groups'][number][] = [];
  if (sought.whole === null) return { text: sought.text, groups };
  for (const kind of STORED_KINDS) {
    // A buyer's name stands with each of the orders.
    if (kind === 'buyer' && groups.every((group) => group.kind !== 'order')) continue;
    const entries = await entriesOf(store, kind, sought, SHOWN + 1);
    const hits = await hitsOf(store, kind, entries.slice(0, SHOWN));
    if (hits.length > 0) groups.push({ kind, hits, more: entries.length > SHOWN });
  }
  const people = findStaff(staff, sought);
  if (people.length > 0) groups.push({ kind: 'staff', hits: people.slice(0, SHOWN), more: people.length > SHOWN });
  return { text: sought.text, groups };
}

async function hitsOf(
  store: StoreOrTransaction,
  kind: StoredKind,
  entries: readonly SearchEntry[],
): Promise<readonly SearchHit[]> {
  if (kind === 'buyer') return Promise.all(entries.map((entry) => buyer(store, entry)));
  const hits: SearchHit[] = [];
  const photos =
    kind === 'order'
      ? await photoCounts(
          store,
          entries.map(({ ref }) => ref),
        )
      : new Map<string, number>();
  for (const entry of entries) {
    // A number that was answered for a label is found once more when the label is on its parcel.
    if (kind === 'parcel' && hits.some((hit) => hit.code === entry.code)) continue;
    const of = await orderOf(store, kind, entry.ref);
    const photographed = photos.get(entry.ref);
    const words = kind === 'order' ? orderWords(entry.words) : (of?.buyer ?? '');
    hits.push({
      kind,
      code: entry.code,
      words: kind === 'piece' ? entry.words : words,
      order: of?.order ?? null,
      state: of?.state ?? null,
      orders: of === null ? 0 : 1,
      ...(photographed === undefined ? {} : { photos: photographed }),
    });
  }
  return hits;
}

/** Buyer, postcode and address, a line each, as people write them; the list of the last line has no line breaks of its own. */
function orderWords(words: string): string {
  const lines = words.split('\n');
  const list = lines.pop() ?? '';
  const postcode = lines.pop() ?? '';
  const buyer = lines.join(' ');
  const address = list === '' ? [] : (JSON.parse(list) as readonly string[]);
  const known = address.some((line) => line.includes(postcode));
  return [buyer, ...address, known ? '' : postcode].filter((each) => each !== '').join(', ');
}

/** The order that a thing leads to: of a piece that was sold more than once, the last one. */
async function orderOf(
  store: StoreOrTransaction,
  kind: Exclude<StoredKind, 'buyer'>,
  ref: string,
): Promise<(OrderOf & { readonly buyer: string }) | null> {
  const base = store
    .selectFrom('shop_order')
    .select([
      'shop_order.id as order',
      'shop_order.state',
      sql<string>`json_extract(shop_order.body, '$.buyer')`.as('buyer'),
    ]);
  switch (kind) {
    case 'order':
      return (await base.where('shop_order.id', '=', ref).executeTakeFirst()) ?? null;
    case 'parcel':
      if (ref.startsWith(ASKED)) {
        return (
          (await base
            .innerJoin('label_request', 'label_request.order_id', 'shop_order.id')
            .where('label_request.id', '=', Number(ref.slice(ASKED.length)))
            .executeTakeFirst()) ?? null
        );
      }
      return (
        (await base
          .innerJoin('parcel', 'parcel.order_id', 'shop_order.id')
          .where('parcel.id', '=', Number(ref))
          .executeTakeFirst()) ?? null
      );
    case 'piece':
      return (
        (await base
          .innerJoin('order_piece', 'order_piece.order_id', 'shop_order.id')
          .where('order_piece.sku', '=', ref)
          .orderBy('shop_order.came_at', 'desc')
          .executeTakeFirst()) ?? null
      );
  }
}

/** Somebody's orders: how many there are, and one of them. */
async function buyer(store: StoreOrTransaction, { ref }: SearchEntry): Promise<SearchHit> {
  const own = await store
    .selectFrom('shop_order')
    .select(['id', 'state'])
    .where(sql<string>`json_extract(body, '$.buyer')`, '=', ref)
    .limit(MOST_COUNTED + 1)
    .execute();
  const [one] = own;
  return { kind: 'buyer', code: '', words: ref, order: one?.id ?? null, state: one?.state ?? null, orders: own.length };
}
