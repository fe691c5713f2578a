import { sql } from 'kysely';
import { turnsOf } from './commit-group.ts';
import type { Store } from './open.ts';
import type { WrittenAnew } from './write-anew-worker.ts';
import { startThread } from '#server/start-thread.ts';

/**
 * Writes the store anew, so that no byte of what was deleted or overwritten is left in its file or log: also of what was
 * overwritten long before. Whoever wants to write waits meanwhile; views are made and scales are read.
 * @throws when it could not be written, as on a full disk: it is as it was
 */
export async function writeAnew(store: Store): Promise<void> {
  const turns = turnsOf(store);
  if (turns === null) {
    await sql`vacuum full`.execute(store);
    return;
  }
  await turns.alone(inThread);
}

function inThread(path: string): Promise<void> {
  const thread = startThread(new URL('./write-anew-worker.ts', import.meta.url), path);
  return new Promise((done, failed) => {
    thread.once('message', (answer: WrittenAnew) => ('done' in answer ? done() : failed(new Error(answer.failed))));
    thread.once('error', failed);
    thread.once('exit', () => failed(new Error('the thread that writes the store anew ended')));
  });
}
