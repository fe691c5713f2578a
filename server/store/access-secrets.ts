import type { StoreOrTransaction } from './open.ts';

export type CodeKind = 'pair' | 'set-up';

/** Who has a PIN, with its hash. */
export async function pins(store: StoreOrTransaction): Promise<ReadonlyMap<string, string>> {
  const rows = await store.selectFrom('access_pin').select(['person', 'hash']).execute();
  return new Map(rows.map(({ person, hash }) => [person, hash]));
}

export async function savePin(
  store: StoreOrTransaction,
  { person, hash, now }: { readonly person: string; readonly hash: string; readonly now: number },
): Promise<void> {
  await store
    .insertInto('access_pin')
    .values({ person, hash, set_at: now })
    .onConflict((conflict) => conflict.column('person').doUpdateSet({ hash, set_at: now }))
    .execute();
}

export async function removePin(store: StoreOrTransaction, person: string): Promise<void> {
  await store.deleteFrom('access_pin').where('person', '=', person).execute();
}

/** A new code of its kind; the one before is good no more. */
export async function saveCode(
  store: StoreOrTransaction,
  { kind, hash, endsAt }: { readonly kind: CodeKind; readonly hash: string; readonly endsAt: number },
): Promise<void> {
  await store
    .insertInto('access_code')
    .values({ kind, hash, ends_at: endsAt, wrong: 0 })
    .onConflict((conflict) => conflict.column('kind').doUpdateSet({ hash, ends_at: endsAt, wrong: 0 }))
    .execute();
}

interface CodeAsked {
  readonly kind: CodeKind;
  readonly hash: string;
  readonly now: number;
  /** so many wrong ones use it up */
  readonly tries: number;
  /** for how long it is good when it is new: a clock that was set back makes it good for no longer */
  readonly lasts: number;
}

/** Uses a code up. False when it is not the one that is good now; that is counted against the one that is. */
export async function useCode(store: StoreOrTransaction, asked: CodeAsked): Promise<boolean> {
  if (!(await isGoodCode(store, asked))) return false;
  const { kind, hash } = asked;
  const used = await store
    .deleteFrom('access_code')
    .where('kind', '=', kind)
    .where('hash', '=', hash)
    .returning('kind')
    .executeTakeFirst();
  return used !== undefined;
}

/** Whether this is the code that is good now; when not, that is counted against the one that is. */
export async function isGoodCode(store: StoreOrTransaction, asked: CodeAsked): Promise<boolean> {
  const { kind, hash, now, tries, lasts } = asked;
  const good = await store
    .selectFrom('access_code')
    .select('kind')
    .where('kind', '=', kind)
    .where('hash', '=', hash)
    .where('ends_at', '>', now)
    .where('ends_at', '<=', now + lasts)
    .where('wrong', '<', tries)
    .executeTakeFirst();
  if (good !== undefined) return true;
  await store
    .updateTable('access_code')
    .set((is) => ({ wrong: is('wrong', '+', 1) }))
    .where('kind', '=', kind)
    .execute();
  return false;
}

/** Wrong tries in a row of a person or from an address, and when the last one was. */
export async function triesOf(
  store: StoreOrTransaction,
  subject: string,
): Promise<{ readonly failures: number; readonly lastAt: number } | null> {
  const row = await store
    .selectFrom('access_try')
    .select(['failures', 'last_at'])
    .where('subject', '=', subject)
    .executeTakeFirst();
  return row === undefined ? null : { failures: row.failures, lastAt: row.last_at };
}

export async function saveTry(
  store: StoreOrTransaction,
  { subject, failures, lastAt }: { readonly subject: string; readonly failures: number; readonly lastAt: number },
): Promise<void> {
  await store
    .insertInto('access_try')
    .values({ subject, failures, last_at: lastAt })
    .onConflict((conflict) => conflict.column('subject').doUpdateSet({ failures, last_at: lastAt }))
    .execute();
}

/** Forgets whoever has tried nothing wrong since. @returns how many */
export async function forgetOldTries(store: StoreOrTransaction, before: number): Promise<number> {
  const { numDeletedRows } = await store
    .deleteFrom('access_try')
    .where('last_at', '<', before)
    .executeTakeFirstOrThrow();
  return Number(numDeletedRows);
}

export async function forgetTries(store: StoreOrTransaction, subjects: readonly string[]): Promise<void> {
  if (subjects.length > 0) await store.deleteFrom('access_try').where('subject', 'in', subjects).execute();
}
