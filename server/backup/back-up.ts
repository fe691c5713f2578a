import { chmodSync, readdirSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import SqliteDatabase from 'better-sqlite3';
import { contentsOf } from './contents.ts';
import { copyWhole, digestOf, filesToTake, onDisk } from './files.ts';
import { BackupError, backupName, MANIFEST, STORE_FILE, type Backup, type Manifest } from './manifest.ts';
import { proveBackup } from './prove.ts';
import { makeFolder } from '#server/make-folder.ts';

export interface BackUp {
  readonly data: string;
  readonly config: string;
  /** a folder of backups; this one becomes a folder in it */
  readonly to: string;
  readonly now: number;
}

/** How the name begins of what is not a backup yet. */
const MAKING = '.making-';
/** No backup takes so long. */
const CUT_OFF_AFTER_MS = 6 * 3_600_000;

/** So many pages at once that the store is copied in one step: another's writing would begin the copy anew. */
const ALL_PAGES = 2 ** 31 - 1;

/**
 * Backs up a shop while its server runs: the store as it is at one moment, the files beside it, and the config folder. It is
 * proven by restoring it into a scratch folder and comparing every table and file, and only then gets its name.
 * @throws BackupError with what went wrong; nothing half is left
 */
export async function backUp({ data, config, to, now }: BackUp): Promise<Backup> {
  const path = join(to, backupName(now));
  const making = join(to, `${MAKING}${backupName(now)}-${String(process.pid)}`);
  try {
    makeFolder(making);
    removeCutOff(to, making);
    chmodSync(making, 0o700);
    const { tables, schema } = await copyStore(join(data, STORE_FILE), join(making, STORE_FILE));
    const files: Record<string, { bytes: number; sha256: string }> = {};
    for (const [name, source] of filesToTake(data, config, to)) {
      copyWhole(source, join(making, name));
      files[name] = digestOf(join(making, name));
    }
    const manifest: Manifest = { version: 1, at: now, schema, tables, files };
    writeFileSync(join(making, MANIFEST), JSON.stringify(manifest, null, 1), { flush: true });
    onDisk(making);
    proveBackup(making, join(making, '.proving-'));
    renameSync(making, path);
    onDisk(to);
    return { path, at: now, manifest };
  } catch (error) {
    rmSync(making, { recursive: true, force: true });
    if (error instanceof BackupError) throw error;
    const why = error instanceof Error ? error.message : String(error);
    throw new BackupError(`${to}: no backup was made (${why})`, { cause: error });
  }
}

/** What a backup that was cut off was making is a whole shop: it is no backup, and nothing else would ever remove it. */
function removeCutOff(to: string, own: string): void {
  // By the disk's own clock, whatever this computer's was set to meanwhile; another process may be making one just now.
  const { mtimeMs: begun } = statSync(own);
  for (const name of readdirSync(to)) {
    const path = join(to, name);
    if (!name.startsWith(MAKING) || path === own) continue;
    // One that another process has just finished is no longer there.
    const made = statSync(path, { throwIfNoEntry: false });
    if (made === undefined || begun - made.mtimeMs < CUT_OFF_AFTER_MS) continue;
    rmSync(path, { recursive: true, force: true });
  }
}

/** Copies a store in one step, with what its tables held at that very moment. */
export async function copyStore(from: string, to: string): Promise<Pick<Manifest, 'tables' | 'schema'>> {
  const file = new SqliteDatabase(from, { readonly: true, fileMustExist: true });
  try {
    // Holds the moment: the copy and the digests are of the same one.
    file.exec('BEGIN');
    const schema = newestMigration(file);
    const tables = { ...contentsOf(file) };
    await file.backup(to, { progress: () => ALL_PAGES });
    file.exec('COMMIT');
    onDisk(to);
    return { tables, schema };
  } finally {
    file.close();
  }
}

function newestMigration(file: SqliteDatabase.Database): string {
  const row = file.prepare('SELECT max(name) AS name FROM kysely_migration').get() as { readonly name: string | null };
  return row.name ?? '';
}
