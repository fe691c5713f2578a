import { parentPort, workerData } from 'node:worker_threads';
import SqliteDatabase from 'better-sqlite3';

/** `pass`: what stands in the log goes into the file, beside whoever writes. */
export type CheckpointAsked = 'pass' | 'end';

/** How many pages stand in the log since it was begun anew. */
export type CheckpointAnswer = { readonly pages: number } | { readonly failed: string };

/** A thread of its own: the disk has to take the file's pages, too, and the loop would be held up for that every second. */
const file = new SqliteDatabase(workerData as string, { fileMustExist: true });
file.pragma('synchronous = NORMAL');

function pass(): CheckpointAnswer {
  try {
    const [log] = file.pragma('wal_checkpoint(passive)') as { readonly log: number }[];
    return { pages: log?.log ?? 0 };
  } catch (error) {
    return { failed: error instanceof Error ? error.message : String(error) };
  }
}

parentPort?.on('message', (asked: CheckpointAsked) => {
  if (asked === 'pass') parentPort?.postMessage(pass());
  else {
    file.close();
    parentPort?.close();
  }
});
