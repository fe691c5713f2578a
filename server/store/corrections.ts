import type { StoreOrTransaction } from './open.ts';
import { massFromBase } from '#shared/units/mass.ts';
import type { Correction } from '#shared/weighing/bias.ts';

/** What the carrier found a parcel to weigh, beside what this station took it to weigh. */
export interface ParcelCorrection extends Correction {
  /** id of the stored parcel */
  readonly parcel: number;
  readonly bench: string;
}

/** Keeps corrections; a second one of the same parcel takes the place of the first. */
export async function saveCorrections(
  store: StoreOrTransaction,
  corrections: readonly ParcelCorrection[],
  at: number,
): Promise<void> {
  for (const row of corrections) {
    await store
      .insertInto('correction')
      .values({ ...row, at })
      .onConflict((conflict) => conflict.column('parcel').doUpdateSet({ carriers: row.carriers, ours: row.ours, at }))
      .execute();
  }
}

/** All corrections of parcels that were weighed at a bench. */
export async function correctionsOf(store: StoreOrTransaction, bench: string): Promise<readonly Correction[]> {
  const rows = await store
    .selectFrom('correction')
    .select(['ours', 'carriers'])
    .where('bench', '=', bench)
    .orderBy('parcel')
    .execute();
  return rows.map((row) => ({ ours: massFromBase(row.ours), carriers: massFromBase(row.carriers) }));
}
