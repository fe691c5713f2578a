import type { StoreOrTransaction } from './open.ts';
import type { Place } from '#shared/access/limits.ts';

export interface StoredSession {
  readonly id: number;
  readonly place: Place;
  readonly device: number | null;
  readonly person: string;
  readonly shown: 'pin' | 'badge';
  readonly madeAt: number;
  readonly seenAt: number;
}

const COLUMNS = ['id', 'place', 'device_id', 'person', 'shown', 'made_at', 'seen_at'] as const;

/** The sessions that were not ended of a cookie's hash and of a device; whether their time is over is not looked at. */
export async function sessionsOf(
  store: StoreOrTransaction,
  { hash, device }: { readonly hash: string | null; readonly device: number | null },
): Promise<readonly StoredSession[]> {
  if (hash === null && device === null) return [];
  const rows = await store
    .selectFrom('access_session')
    .select(COLUMNS)
    .where('ended_at', 'is', null)
    .where((where) =>
      where.or([
        ...(hash === null ? [] : [where('hash', '=', hash)]),
        ...(device === null ? [] : [where.and([where('device_id', '=', device), where('place', '=', 'bench')])]),
      ]),
    )
    .execute();
  return rows.map(asSession);
}

export async function addSession(
  store: StoreOrTransaction,
  session: Omit<StoredSession, 'id' | 'madeAt' | 'seenAt'> & { readonly hash: string | null; readonly now: number },
): Promise<void> {
  const { place, hash, device, person, shown, now } = session;
  await store
    .insertInto('access_session')
    .values({ place, hash, device_id: device, person, shown, made_at: now, seen_at: now, ended_at: null })
    .execute();
}

export async function touchSession(store: StoreOrTransaction, id: number, now: number): Promise<void> {
  await store.updateTable('access_session').set({ seen_at: now }).where('id', '=', id).execute();
}

/** A clock was set back: the session's time is reckoned anew from what it shows now. */
export async function reckonAnew(store: StoreOrTransaction, id: number, now: number): Promise<void> {
  await touchSession(store, id, now);
  await store
    .updateTable('access_session')
    .set({ made_at: now })
    .where('id', '=', id)
    .where('made_at', '>', now)
    .execute();
}

/** Ends the open sessions that are meant: one, those of a person, or those of a device at its bench. */
export async function endSessions(
  store: StoreOrTransaction,
  which: { readonly id: number } | { readonly person: string } | { readonly device: number; readonly place?: Place },
  now: number,
): Promise<void> {
  let ended = store.updateTable('access_session').set({ ended_at: now }).where('ended_at', 'is', null);
  if ('id' in which) ended = ended.where('id', '=', which.id);
  else if ('person' in which) ended = ended.where('person', '=', which.person);
  else {
    ended = ended.where('device_id', '=', which.device);
    if (which.place !== undefined) ended = ended.where('place', '=', which.place);
  }
  await ended.execute();
}

/** Forgets sessions that began long ago: none lasts so long. @returns how many */
export async function forgetSessions(store: StoreOrTransaction, before: number): Promise<number> {
  const { numDeletedRows } = await store
    .deleteFrom('access_session')
    .where('made_at', '<', before)
    .executeTakeFirstOrThrow();
  return Number(numDeletedRows);
}

function asSession(row: {
  id: number;
  place: Place;
  device_id: number | null;
  person: string;
  shown: 'pin' | 'badge';
  made_at: number;
  seen_at: number;
}): StoredSession {
  const { id, place, device_id, person, shown, made_at, seen_at } = row;
  return { id, place, device: device_id, person, shown, madeAt: made_at, seenAt: seen_at };
}
