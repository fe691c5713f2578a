import SqliteDatabase from 'better-sqlite3';
import type { Change } from '#shared/audit/changes.ts';

const BUSY_MS = 5000;

/**
 * Keeps a change in the store of a file as it is, whatever its schema: opening it would bring it up to date, and what was
 * backed up or restored for an older version must stay one of that. A store from before the record keeps none.
 */
export function recordInFile(file: string, { what, about, who, from, details = {} }: Change, now: number): void {
  const store = new SqliteDatabase(file, { fileMustExist: true, timeout: BUSY_MS });
  try {
    const table = store.prepare("select 1 from sqlite_master where type = 'table' and name = 'change_record'").get();
    if (table === undefined) return;
    store
      .prepare('insert into change_record (at, what, about, who, place, details) values (?, ?, ?, ?, ?, ?)')
      .run(now, what, about, who, from, JSON.stringify(details));
  } finally {
    store.close();
  }
}
