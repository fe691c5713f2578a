import { join } from 'node:path';
import SqliteDatabase from 'better-sqlite3';
import { StoreError } from './store-error.ts';
import { makeFolder } from '#server/make-folder.ts';

/**
 * Holds a data folder for one server: two on the same store would each believe that they alone know where a bench stands.
 * The lock is an exclusive SQLite transaction on a file of its own, so the system drops it with the process, however that
 * ends; a file with a process number in it would outlive a pulled plug.
 * @throws StoreError in-use when another server holds the folder, cannot-open when it cannot be written to
 */
export function holdFolder(folder: string): { release(): void } {
  let file: SqliteDatabase.Database | null = null;
  try {
    makeFolder(folder, 0o700);
    file = new SqliteDatabase(join(folder, 'in-use.lock'), { timeout: 0 });
    file.pragma('journal_mode = MEMORY');
    file.exec('BEGIN EXCLUSIVE');
  } catch (error) {
    file?.close();
    if (error instanceof SqliteDatabase.SqliteError && error.code.startsWith('SQLITE_BUSY')) {
      const message = `data folder ${folder}: expected no other server on it, found one running; stop that one or set BENCHFOLD_DATA`;
      throw new StoreError('in-use', message, error);
    }
    const why = error instanceof Error ? error.message : String(error);
    throw new StoreError(
      'cannot-open',
      `data folder ${folder}: expected a folder that can be written to (${why})`,
      error,
    );
  }
  const held = file;
  return { release: () => held.close() };
}
