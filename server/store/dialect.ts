import { PostgresAdapter, type Kysely, type Transaction } from 'kysely';

/** Which of the two kinds of store a connection or transaction is on. */
export type StoreDialect = 'sqlite' | 'postgres';

// Any tables: migrations know none, repositories know all.
export function dialectOf<Tables>(store: Kysely<Tables> | Transaction<Tables>): StoreDialect {
  return store.getExecutor().adapter instanceof PostgresAdapter ? 'postgres' : 'sqlite';
}
