import {
  HandleEmptyInListsPlugin,
  Kysely,
  replaceWithNoncontingentExpression,
  sql,
  type PostgresPoolClient,
  type PostgresQueryResult,
} from 'kysely';
import pg from 'pg';
import { ShopPostgresDialect } from './dialect.ts';
import { openingError } from './opening-error.ts';
import { StoreError } from '#server/store/store-error.ts';
import type { Tables } from '#server/store/schema.ts';

/** Of one server; a transaction may read beside itself, so fewer transactions run at once (`in-transaction.ts`). */
const CONNECTIONS = 20;
const CONNECT_WITHIN_MS = 10_000;
/** A server that hangs in a transaction lets go of what it holds. */
const IDLE_IN_TRANSACTION_MS = 10_000;
/** The oldest with `normalize` and `pg_current_snapshot`; SQL function bodies of 14. */
const OLDEST_VERSION = 14;

/** Masses, times and counts come as numbers: they are below 2^53. */
pg.types.setTypeParser(pg.types.builtins.INT8, Number);
pg.types.setTypeParser(pg.types.builtins.NUMERIC, Number);

/**
 * A shop's database, not yet brought up to date.
 * @param place what the console calls it
 * @throws StoreError cannot-open with one line for the console, never with the password in it
 */
export async function connectPostgres(address: string, place: string): Promise<Kysely<Tables>> {
  const pool = poolOf(address);
  const store = new Kysely<Tables>({
    dialect: new ShopPostgresDialect({
      pool: { connect: async () => plainClient(await pool.connect()), end: () => pool.end() },
    }),
    plugins: [new HandleEmptyInListsPlugin({ strategy: replaceWithNoncontingentExpression })],
  });
  try {
    await check(store, place);
    return store;
  } catch (error) {
    await store.destroy().catch(() => undefined);
    throw error instanceof StoreError ? error : openingError(error, place);
  }
}

/** Connections to the shop's database for what is no statement of the store. Numbers come as numbers. */
export function poolOf(address: string, max = CONNECTIONS): pg.Pool {
  const pool = new pg.Pool({
    connectionString: address,
    max,
    connectionTimeoutMillis: CONNECT_WITHIN_MS,
    keepAlive: true,
    application_name: 'benchfold',
    idle_in_transaction_session_timeout: IDLE_IN_TRANSACTION_MS,
    // What is acknowledged is on disk, whatever the database's own setting.
    options: '-c synchronous_commit=on',
  });
  // A connection that breaks while nobody uses it is replaced; whoever uses one gets its error.
  pool.on('error', () => undefined);
  return pool;
}

/** Everything that is escaped in JSON, so that of two backslashes the second begins nothing. */
const ESCAPES = /\\(?:u0000|u[dD][89a-fA-F][\da-fA-F]{2}|[^])/g;
const NO_CHARACTER = /^\\u(?:0000|d)/i;

/**
 * PostgreSQL keeps no NUL in a text, and reads no JSON with one or with half of a character (which is all that `JSON.stringify`
 * writes as an escaped surrogate): what holds one is no text of the shop, and the sign for what is no character stands in its place.
 */
function plain(value: unknown): unknown {
  if (typeof value !== 'string') return value;
  const text = value.includes('\0') ? value.replaceAll('\0', '\u{fffd}') : value;
  if (!/^[[{"]/.test(text) || !/\\u(?:0000|d)/i.test(text)) return text;
  return text.replace(ESCAPES, (escape) => (NO_CHARACTER.test(escape) ? '\\ufffd' : escape));
}

function plainClient(client: pg.PoolClient): PostgresPoolClient {
  const query = <Row>(text: string, values: readonly unknown[]) =>
    client.query(text, values.map(plain)) as Promise<unknown> as Promise<PostgresQueryResult<Row>>;
  return { query: query as PostgresPoolClient['query'], release: (broken?: boolean) => client.release(broken) };
}

async function check(store: Kysely<Tables>, place: string): Promise<void> {
  const { rows } = await sql<{ version: string; encoding: string; icu: boolean }>`
    select current_setting('server_version_num') as version, current_setting('server_encoding') as encoding,
      exists (select 1 from pg_collation where collname = 'und-x-icu') as icu`.execute(store);
  const [found] = rows;
  const version = Math.floor(Number(found?.version ?? 0) / 10_000);
  if (version < OLDEST_VERSION) {
    throw refused(place, `PostgreSQL ${String(OLDEST_VERSION)} or newer`, `version ${String(version)}`);
  }
  if (found?.encoding !== 'UTF8') throw refused(place, 'a database in UTF8', String(found?.encoding));
  if (!found.icu) throw refused(place, 'a PostgreSQL built with ICU', 'one without');
}

const refused = (place: string, expected: string, found: string): StoreError =>
  new StoreError('cannot-open', `${place}: expected ${expected}, found ${found}`);
