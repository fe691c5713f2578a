import { existsSync, statSync } from 'node:fs';
import { join } from 'node:path';
import SqliteDatabase from 'better-sqlite3';
import { backupsIn, STORE_FILE, type Backup } from './manifest.ts';
import { cutOffRestore } from './restore.ts';
import { StoreError } from '#server/store/store-error.ts';

/** How many of the places that are damaged are told. */
const TOLD = 3;

/**
 * Looks a store over before a server works on it: whether it is there where it was, and whole. A disk that lost a page, a file
 * that was torn or taken away is told with the newest backup and how to restore it, and never begun anew with nothing.
 * @param backups where the shop's backups lie
 * @throws StoreError damaged
 */
export function lookOverStore(data: string, backups: string): void {
  const path = join(data, STORE_FILE);
  const there = existsSync(path) && statSync(path).size > 0;
  if (!there) {
    lookForLost(data, backups);
    return;
  }
  const wrong = whatIsWrong(path);
  if (wrong.length === 0) return;
  const told = wrong.slice(0, TOLD).join('; ') + (wrong.length > TOLD ? '; and more' : '');
  throw damaged(`data folder ${data}: its store is damaged (${told})`, data, backups);
}

/** A folder without a store is a new one, unless something says that there was one. */
function lookForLost(data: string, backups: string): void {
  const { before, making } = cutOffRestore(data);
  if (before !== null && !existsSync(join(data, STORE_FILE))) {
    const also = making === null ? '' : `, and backups that lay in it may be in ${making}`;
    throw new StoreError(
      'damaged',
      `data folder ${data}: a restore was cut off; what was there before is ${before}${also}. Rename it back, or restore again`,
    );
  }
  const wal = join(data, `${STORE_FILE}-wal`);
  if ((existsSync(wal) && statSync(wal).size > 0) || backupsIn(backups).length > 0) {
    throw damaged(
      `data folder ${data}: expected its store in ${STORE_FILE}, found none or an empty file`,
      data,
      backups,
    );
  }
}

function whatIsWrong(path: string): readonly string[] {
  let file: SqliteDatabase.Database | null = null;
  try {
    file = new SqliteDatabase(path, { timeout: 2000 });
    const rows = file.pragma('quick_check') as readonly { readonly quick_check: string }[];
    return rows.map(({ quick_check }) => quick_check.replaceAll('\n', ' ')).filter((line) => line !== 'ok');
  } catch (error) {
    if (!(error instanceof SqliteDatabase.SqliteError)) throw error;
    if (error.code.startsWith('SQLITE_CORRUPT') || error.code === 'SQLITE_NOTADB') return [error.message];
    // A folder that cannot be written to and the like are told by whoever opens the store.
    return [];
  } finally {
    file?.close();
  }
}

function damaged(what: string, data: string, backups: string): StoreError {
  const [newest] = backupsIn(backups);
  return new StoreError(
    'damaged',
    `${what}. Nothing was changed. ${newest === undefined ? without(backups) : how(newest, data)}`,
  );
}

function how({ path, at, manifest }: Backup, data: string): string {
  const orders = manifest.tables['shop_order']?.rows ?? 0;
  return (
    `The newest backup is of ${new Date(at).toISOString()}, with ${String(orders)} orders. To go on from it, keeping what is ` +
    `there now under another name: npm run -s cli -- restore --from ${path} --to ${data} --replace`
  );
}

function without(backups: string): string {
  return `There is no backup in ${backups}; if there is one elsewhere: npm run -s cli -- restore --from BACKUP --to FOLDER --replace`;
}
