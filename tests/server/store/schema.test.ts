import { sql } from 'kysely';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { temporaryFolder } from '#tests/support/server-process.ts';
import { databaseOf } from '#tests/support/shared-cluster.ts';
import { dialectOf } from '#server/store/dialect.ts';
import { openPostgres, openStore, type Store } from '#server/store/open.ts';

const data = temporaryFolder('schema');
let sqlite: Store;
let postgres: Store;

beforeAll(async () => {
  sqlite = await openStore(data.path);
  postgres = await openPostgres(await databaseOf(data.path));
}, 60_000);

afterAll(async () => {
  await sqlite.destroy();
  await postgres.destroy();
  data.remove();
});

/** Each dialect's own way to the same kind of value. */
const KINDS: Readonly<Record<string, string>> = { integer: 'bigint', real: 'double precision', blob: 'bytea' };
/** `search_order` and the like are SQLite's full-text indexes; PostgreSQL's have no table. `store_turn` is taken in turns,
 * `order_written` tells servers what others wrote. */
const OF_ONE_DIALECT = /^(kysely_|search_(order|piece|buyer)|store_turn|order_written|socket_io_)/;

async function columnsOf(store: Store): Promise<Readonly<Record<string, readonly string[]>>> {
  const tables = (await store.introspection.getTables()).filter(({ name }) => !OF_ONE_DIALECT.test(name));
  const keys = await keysOf(store);
  return Object.fromEntries(
    tables
      .sort((a, b) => a.name.localeCompare(b.name))
      .map(({ name, columns }) => [
        name,
        columns.map(
          (column) =>
            `${column.name} ${kindOf(column.dataType)} ${column.isNullable && !keys.has(`${name}.${column.name}`) ? 'or null' : ''}`,
        ),
      ]),
  );
}

/** The columns of primary keys, which SQLite lets be null by what its own documents call a bug. */
async function keysOf(store: Store): Promise<ReadonlySet<string>> {
  if (dialectOf(store) === 'postgres') return new Set();
  const { rows } = await sql<{ key: string }>`
    select main.name || '.' || info.name as key from sqlite_master as main, pragma_table_info(main.name) as info
    where info.pk > 0`.execute(store);
  return new Set(rows.map(({ key }) => key));
}

/** PostgreSQL names its types by their short names. */
function kindOf(type: string): string {
  const lower = type.toLowerCase();
  return { int8: 'bigint', float8: 'double precision' }[lower] ?? KINDS[lower] ?? lower;
}

it('every migration makes the same tables and columns in both kinds of store', async () => {
  expect(await columnsOf(postgres)).toEqual(await columnsOf(sqlite));
});

it('texts are compared byte by byte in both, whatever the language of the database', async () => {
  for (const store of [sqlite, postgres]) {
    for (const id of ['b', 'B', 'é', 'a1', 'a-1', 'Z']) {
      await store.insertInto('bench_state').values({ bench: id, seq: 1, body: '' }).execute();
    }
    const rows = await store.selectFrom('bench_state').select('bench').orderBy('bench').execute();
    expect(rows.map(({ bench }) => bench)).toEqual(['B', 'Z', 'a-1', 'a1', 'b', 'é']);
    await sql`delete from bench_state`.execute(store);
  }
});
