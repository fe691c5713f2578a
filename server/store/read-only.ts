import { join } from 'node:path';
import SqliteDatabase from 'better-sqlite3';
import { StoreError } from './store-error.ts';

/**
 * Reads from a data folder's store without writing anything, also while a server runs on it.
 * @throws StoreError cannot-open when there is no store, or none that holds what is asked for
 */
export function readStore<Read>(folder: string, read: (file: SqliteDatabase.Database) => Read): Read {
  let file: SqliteDatabase.Database | null = null;
  try {
    file = new SqliteDatabase(join(folder, 'benchfold.db'), { readonly: true, fileMustExist: true });
    return read(file);
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    throw new StoreError(
      'cannot-open',
      `data folder ${folder}: expected a shop's store in benchfold.db (${why})`,
      error,
    );
  } finally {
    file?.close();
  }
}
