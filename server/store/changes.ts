import type { StoreOrTransaction } from './open.ts';
import type { Change } from '#shared/audit/changes.ts';
import { CHANGES_A_PAGE, type ChangeRow } from '#shared/wire/audit.ts';

/**
 * Keeps that somebody changed something: in the transaction of the change itself where there is one, so that none is made
 * without its record. Call it with ids and short facts only, never with a buyer's name or address.
 */
export async function recordChange(store: StoreOrTransaction, change: Change, now: number): Promise<void> {
  const { what, about, who, from, details = {} } = change;
  await store
    .insertInto('change_record')
    .values({ at: now, what, about, who, place: from, details: JSON.stringify(details) })
    .execute();
}

/** A page of changes, the last one first; one more than a page where there are older ones. */
export async function newestChanges(
  store: StoreOrTransaction,
  before: number | null,
): Promise<readonly Omit<ChangeRow, 'name'>[]> {
  const rows = await store
    .selectFrom('change_record')
    .selectAll()
    .$if(before !== null, (query) => query.where('id', '<', before ?? 0))
    .orderBy('id', 'desc')
    .limit(CHANGES_A_PAGE + 1)
    .execute();
  return rows.map(({ place, details, ...row }) => ({
    ...row,
    from: place,
    details: JSON.parse(details) as Record<string, string>,
  }));
}
