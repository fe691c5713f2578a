import { cpSync, mkdtempSync, rmSync } from 'node:fs';
import { dirname, join } from 'node:path';
import SqliteDatabase from 'better-sqlite3';
import { contentsOf, differences } from './contents.ts';
import { filesDiffer } from './files.ts';
import { BackupError, readManifest, STORE_FILE, type Manifest } from './manifest.ts';
import { makeFolder } from '#server/make-folder.ts';

/**
 * Restores a backup's store into a scratch folder and compares it with the list: the file is whole, every reference leads
 * somewhere, every table has its rows. The other files are compared where they lie.
 * @param scratchAs how the path of the scratch folder begins: on a disk that has room for a store, which that of the system's
 * temporary files may not have; whoever names it removes what a stop in the middle leaves there
 * @throws BackupError with everything that is not as it was
 */
export function proveBackup(folder: string, scratchAs: string): Manifest {
  const manifest = readManifest(folder);
  makeFolder(dirname(scratchAs));
  const scratch = mkdtempSync(scratchAs);
  try {
    cpSync(join(folder, STORE_FILE), join(scratch, STORE_FILE));
    const wrong = [...storeDiffers(join(scratch, STORE_FILE), manifest), ...filesDiffer(folder, manifest)];
    if (wrong.length > 0) throw new BackupError(`${folder}: this backup is not whole (${wrong.join('; ')})`);
    return manifest;
  } finally {
    rmSync(scratch, { recursive: true, force: true });
  }
}

function storeDiffers(path: string, { tables }: Manifest): readonly string[] {
  let file: SqliteDatabase.Database | null = null;
  try {
    file = new SqliteDatabase(path, { fileMustExist: true });
    const said = (file.pragma('integrity_check') as readonly { integrity_check: string }[]).map(
      ({ integrity_check }) => integrity_check,
    );
    const foreign = (file.pragma('foreign_key_check') as readonly unknown[]).map((row) => JSON.stringify(row));
    return [
      ...said.filter((line) => line !== 'ok'),
      ...foreign.map((row) => `a reference leads nowhere: ${row}`),
      ...differences(tables, contentsOf(file)),
    ];
  } catch (error) {
    return [`${STORE_FILE}: ${error instanceof Error ? error.message : String(error)}`];
  } finally {
    file?.close();
  }
}
