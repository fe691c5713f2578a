import type { StoreOrTransaction } from './open.ts';
import { findPieces } from './pieces.ts';
import type { FinishedParcel } from './parcels.ts';
import type { BenchBefore } from '#shared/queue/choice.ts';

/** What a bench's last finished parcel went into, and where the last of its pieces had lain. */
export async function lastPacked(store: StoreOrTransaction, bench: string): Promise<BenchBefore> {
  const row = await store
    .selectFrom('run')
    .innerJoin('parcel', (join) =>
      join.onRef('parcel.run', '=', 'run.id').onRef('parcel.order_id', '=', 'run.order_id'),
    )
    .select('parcel.body')
    .where('run.bench', '=', bench)
    .orderBy('run.started_at', 'desc')
    .orderBy('parcel.id', 'desc')
    .limit(1)
    .executeTakeFirst();
  if (row === undefined) return { container: null, shelf: null };
  const { container, pieces } = JSON.parse(row.body) as FinishedParcel;
  const last = pieces.at(-1);
  const found = last === undefined ? undefined : (await findPieces(store, [last])).get(last);
  return { container, shelf: found?.place ?? null };
}
