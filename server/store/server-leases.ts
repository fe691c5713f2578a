import { sql } from 'kysely';
import type { Store, StoreOrTransaction } from './open.ts';

/** A server of the shop that is taken to be there. */
export interface LiveServer {
  readonly id: string;
  /** where its pages are, as http://host:port */
  readonly address: string;
  /** the benches whose devices are at it; null for any */
  readonly wants: readonly string[] | null;
}

export interface Serving {
  readonly servers: readonly LiveServer[];
  /** which server has which bench */
  readonly benches: ReadonlyMap<string, string>;
}

/** A server of which nothing was heard for so long has died; its benches go to others. */
export const SERVER_LEASE_MS = 5_000;

/** The database's own clock: those of several computers differ. */
const NOW = sql<number>`(extract(epoch from clock_timestamp()) * 1000)::bigint`;
const UNTIL = sql<number>`${NOW} + ${sql.lit(SERVER_LEASE_MS)}`;

export async function beginServer(store: Store, { id, address, wants }: LiveServer): Promise<void> {
  await store
    .insertInto('server_lease')
    .values({ id, address, wants: JSON.stringify(wants), until: UNTIL })
    .execute();
}

/** Says that a server is there. False when it was silent for too long and its benches are others' by now. */
export async function renewServer(store: Store, id: string): Promise<boolean> {
  const { numUpdatedRows } = await store
    .updateTable('server_lease')
    .set({ until: UNTIL })
    .where('id', '=', id)
    .executeTakeFirst();
  return numUpdatedRows === 1n;
}

export async function isServing(store: StoreOrTransaction, id: string): Promise<boolean> {
  const row = await store.selectFrom('server_lease').select('id').where('id', '=', id).executeTakeFirst();
  return row !== undefined;
}

export async function endServer(store: Store, id: string): Promise<void> {
  await store.deleteFrom('bench_lease').where('server', '=', id).execute();
  await store.deleteFrom('server_lease').where('id', '=', id).execute();
}

export async function readServing(store: StoreOrTransaction): Promise<Serving> {
  const servers = await store.selectFrom('server_lease').selectAll().where('until', '>=', NOW).orderBy('id').execute();
  const live = new Set(servers.map(({ id }) => id));
  const benches = await store.selectFrom('bench_lease').selectAll().execute();
  return {
    servers: servers.map(({ id, address, wants }) => ({
      id,
      address,
      wants: JSON.parse(wants) as readonly string[] | null,
    })),
    benches: new Map(benches.flatMap(({ bench, server }) => (live.has(server) ? [[bench, server] as const] : []))),
  };
}

/** Forgets servers that have died, with what they had. Belongs into a transaction beside which no other runs. */
export async function forgetDead(store: StoreOrTransaction): Promise<void> {
  await store.deleteFrom('server_lease').where('until', '<', NOW).execute();
  await store
    .deleteFrom('bench_lease')
    .where('server', 'not in', (query) => query.selectFrom('server_lease').select('id'))
    .execute();
}

export async function takeBenches(
  store: StoreOrTransaction,
  server: string,
  benches: readonly string[],
): Promise<void> {
  if (benches.length === 0) return;
  await store
    .insertInto('bench_lease')
    .values(benches.map((bench) => ({ bench, server, since: NOW })))
    .execute();
}

export async function giveBenchBack(store: Store, server: string, bench: string): Promise<void> {
  await store.deleteFrom('bench_lease').where('bench', '=', bench).where('server', '=', server).execute();
}
