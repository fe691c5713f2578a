import type { StoreOrTransaction } from './open.ts';
import type { Money } from '#shared/units/money.ts';

/** A finished parcel as it is kept: plain facts that later reports need, masses in base units. */
export interface FinishedParcel {
  readonly order: string;
  readonly run: string;
  readonly number: number;
  readonly of: number;
  readonly bench: string;
  readonly packer: string | null;
  readonly pieces: readonly string[];
  readonly container: string;
  /** outside of the filled container in float mm; absent on parcels of older versions */
  readonly filled?: { readonly width: number; readonly length: number; readonly thickness: number };
  readonly wrap: string;
  readonly recipes: readonly string[];
  readonly carrier: string;
  readonly service: string;
  readonly zone: string;
  readonly planned: Money;
  readonly owed: Money;
  readonly reading: number;
  readonly readingUnit: string;
  readonly toCome: number;
  readonly ceiling: number;
  readonly uncertainty: number;
  readonly expectedGrams: number;
  readonly verdict: string;
  readonly because: string | null;
  readonly decided: string | null;
  readonly labelByEye: boolean;
  readonly postcode: string;
  readonly startedAt: number | null;
}

export interface StoredParcel extends FinishedParcel {
  readonly id: number;
  readonly label: string | null;
  readonly finishedAt: number;
}

export async function saveParcel(
  store: StoreOrTransaction,
  parcel: FinishedParcel,
  label: string | null,
  now: number,
): Promise<void> {
  await store
    .insertInto('parcel')
    .values({
      order_id: parcel.order,
      run: parcel.run,
      number: parcel.number,
      label,
      carrier: parcel.carrier,
      body: JSON.stringify(parcel),
      finished_at: now,
    })
    .execute();
}

export async function labelIsUsed(store: StoreOrTransaction, label: string): Promise<boolean> {
  const row = await store.selectFrom('parcel').select('id').where('label', '=', label).executeTakeFirst();
  return row !== undefined;
}

export async function allParcels(store: StoreOrTransaction): Promise<readonly StoredParcel[]> {
  const rows = await store.selectFrom('parcel').selectAll().orderBy('finished_at').orderBy('id').execute();
  return rows.map(parcelOfRow);
}

export interface ParcelColumns {
  readonly id: number;
  readonly label: string | null;
  readonly body: string;
  readonly finished_at: number;
}

export function parcelOfRow(row: ParcelColumns): StoredParcel {
  return {
    ...(JSON.parse(row.body) as FinishedParcel),
    id: row.id,
    label: row.label,
    finishedAt: row.finished_at,
  };
}
