import { once } from 'node:events';
import type { Worker } from 'node:worker_threads';
import type SqliteDatabase from 'better-sqlite3';
import type { CheckpointAnswer, CheckpointAsked } from './checkpoint-worker.ts';
import type { CommitGroup } from './commit-group.ts';
import { startThread } from '#server/start-thread.ts';

export interface CheckpointTimes {
  readonly afterStatements: number;
  /** In pages: a log that is longer is emptied to its end while nobody writes, so that it is begun anew. */
  readonly longestLog: number;
}

/** A busy server writes so often within a second; 32 MB. */
const TIMES: CheckpointTimes = { afterStatements: 2000, longestLog: 8000 };
/** So many times the longest log a file keeps of the disk: what a busy server needs again and again is not given back. */
const KEPT_TIMES = 2;
/** SQLite's own. */
const PAGES_WITHOUT_THREAD = 1000;

/** Brings what stands in the log of a SQLite file into the file, on a thread that is there from the first time on. */
export class LogCheckpoints {
  readonly #file: SqliteDatabase.Database;
  readonly #times: CheckpointTimes;
  #statements = 0;
  #thread: Worker | null = null;
  #passing: Promise<void> | null = null;
  #stopped = false;

  /** @param file the connection that writes: its commits leave that to the thread */
  constructor(file: SqliteDatabase.Database, times = TIMES) {
    this.#file = file;
    this.#times = times;
    file.pragma('wal_autocheckpoint = 0');
    // A long import makes it far longer once: begun anew, it gives that room back to the disk.
    const pageSize = Number(file.pragma('page_size', { simple: true }));
    file.pragma(`journal_size_limit = ${String(KEPT_TIMES * times.longestLog * pageSize)}`);
  }

  /** A statement has written. */
  wrote(): void {
    this.#statements++;
  }

  /** What was written is committed. */
  committed(group: Pick<CommitGroup, 'alone'>): void {
    if (this.#statements < this.#times.afterStatements || this.#passing !== null || this.#stopped) return;
    this.#statements = 0;
    this.#passing = this.#pass(group).finally(() => (this.#passing = null));
  }

  async #pass(group: Pick<CommitGroup, 'alone'>): Promise<void> {
    try {
      const pages = await this.#ask();
      // What was written meanwhile is little.
      if (pages > this.#times.longestLog) await group.alone(() => this.#ask());
    } catch {
      // The log must not grow for ever: commits do it, as they do without a thread.
      if (!this.#stopped) this.#file.pragma(`wal_autocheckpoint = ${String(PAGES_WITHOUT_THREAD)}`);
    }
  }

  async #ask(): Promise<number> {
    this.#thread ??= startThread(new URL('./checkpoint-worker.ts', import.meta.url), this.#file.name);
    this.#thread.unref();
    this.#thread.postMessage('pass' satisfies CheckpointAsked);
    const answered = new AbortController();
    const { signal } = answered;
    try {
      const ended = once(this.#thread, 'exit', { signal }).then(() => {
        throw new Error('the thread that empties the log ended');
      });
      const [answer] = (await Promise.race([once(this.#thread, 'message', { signal }), ended])) as [CheckpointAnswer];
      if ('failed' in answer) throw new Error(answer.failed);
      return answer.pages;
    } catch (error) {
      this.#thread = null;
      throw error;
    } finally {
      answered.abort();
    }
  }

  /** Before the file is closed. */
  async stop(): Promise<void> {
    this.#stopped = true;
    // Whoever ends with the store waits for it.
    this.#thread?.ref();
    await this.#passing;
    if (this.#thread === null) return;
    const ended = once(this.#thread, 'exit');
    this.#thread.postMessage('end' satisfies CheckpointAsked);
    await ended;
  }
}
