import { personName } from '#server/office/names.ts';
import type { Store } from '#server/store/open.ts';
import { photosOfOrder, type PhotoRow } from '#server/store/photos.ts';
import { parcelsOfOrder } from '#server/store/sacks.ts';
import { DEFAULT_KEEP_DAYS } from '#shared/proof/types.ts';
import type { Shop } from '#shared/shop/shop.ts';
import { massFromBase } from '#shared/units/mass.ts';
import type { PhotoView } from '#shared/wire/proof.ts';

const DAY_MS = 86_400_000;

/** The photos of an order, with what each parcel weighed, who stood there, and how long they are kept. */
export async function photosOf(store: Store, shop: Shop, order: string): Promise<readonly PhotoView[]> {
  const rows = await photosOfOrder(store, order);
  const parcels = rows.length === 0 ? [] : await parcelsOfOrder(store, order);
  const keepDays = shop.proof?.keepDays ?? DEFAULT_KEEP_DAYS;
  return rows.map((row) => {
    const reading = parcels.find(({ run, number }) => run === row.run && number === row.parcel)?.reading;
    return {
      id: row.id,
      parcel: row.parcel,
      what: row.what,
      takenAt: row.taken_at,
      bench: shop.benches.find(({ id }) => id === row.bench)?.name ?? row.bench,
      person: personName(shop, row.person),
      reading: reading === undefined ? null : massFromBase(reading),
      is: standing(row, row.taken_at + keepDays * DAY_MS),
    };
  });
}

function standing(row: PhotoRow, until: number): PhotoView['is'] {
  if (row.removed_at !== null) return { kept: false, removedAt: row.removed_at };
  if (row.file === null) return { kept: false, missed: row.missed ?? 'not-a-photo' };
  return { kept: true, width: row.width ?? 0, height: row.height ?? 0, bytes: row.bytes ?? 0, until };
}
