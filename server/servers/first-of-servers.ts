import { sql } from 'kysely';
import { dialectOf } from '#server/store/dialect.ts';
import type { Store } from '#server/store/open.ts';
import { readServing } from '#server/store/server-leases.ts';

/** Of servers that start at once, one after the other. */
const STARTING = 5_120_020;

/** Does what belongs to the start of a shop, not of each of its servers: where another serves already, nothing. */
export async function firstOfServers(store: Store, work: () => Promise<void>): Promise<void> {
  if (dialectOf(store) === 'sqlite') return work();
  await store.connection().execute(async (held) => {
    await sql`select pg_advisory_lock(${sql.lit(STARTING)})`.execute(held);
    try {
      if ((await readServing(held)).servers.length === 0) await work();
    } finally {
      await sql`select pg_advisory_unlock(${sql.lit(STARTING)})`.execute(held);
    }
  });
}
