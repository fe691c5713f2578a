import { recordChange } from '#server/store/changes.ts';
import type { StoreOrTransaction } from '#server/store/open.ts';

/** Keeps in the record of changes that something had been kept its time; nothing where nothing was removed. */
export async function noteRemoved(
  store: StoreOrTransaction,
  { what, removed, days }: { readonly what: string; readonly removed: number; readonly days: number },
  now: number,
): Promise<void> {
  if (removed === 0) return;
  const details = { removed: String(removed), days: String(days) };
  await recordChange(store, { what: 'kept-time-over', about: what, who: null, from: 'station', details }, now);
}
