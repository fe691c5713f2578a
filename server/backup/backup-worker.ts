import { parentPort, workerData } from 'node:worker_threads';
import { backUp, type BackUp } from './back-up.ts';
import { BackupError } from './manifest.ts';

/** What a thread that backed up came to. */
export type BackupAnswer = { readonly made: string } | { readonly failed: string };

/** A thread of its own: reading every table for its digest would hold up the loop that serves benches. */
backUp(workerData as BackUp).then(
  ({ path }) => parentPort?.postMessage({ made: path } satisfies BackupAnswer),
  (error: unknown) => {
    const why = error instanceof BackupError ? error.message : error instanceof Error ? error.stack : undefined;
    parentPort?.postMessage({ failed: why ?? String(error) } satisfies BackupAnswer);
  },
);
