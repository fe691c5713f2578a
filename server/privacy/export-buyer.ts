import { strToU8, zipSync } from 'fflate';
import { ordersOfBuyer } from './buyer.ts';
import type { PhotoFiles } from '#server/proof/photo-files.ts';
import type { Store } from '#server/store/open.ts';

/** Everything that is kept of a buyer, for the buyer: one readable file and the photos. Null where there is no such buyer. */
export async function exportBuyer(
  store: Store,
  files: PhotoFiles,
  buyer: string,
  now: number,
): Promise<{ readonly zip: Uint8Array; readonly orders: readonly string[] } | null> {
  const found = await ordersOfBuyer(store, buyer);
  if (found.length === 0) return null;
  const ids = found.map(({ order }) => order.id);
  const photos = await store.selectFrom('photo').selectAll().where('order_id', 'in', ids).execute();
  const runs = await store.selectFrom('run').selectAll().where('order_id', 'in', ids).execute();
  const parcels = await store.selectFrom('parcel').selectAll().where('order_id', 'in', ids).execute();
  const labels = await store
    .selectFrom('label_request')
    .select(['order_id', 'number', 'state', 'body', 'answer', 'tracking', 'made_at'])
    .where('order_id', 'in', ids)
    .execute();
  const checked = await store.selectFrom('address_checked').selectAll().where('order_id', 'in', ids).execute();
  const told = {
    madeAt: new Date(now).toISOString(),
    buyer,
    orders: found,
    runs: runs.map(({ id, order_id, bench, started_at, ended_at }) => ({ id, order_id, bench, started_at, ended_at })),
    parcels: parcels.map(({ order_id, number, label, body, finished_at, left_at }) => ({
      ...{ order_id, number, label, finished_at, left_at },
      body: withoutStaff(JSON.parse(body) as Record<string, unknown>),
    })),
    labels: labels.map(({ body, ...label }) => ({ ...label, body: JSON.parse(body) as unknown })),
    addressesFoundRight: checked,
    photos: photos.map(({ id, order_id, parcel, what, taken_at, file, missed, removed_at }) => ({
      ...{ order_id, parcel, what, taken_at, missed, removed_at },
      file: file === null ? null : `photos/${id}.jpg`,
    })),
  };
  const entries: Record<string, Uint8Array> = { 'buyer.json': strToU8(JSON.stringify(told, null, 2)) };
  for (const { id, file } of photos) {
    const bytes = file === null ? null : await files.read(file);
    if (bytes !== null) entries[`photos/${id.replace(/[^\w-]/g, '_')}.jpg`] = bytes;
  }
  return { zip: zipSync(entries), orders: ids };
}

/** Who packed is another person's. */
function withoutStaff({ packer: _, ...body }: Record<string, unknown>): Record<string, unknown> {
  return body;
}
