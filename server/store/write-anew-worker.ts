import { parentPort, workerData } from 'node:worker_threads';
import SqliteDatabase from 'better-sqlite3';

/** Backups and views read for a moment, or a little longer. */
const PATIENCE_MS = 10_000;
const AGAIN_AFTER_MS = 10;

/** Rows of the full-text index, too, are only marked as gone until it is merged. */
const INDEXES = ['search_order', 'search_buyer'];

/** The thread that empties the log all day may be at it: SQLite waits for readers, and for that it does not. */
function emptyLog(file: SqliteDatabase.Database): void {
  const sleeping = new Int32Array(new SharedArrayBuffer(4));
  for (const end = performance.now() + PATIENCE_MS; ; Atomics.wait(sleeping, 0, 0, AGAIN_AFTER_MS)) {
    const [log] = file.pragma('wal_checkpoint(truncate)') as { readonly busy: number }[];
    if (log?.busy === 0) return;
    if (performance.now() > end) throw new Error('the log of the store could not be emptied: it was being read');
  }
}

function writeAnew(path: string): void {
  const file = new SqliteDatabase(path, { timeout: PATIENCE_MS, fileMustExist: true });
  try {
    file.pragma('synchronous = FULL');
    for (const index of INDEXES) file.exec(`insert into ${index}(${index}) values ('optimize')`);
    file.exec('vacuum');
    emptyLog(file);
  } finally {
    file.close();
  }
}

/** What a thread that wrote a store anew came to. */
export type WrittenAnew = { readonly done: true } | { readonly failed: string };

/** A thread of its own: writing hundreds of megabytes would hold up the loop that serves benches and scales. */
try {
  writeAnew(workerData as string);
  parentPort?.postMessage({ done: true } satisfies WrittenAnew);
} catch (error) {
  parentPort?.postMessage({ failed: error instanceof Error ? error.message : String(error) } satisfies WrittenAnew);
}
