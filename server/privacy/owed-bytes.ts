import type { Logger } from 'pino';
import { forgetPurged, resumePurges, type PurgeParts } from './purge.ts';
import type { Clock } from '#server/clock.ts';
import { openPurges } from '#server/store/purges.ts';

export interface OwedBytesParts extends Omit<PurgeParts, 'now' | 'between' | 'isPacking' | 'watchedFolder'> {
  readonly watchedFolder?: () => string;
  readonly isPacking: () => boolean;
  readonly clock: Clock;
  readonly log: Logger;
}

const LOOK_EVERY_MS = 60_000;
/** Some shop packs day and night, and at some bench an order is forgotten. */
const LONGEST_WAIT_MS = 12 * 3_600_000;

/** Ends what was begun of taking somebody's data out: rows after a server that stopped, bytes once nobody packs. */
export class OwedBytes {
  readonly #parts: OwedBytesParts;
  #timer: NodeJS.Timeout | undefined;
  #looking: Promise<void> = Promise.resolve();

  constructor(parts: OwedBytesParts) {
    this.#parts = parts;
  }

  /** Before benches are served. @throws when the store fails */
  async resume(): Promise<void> {
    const { log, clock, watchedFolder, ...parts } = this.#parts;
    const folder = watchedFolder === undefined ? {} : { watchedFolder: watchedFolder() };
    const resumed = await resumePurges({ ...parts, ...folder, now: clock.now() }, (error) =>
      log.error({ error }, 'a file that names a buyer who is taken out could not be removed'),
    );
    if (resumed > 0) log.warn({ resumed }, 'data that were being taken out when a server stopped were taken out');
  }

  start(): void {
    this.#timer = setInterval(() => void this.look(), LOOK_EVERY_MS);
    this.#timer.unref();
  }

  look(): Promise<void> {
    this.#looking = this.#looking.then(async () => {
      const { store, isPacking, clock, log } = this.#parts;
      try {
        const [oldest] = (await openPurges(store)).filter(({ identity }) => identity === null);
        if (oldest === undefined) return;
        if (isPacking() && Math.abs(clock.now() - oldest.at) < LONGEST_WAIT_MS) return;
        await forgetPurged(store);
      } catch (error) {
        log.error({ error }, 'the store could not be written anew after data were taken out');
      }
    });
    return this.#looking;
  }

  async stop(): Promise<void> {
    clearInterval(this.#timer);
    await this.#looking;
  }
}
