import type { StoreOrTransaction } from './open.ts';

export interface StoredDevice {
  readonly id: number;
  readonly name: string;
  readonly pairedAt: number;
  readonly seenAt: number;
}

/** Every device that is paired, the newest first. */
export async function pairedDevices(store: StoreOrTransaction): Promise<readonly StoredDevice[]> {
  const rows = await store
    .selectFrom('access_device')
    .select(['id', 'name', 'paired_at', 'seen_at'])
    .where('revoked_at', 'is', null)
    .orderBy('id', 'desc')
    .execute();
  return rows.map(({ id, name, paired_at, seen_at }) => ({
    id,
    name,
    pairedAt: paired_at,
    seenAt: seen_at,
  }));
}

/** The paired device with this hash; null where there is none, or it was revoked. */
export async function deviceWith(
  store: StoreOrTransaction,
  hash: string,
): Promise<{ readonly id: number; readonly seenAt: number } | null> {
  const row = await store
    .selectFrom('access_device')
    .select(['id', 'seen_at'])
    .where('hash', '=', hash)
    .where('revoked_at', 'is', null)
    .executeTakeFirst();
  return row === undefined ? null : { id: row.id, seenAt: row.seen_at };
}

export async function addDevice(
  store: StoreOrTransaction,
  { name, hash, now }: { readonly name: string; readonly hash: string; readonly now: number },
): Promise<number> {
  const row = await store
    .insertInto('access_device')
    .values({ name, hash, paired_at: now, seen_at: now, revoked_at: null })
    .returning('id')
    .executeTakeFirstOrThrow();
  return row.id;
}

export async function touchDevice(store: StoreOrTransaction, id: number, now: number): Promise<void> {
  await store.updateTable('access_device').set({ seen_at: now }).where('id', '=', id).execute();
}

/** False when there is no such device, or it was revoked before. */
export async function revokeDevice(store: StoreOrTransaction, id: number, now: number): Promise<boolean> {
  const row = await store
    .updateTable('access_device')
    .set({ revoked_at: now })
    .where('id', '=', id)
    .where('revoked_at', 'is', null)
    .returning('id')
    .executeTakeFirst();
  return row !== undefined;
}
