import type { Logger } from 'pino';
import type { OrderQueue } from './order-queue.ts';
import { storeChanges } from '#server/store/day.ts';
import type { Store } from '#server/store/open.ts';

export interface QueueWatchParts {
  readonly store: Store;
  readonly queue: OrderQueue;
  readonly stations: ReadonlyMap<string, { refresh(): Promise<void> }>;
  /** while a file is stored, every order of it would have the whole queue read again */
  readonly imports: { readonly any: boolean };
  readonly log: Logger;
}

const LOOK_EVERY_MS = 1000;
/** A server that starts has other things to do first. */
const FIRST_PLANS_AFTER_MS = 2500;
/** Time alone brings a collection nearer. */
const AT_LEAST_EVERY_MS = 15_000;

/** Has waiting orders planned ahead, and shows every bench what another one, the office or the clock has changed. */
export class QueueWatch {
  readonly #parts: QueueWatchParts;
  readonly #timer: NodeJS.Timeout;
  readonly #startedAt = performance.now();
  #seen = '';
  #lookedAt = 0;
  #busy: Promise<void> | null = null;
  #stopped = false;

  constructor(parts: QueueWatchParts) {
    this.#parts = parts;
    this.#timer = setInterval(() => {
      this.#busy ??= this.#look()
        .catch((error: unknown) => {
          if (!this.#stopped) parts.log.error({ error }, 'the queue could not be looked at');
        })
        .finally(() => (this.#busy = null));
    }, LOOK_EVERY_MS);
    this.#timer.unref();
  }

  async stop(): Promise<void> {
    this.#stopped = true;
    clearInterval(this.#timer);
    await this.#parts.queue.plans.stop();
    await this.#busy;
  }

  async #look(): Promise<void> {
    const { store, queue, imports } = this.#parts;
    if (imports.any) return;
    const changes = await storeChanges(store);
    const now = performance.now();
    if (now - this.#startedAt < FIRST_PLANS_AFTER_MS) return;
    if (changes === this.#seen && now - this.#lookedAt < AT_LEAST_EVERY_MS) return;
    this.#seen = changes;
    this.#lookedAt = now;
    this.#planAhead(await queue.waiting(store, null));
    await this.#refresh();
  }

  /** Goes on by itself: the queue is shown meanwhile. */
  #planAhead(waiting: Awaited<ReturnType<OrderQueue['waiting']>>): void {
    const { store, queue, log } = this.#parts;
    queue.plans
      .catchUp(store, waiting)
      .then((changed) => (changed ? this.#refresh() : undefined))
      .catch((error: unknown) => {
        if (!this.#stopped) log.error({ error }, 'waiting orders could not be planned ahead');
      });
  }

  async #refresh(): Promise<void> {
    for (const station of this.#parts.stations.values()) {
      if (this.#stopped) return;
      await station.refresh();
    }
  }
}
