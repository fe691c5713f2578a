import { sql } from 'kysely';
import { databaseFor } from './shared-cluster.ts';
import { dialectOf } from '#server/store/dialect.ts';
import { openShopStore, type Store } from '#server/store/open.ts';

/** The store of a data folder, or the database that stands for it where the tests run on PostgreSQL. */
export async function openTestStore(data: string): Promise<Store> {
  return openShopStore({ data, database: await databaseFor(data) });
}

/** From now on no bench's state can be stored while a condition holds: as when the disk is full. Answers how that ends. */
export async function refuseUpdates(store: Store, condition: string): Promise<() => Promise<void>> {
  const run = (statement: string) => sql.raw(statement).execute(store);
  if (dialectOf(store) === 'sqlite') {
    await run(`create trigger refuse before update on bench_state when ${condition}
      begin select raise(abort, 'the disk is full'); end`);
    return async () => {
      await run('drop trigger refuse');
    };
  }
  await run(`create function refuse() returns trigger language plpgsql as
    $$ begin if ${condition} then raise 'the disk is full'; end if; return new; end $$`);
  await run('create trigger refuse before update on bench_state for each row execute function refuse()');
  return async () => {
    await run('drop function refuse cascade');
  };
}
