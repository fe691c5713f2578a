import { fdatasync, closeSync, openSync } from 'node:fs';
import { promisify } from 'node:util';
import { StoreError } from './store-error.ts';

const synchronise = promisify(fdatasync);

/**
 * Puts what was written into a file onto the disk while the thread that asks goes on: a disk takes milliseconds, now and then
 * a tenth of a second. Where it refuses once, nobody knows any more what is on it: from then on it is never said to be.
 */
export class OnDisk {
  readonly #sync: () => Promise<void>;
  readonly #close: () => void;
  #running: Promise<void> | null = null;
  #next: Promise<void> | null = null;
  #lost: StoreError | null = null;
  #onLost: (error: StoreError) => void = () => undefined;

  constructor(sync: () => Promise<void>, close: () => void = () => undefined) {
    this.#sync = sync;
    this.#close = close;
  }

  /** @param path of a file that is there by the time that is first asked, and stays the same one */
  static ofFile(path: string): OnDisk {
    let file: number | null = null;
    return new OnDisk(
      // Windows puts only what may be written onto the disk.
      async () => synchronise((file ??= openSync(path, 'r+'))),
      () => {
        if (file !== null) closeSync(file);
      },
    );
  }

  /** Hears once that the disk has refused. */
  onLost(heard: (error: StoreError) => void): void {
    this.#onLost = heard;
  }

  /** @throws StoreError not-kept once the disk has refused */
  check(): void {
    if (this.#lost !== null) throw this.#lost;
  }

  /**
   * Resolves once all that was written until now is on the disk.
   * @throws StoreError not-kept
   */
  written(): Promise<void> {
    // One that is under way may have begun before the last was written.
    this.#next ??= (this.#running ?? Promise.resolve()).then(() => {
      this.#next = null;
      this.#running = this.#once();
      return this.#running;
    });
    return this.#next;
  }

  async #once(): Promise<void> {
    this.check();
    try {
      await this.#sync();
    } catch (error) {
      const why = error instanceof Error ? error.message : String(error);
      this.#lost = new StoreError('not-kept', `the disk did not keep what was written into the store (${why})`, error);
      this.#onLost(this.#lost);
      throw this.#lost;
    } finally {
      this.#running = null;
    }
  }

  /** Once nothing is asked any more. */
  close(): void {
    this.#close();
  }
}
