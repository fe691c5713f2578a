import { sql } from 'kysely';
import type { StoreOrTransaction } from './open.ts';
import { parcelOfRow, type StoredParcel } from './parcels.ts';
import type { Comparison } from '#shared/planning/comparison.ts';

export interface ParcelOfReport extends StoredParcel {
  readonly compared: Comparison | null;
  /** what the carrier found, in base units */
  readonly carriers: number | null;
}

/** Parcels finished in a time, first counted in and last not, with what their runs and the carrier said of them. */
export async function parcelsBetween(
  store: StoreOrTransaction,
  first: number,
  last: number,
): Promise<readonly ParcelOfReport[]> {
  const rows = await store
    .selectFrom('parcel')
    .leftJoin('run', 'run.id', 'parcel.run')
    .leftJoin('correction', 'correction.parcel', 'parcel.id')
    .select(['parcel.id', 'parcel.label', 'parcel.body', 'parcel.finished_at', 'run.compared', 'correction.carriers'])
    .where('parcel.finished_at', '>=', first)
    .where('parcel.finished_at', '<', last)
    .orderBy('parcel.finished_at')
    .orderBy('parcel.id')
    .execute();
  return rows.map(({ compared, carriers, ...row }) => ({
    ...parcelOfRow(row),
    compared: compared === null ? null : (JSON.parse(compared) as Comparison),
    carriers,
  }));
}

/** The runs of those parcels in which a weighing was done over, and whether something was taken out before. */
export async function weighedOver(
  store: StoreOrTransaction,
  first: number,
  last: number,
): Promise<ReadonlyMap<string, 'lightened' | 'weighed-again'>> {
  const { rows } = await sql<{ run: string; command: string }>`
    select distinct input.run as run, json_extract(input.body, '$.command') as command
    from input
    where input.run in (select run from parcel where finished_at >= ${first} and finished_at < ${last})
      and input.given_by <> 'station'
      and json_extract(input.body, '$.command') in ('weigh-again', 'make-lighter')
  `.execute(store);
  const found = new Map<string, 'lightened' | 'weighed-again'>();
  for (const { run, command } of rows) {
    if (command === 'make-lighter') found.set(run, 'lightened');
    else if (!found.has(run)) found.set(run, 'weighed-again');
  }
  return found;
}
