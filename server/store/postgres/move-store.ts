import { createHash } from 'node:crypto';
import SqliteDatabase from 'better-sqlite3';
import { sql, type Kysely } from 'kysely';
import { holdFolder } from '#server/store/lock.ts';
import { openPostgres, type Store } from '#server/store/open.ts';
import { readStore } from '#server/store/read-only.ts';
import { StoreError } from '#server/store/store-error.ts';

/** What was copied of one table, and what both sides say that they hold: the same rows give the same sum. */
export interface MovedTable {
  readonly table: string;
  readonly rows: number;
  /** SHA-256 of all rows in the order of their keys, reckoned the same way on both sides */
  readonly sha256: string;
}

interface TableShape {
  readonly name: string;
  readonly columns: readonly string[];
  /** its primary key, or all columns */
  readonly key: readonly string[];
}

type Row = Readonly<Record<string, unknown>>;

/** As the command line names the database. */
export const TO = '--to';
const BATCH = 500;
/** What each kind of store keeps for itself. */
const OF_THE_STORE = /^(sqlite_|kysely_)/;

/**
 * Copies a shop's store from its data folder into an empty PostgreSQL database, in one transaction, and compares both sides
 * table by table before it is committed. The file is only read; no server may run on the folder meanwhile.
 * @throws StoreError where a server runs on the folder, the file is of another version, the database holds something, or the
 * two sides differ; then the database is as empty as it was
 */
export async function moveStore(folder: string, address: string): Promise<readonly MovedTable[]> {
  const held = holdFolder(folder);
  try {
    const store = await openPostgres(address, TO);
    try {
      const versions = await sql<{ name: string }>`select name from kysely_migration order by name`.execute(store);
      const wanted = versions.rows.map(({ name }) => name).filter((name) => name !== '000-postgres');
      return await reading(folder, (file) => {
        checkVersion(folder, file, wanted);
        return copyAll(file, store);
      });
    } finally {
      await store.destroy();
    }
  } finally {
    held.release();
  }
}

/** Opens the file for as long as the work takes. */
async function reading<Done>(folder: string, work: (file: SqliteDatabase.Database) => Promise<Done>): Promise<Done> {
  const path = readStore(folder, (file) => file.name);
  const file = new SqliteDatabase(path, { readonly: true, fileMustExist: true });
  try {
    return await work(file);
  } finally {
    file.close();
  }
}

function checkVersion(folder: string, file: SqliteDatabase.Database, wanted: readonly string[]): void {
  const found = file.prepare<[], { name: string }>('select name from kysely_migration order by name').all();
  if (JSON.stringify(found.map(({ name }) => name)) === JSON.stringify(wanted)) return;
  throw new StoreError(
    'cannot-migrate',
    `data folder ${folder}: expected a store of this version, found one of another; start the server on it once`,
  );
}

async function copyAll(file: SqliteDatabase.Database, store: Store): Promise<readonly MovedTable[]> {
  const tables = shapesOf(file);
  return store
    .transaction()
    .setIsolationLevel('serializable')
    .execute(async (transaction) => {
      await sql`lock table store_turn in exclusive mode`.execute(transaction);
      const into: Kysely<Record<string, Row>> = transaction as never;
      for (const { name } of tables) {
        const { rows } = await sql`select 1 from ${sql.table(name)} limit 1`.execute(into);
        if (rows.length > 0) {
          throw new StoreError('cannot-open', `${TO}: expected an empty database, found rows in ${name}`);
        }
        // What triggers would make of the rows is copied with its own table.
        await sql`alter table ${sql.table(name)} disable trigger user`.execute(into);
      }
      const moved: MovedTable[] = [];
      for (const table of tables) moved.push(await copy(file, table, into));
      for (const { name } of tables) await sql`alter table ${sql.table(name)} enable trigger user`.execute(into);
      await goOnCounting(into);
      return moved;
    });
}

/** Every table with rows of its own: not what a full-text index keeps. */
function shapesOf(file: SqliteDatabase.Database): readonly TableShape[] {
  const tables = file.pragma('table_list') as readonly { schema: string; type: string; name: string }[];
  return tables
    .filter(({ schema, type, name }) => schema === 'main' && type === 'table' && !OF_THE_STORE.test(name))
    .map(({ name }) => {
      const columns = file.pragma(`table_info("${name}")`) as readonly { name: string; pk: number }[];
      const key = columns.filter(({ pk }) => pk > 0).sort((one, other) => one.pk - other.pk);
      const names = (of: readonly { name: string }[]) => of.map((column) => column.name);
      return { name, columns: names(columns), key: names(key.length > 0 ? key : columns) };
    })
    .sort((one, other) => (one.name < other.name ? -1 : 1));
}

async function copy(
  file: SqliteDatabase.Database,
  table: TableShape,
  into: Kysely<Record<string, Row>>,
): Promise<MovedTable> {
  const { name, key } = table;
  const sent = new TableSum(table);
  const rows = file.prepare<[], Row>(`select * from "${name}" order by ${key.map((each) => `"${each}"`).join(', ')}`);
  let batch: Row[] = [];
  const send = async (): Promise<void> => {
    if (batch.length > 0) await into.insertInto(name).values(batch).execute();
    batch = [];
  };
  for (const row of rows.iterate()) {
    sent.add(row);
    batch.push(row);
    if (batch.length === BATCH) await send();
  }
  await send();
  const arrived = new TableSum(table);
  for (let from = 0; ; from += BATCH) {
    let query = into.selectFrom(name).selectAll().limit(BATCH).offset(from);
    for (const column of key) query = query.orderBy(sql.ref(column));
    const found = await query.execute();
    for (const row of found) arrived.add(row);
    if (found.length < BATCH) break;
  }
  const [one, other] = [sent.result(), arrived.result()];
  if (one.rows === other.rows && one.sha256 === other.sha256) return one;
  const told = ({ rows: count, sha256 }: MovedTable) => `${String(count)} rows with the sum ${sha256.slice(0, 12)}`;
  throw new StoreError('cannot-migrate', `${name}: expected ${told(one)}, found ${told(other)}; nothing was moved`);
}

class TableSum {
  readonly #table: TableShape;
  readonly #hash = createHash('sha256');
  #rows = 0;

  constructor(table: TableShape) {
    this.#table = table;
  }

  add(row: Row): void {
    this.#rows++;
    for (const column of this.#table.columns) {
      const value = row[column];
      const bytes = value instanceof Uint8Array ? value : Buffer.from(String(value));
      const kind = value === null ? 'null' : value instanceof Uint8Array ? 'bytes' : typeof value;
      // Kind and length stand before each value, so that no two rows are written alike.
      this.#hash.update(`${kind} ${String(bytes.length)}:`).update(bytes);
    }
  }

  result(): MovedTable {
    return { table: this.#table.name, rows: this.#rows, sha256: this.#hash.copy().digest('hex') };
  }
}

/** What is added from now on gets numbers after those that were copied. */
async function goOnCounting(into: Kysely<Record<string, Row>>): Promise<void> {
  const { rows } = await sql<{ name: string; column: string }>`
    select table_name as name, column_name as column from information_schema.columns
    where table_schema = current_schema() and is_identity = 'YES'`.execute(into);
  for (const { name, column } of rows) {
    await sql`select setval(pg_get_serial_sequence(${name}, ${column}), max(${sql.ref(column)}))
      from ${sql.table(name)} having max(${sql.ref(column)}) is not null`.execute(into);
  }
  // As search-tables.ts numbers entries; those of answered numbers lie in the upper half.
  for (const [index, kind] of ['order', 'parcel', 'piece', 'buyer'].entries()) {
    const base = (index + 1) * 2 ** 40;
    await sql`select setval(${`search_entry_${kind}`}::regclass, max(id) - ${sql.lit(base)}) from search_entry
      where kind = ${kind} having max(id) is not null`.execute(into);
  }
}
