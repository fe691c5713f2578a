import { accessSync, constants } from 'node:fs';
import { join } from 'node:path';
import SqliteDatabase from 'better-sqlite3';
import { Kysely, Migrator, type Migration, type Transaction } from 'kysely';
import { first } from './migrations/001-first.ts';
import { learning } from './migrations/002-learning.ts';
import { weighing } from './migrations/003-weighing.ts';
import { speech } from './migrations/005-speech.ts';
import { supplies } from './migrations/008-supplies.ts';
import { enrolment } from './migrations/006-enrolment.ts';
import { people } from './migrations/007-people.ts';
import { handOver } from './migrations/008b-hand-over.ts';
import { comparison } from './migrations/008c-comparison.ts';
import { busyDay } from './migrations/010-busy-day.ts';
import { plannedParcels } from './migrations/010b-planned-parcels.ts';
import { labels } from './migrations/011-labels.ts';
import { search } from './migrations/012-search.ts';
import { addresses } from './migrations/013-addresses.ts';
import { imports } from './migrations/014-imports.ts';
import { intake } from './migrations/014c-intake.ts';
import { combinedOrders } from './migrations/014b-combined.ts';
import { incoming } from './migrations/015b-incoming.ts';
import { importSources } from './migrations/015-import-sources.ts';
import { access } from './migrations/017-access.ts';
import { servers } from './migrations/020-servers.ts';
import { shopFiles } from './migrations/027-shop-files.ts';
import { betweenOrders } from './migrations/024-between-orders.ts';
import { purges } from './migrations/026-purges.ts';
import { orderWritten } from './migrations/027b-order-written.ts';
import { audit } from './migrations/021-audit.ts';
import { photos } from './migrations/016-photos.ts';
import { keepTurns } from './commit-group.ts';
import { LogCheckpoints } from './log-checkpoints.ts';
import { OnDisk } from './on-disk.ts';
import { leases } from './migrations/018-leases.ts';
import type { Tables } from './schema.ts';
import { DATABASE_URL, databasePlace } from './postgres/address.ts';
import { connectPostgres } from './postgres/connect.ts';
import { postgresFirst } from './postgres/functions.ts';
import { codeOf, INSUFFICIENT_PRIVILEGE, openingError } from './postgres/opening-error.ts';
import { SqliteFilesDialect, type SqliteFiles } from './sqlite-driver.ts';
import { StoreError } from './store-error.ts';
import { keepTouches, Touches } from './touches.ts';
import { makeFolder } from '#server/make-folder.ts';

export type Store = Kysely<Tables>;
/** A store inside a transaction; every repository function takes either. */
export type StoreOrTransaction = Store | Transaction<Tables>;

/** In the order of their names; a released one is never changed. Each makes the same tables in both kinds of store. */
const MIGRATIONS = {
  '001-first': first,
  '002-learning': learning,
  '003-weighing': weighing,
  '005-speech': speech,
  '006-enrolment': enrolment,
  '007-people': people,
  '008-supplies': supplies,
  '008b-hand-over': handOver,
  '008c-comparison': comparison,
  '010-busy-day': busyDay,
  '010b-planned-parcels': plannedParcels,
  '011-labels': labels,
  '012-search': search,
  '013-addresses': addresses,
  '014-imports': imports,
  '014b-combined': combinedOrders,
  '014c-intake': intake,
  '015-import-sources': importSources,
  '015b-incoming': incoming,
  '016-photos': photos,
  '017-access': access,
  '020-servers': servers,
  '021-audit': audit,
  '018-leases': leases,
  '024-between-orders': betweenOrders,
  '026-purges': purges,
  '027-shop-files': shopFiles,
  '027b-order-written': orderWritten,
};

/** Where a shop's store is: a PostgreSQL database where one is named, else the data folder. */
export interface StorePlace {
  readonly data: string;
  /** postgres://...; null for the store in the data folder */
  readonly database: string | null;
}

/**
 * Opens the shop's store, bringing its schema up to date.
 * @throws StoreError cannot-open, newer-schema or cannot-migrate, each with one line for the console
 */
export function openShopStore({ data, database }: StorePlace): Promise<Store> {
  return database === null ? openStore(data) : openPostgres(database);
}

/**
 * Opens the store in a data folder, making both when they are missing.
 * Write-ahead log that is put onto the disk after each commit: what a transaction has told as done survives a pulled plug.
 * @throws StoreError cannot-open, newer-schema or cannot-migrate
 */
export async function openStore(folder: string): Promise<Store> {
  const files = openFiles(folder);
  let touches: Touches | null = null;
  const dialect = new SqliteFilesDialect(files, () => touches?.settled());
  const store = new Kysely<Tables>({ dialect });
  await migrated(store, `data folder ${folder}`, MIGRATIONS);
  touches = new Touches(files.writer);
  keepTouches(store, touches);
  keepTurns(store, dialect.turns);
  return store;
}

/**
 * Opens the store in a PostgreSQL database, which exists; of several servers that start at once, one makes the tables.
 * @param said where the address stands, for whoever is to mend it
 * @throws StoreError cannot-open, newer-schema or cannot-migrate
 */
export async function openPostgres(address: string, said = DATABASE_URL): Promise<Store> {
  const place = databasePlace(address, said);
  const store = await connectPostgres(address, place);
  try {
    return await migrated(store, place, { '000-postgres': postgresFirst, ...MIGRATIONS });
  } catch (error) {
    const cause = error instanceof StoreError ? error.cause : null;
    throw codeOf(cause) === INSUFFICIENT_PRIVILEGE ? openingError(cause, place) : error;
  }
}

async function migrated(store: Store, where: string, migrations: Record<string, Migration>): Promise<Store> {
  const migrator = new Migrator({ db: store, provider: { getMigrations: () => Promise.resolve(migrations) } });
  const { error } = await migrator.migrateToLatest();
  if (error === undefined) return store;
  await store.destroy();

  const why = error instanceof Error ? error.message : JSON.stringify(error);
  const newer = why.includes('corrupted migrations');
  throw new StoreError(
    newer ? 'newer-schema' : 'cannot-migrate',
    newer
      ? `${where}: its store was written by a newer version of this program`
      : `${where}: its store cannot be brought up to date (${why})`,
    error,
  );
}

function openFiles(folder: string): SqliteFiles {
  try {
    makeFolder(folder, 0o700);
    accessSync(folder, constants.W_OK);
    const path = join(folder, 'benchfold.db');
    const file = new SqliteDatabase(path);
    file.pragma('journal_mode = WAL');
    // SQLite itself would hold up this thread for each commit until the disk has it: the commit group waits for that beside.
    file.pragma('synchronous = NORMAL');
    // Waiting holds everything, the links to the screens too, and nobody else is meant to write here.
    file.pragma('busy_timeout = 500');
    file.pragma('foreign_keys = ON');
    const reader = new SqliteDatabase(path);
    reader.pragma('busy_timeout = 500');
    reader.pragma('query_only = ON');
    return { writer: file, reader, disk: OnDisk.ofFile(`${path}-wal`), checkpoints: new LogCheckpoints(file) };
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    if (error instanceof SqliteDatabase.SqliteError && error.code === 'SQLITE_NOTADB') {
      throw new StoreError(
        'cannot-open',
        `data folder ${folder}: expected a store in benchfold.db, found another file`,
      );
    }
    throw new StoreError(
      'cannot-open',
      `data folder ${folder}: expected a folder that can be written to (${why})`,
      error,
    );
  }
}
