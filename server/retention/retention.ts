import type { Logger } from 'pino';
import { decideSweep } from './sweep-decision.ts';
import type { Clock } from '#server/clock.ts';
import type { Store } from '#server/store/open.ts';
import { saveSweepMemory, sweepMemory } from '#server/store/sweeps.ts';

/** Something that is kept for a time: removes what has been, and answers how much that was. */
export interface KeptForATime {
  readonly what: string;
  /** inputs wait for seconds while it is removed: done while no bench has an order in hand, if such a moment comes */
  readonly holdsUpInputs?: boolean;
  readonly remove: (now: number) => Promise<number>;
}

interface Parts {
  readonly store: Store;
  readonly clock: Clock;
  readonly log: Logger;
  readonly kept: readonly KeptForATime[];
  /** some bench has an order in hand */
  readonly isPacking: () => boolean;
}

const LOOK_EVERY_MS = 3_600_000;
/** What waits for a moment at which nobody packs. */
const LOOK_AGAIN_MS = 60_000;
/** Some shop packs day and night, and at some bench an order is forgotten. */
const LONGEST_WAIT_MS = 12 * 3_600_000;

/** Removes what has been kept its time: at the start and once a day, unless the clock has jumped. */
export class Retention {
  readonly #parts: Parts;
  #timer: ReturnType<typeof setInterval> | undefined;
  #sweeping: Promise<void> = Promise.resolve();
  #again: NodeJS.Timeout | undefined;
  /** since when it waits, by the clock */
  readonly #postponed = new Map<string, number>();

  constructor(parts: Parts) {
    this.#parts = parts;
  }

  start(): void {
    this.#timer = setInterval(() => void this.look(), LOOK_EVERY_MS);
    this.#timer.unref();
    void this.look();
  }

  /** Looks whether something is due; one look after the other. */
  look(): Promise<void> {
    this.#sweeping = this.#sweeping.then(async () => {
      for (const kept of this.#parts.kept) await this.#sweep(kept);
    });
    return this.#sweeping;
  }

  async stop(): Promise<void> {
    clearInterval(this.#timer);
    clearTimeout(this.#again);
    await this.#sweeping;
  }

  #waitsForRest({ what, holdsUpInputs = false }: KeptForATime, now: number): boolean {
    const since = this.#postponed.get(what) ?? now;
    if (!holdsUpInputs || !this.#parts.isPacking() || Math.abs(now - since) >= LONGEST_WAIT_MS) {
      this.#postponed.delete(what);
      return false;
    }
    this.#postponed.set(what, since);
    clearTimeout(this.#again);
    this.#again = setTimeout(() => void this.look(), LOOK_AGAIN_MS);
    this.#again.unref();
    return true;
  }

  async #sweep(kept: KeptForATime): Promise<void> {
    const { what, remove } = kept;
    const { store, clock, log } = this.#parts;
    try {
      const now = clock.now();
      const decision = decideSweep(await sweepMemory(store, what), now);
      if (decision.do === 'rest') return;
      if (decision.do === 'hold') log.warn({ what }, 'nothing is removed before the clock has gone on for a day');
      else if (this.#waitsForRest(kept, now)) return;
      else {
        const removed = await remove(now);
        if (removed > 0) log.info({ what, removed }, 'kept their time and were removed');
      }
      await saveSweepMemory(store, what, decision.memory);
    } catch (error) {
      log.error({ error, what }, 'what was kept its time could not be removed');
    }
  }
}
