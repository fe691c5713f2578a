import type { Clock } from '#server/clock.ts';
import { inSharedCommit } from '#server/store/in-transaction.ts';
import type { Store } from '#server/store/open.ts';
import { interruptedPrintJobs, markPrintJob, nextPrintJob, type PrintJob } from '#server/store/print-jobs.ts';

export type PrintOutcome = 'printed' | 'failed' | 'unknown';

export interface PrintQueueParts {
  readonly store: Store;
  readonly bench: string;
  readonly clock: Clock;
  readonly print: (bytes: Uint8Array) => Promise<{ readonly outcome: PrintOutcome; readonly why: string }>;
  readonly onOutcome: (job: PrintJob, outcome: PrintOutcome) => Promise<void>;
  readonly onError: (error: unknown) => void;
}

const RETRY_MS = 3000;

/**
 * Prints what the store has queued for a bench, in order. A job that certainly did not print stays queued and is tried
 * again; one of which nobody knows is never printed again by itself.
 */
export class PrintQueue {
  readonly #parts: PrintQueueParts;
  #running = false;
  /** something was queued while the last of what was known was printed */
  #kicked = false;
  #stopped = false;
  #again: NodeJS.Timeout | null = null;
  /** jobs whose failure was told already, so that a printer that is off is not told of every three seconds */
  readonly #toldFailed = new Set<number>();

  constructor(parts: PrintQueueParts) {
    this.#parts = parts;
  }

  /** Jobs that a stopped server left on their way: their outcome is unknown. */
  async recover(): Promise<void> {
    const { store, bench } = this.#parts;
    for (const job of await interruptedPrintJobs(store, bench)) {
      await this.#mark(job, 'unknown', 'the server stopped while it was printing');
      await this.#parts.onOutcome(job, 'unknown');
    }
  }

  /** Something was queued, or the printer may be back. */
  kick(): void {
    this.#kicked = true;
    if (this.#running || this.#stopped) return;
    this.#running = true;
    if (this.#again !== null) clearTimeout(this.#again);
    this.#again = null;
    this.#work()
      .catch((error: unknown) => this.#parts.onError(error))
      .finally(() => {
        this.#running = false;
        if (this.#kicked && this.#again === null) this.kick();
      });
  }

  stop(): void {
    this.#stopped = true;
    if (this.#again !== null) clearTimeout(this.#again);
  }

  async #work(): Promise<void> {
    const { store, bench, print, onOutcome } = this.#parts;
    for (;;) {
      this.#kicked = false;
      const job = await nextPrintJob(store, bench);
      if (job === null || this.#stopped) return;
      await this.#mark(job, 'sending', '');
      const { outcome, why } = await print(job.bytes);
      if (outcome === 'failed') {
        await this.#mark(job, 'queued', why);
        if (!this.#toldFailed.has(job.id)) await onOutcome(job, outcome);
        this.#toldFailed.add(job.id);
        this.#retryLater();
        return;
      }
      this.#toldFailed.delete(job.id);
      await this.#mark(job, outcome, why);
      await onOutcome(job, outcome);
    }
  }

  #retryLater(): void {
    if (this.#stopped) return;
    this.#again = setTimeout(() => this.kick(), RETRY_MS);
  }

  #mark(job: PrintJob, state: PrintOutcome | 'sending' | 'queued', why: string): Promise<void> {
    const { store, clock } = this.#parts;
    return inSharedCommit(store, (transaction) => markPrintJob(transaction, job.id, { state, why, now: clock.now() }));
  }
}
