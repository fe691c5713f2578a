import { isDeepStrictEqual } from 'node:util';
import type { Logger } from 'pino';
import type { ShopHolder } from '#server/shop-holder.ts';
import type { BenchConfig } from '#shared/shop/shop.ts';

export interface BenchChangeParts {
  /** one object for all parts of the bench: what its owner changes is changed for each of them */
  readonly bench: BenchConfig;
  readonly shops: Pick<ShopHolder, 'current'>;
  readonly log: Logger;
  /** whether nobody packs, practises or folds ahead there */
  readonly isFree: () => boolean;
  /** opens the devices anew */
  readonly reopen: () => Promise<void>;
}

/** A bench whose owner changes it in the shop's files while the server runs: taken as soon as it is free. */
export class BenchChange {
  readonly #parts: BenchChangeParts;
  /** how the bench listens, which is settled when the server starts */
  readonly #voiceAtStart: BenchConfig['voice'];
  #busy = false;

  constructor(parts: BenchChangeParts) {
    this.#parts = parts;
    this.#voiceAtStart = parts.bench.voice;
  }

  /** Null where the files no longer have this bench. */
  get #wanted(): BenchConfig | null {
    const { bench, shops } = this.#parts;
    return shops.current.benches.find(({ id }) => id === bench.id) ?? null;
  }

  /** It is to be otherwise as soon as it is free. */
  get waitsForIdle(): boolean {
    const wanted = this.#wanted;
    return wanted !== null && !isDeepStrictEqual(wanted, this.#parts.bench);
  }

  /** Something of it is to be otherwise and can only be so at the next start of the server. */
  get changesAtStart(): boolean {
    const wanted = this.#wanted;
    return wanted === null || !isDeepStrictEqual(wanted.voice, this.#voiceAtStart);
  }

  /** Takes what the files say of the bench, where it is otherwise and the bench is free. */
  async take(): Promise<void> {
    const { bench, log, isFree, reopen } = this.#parts;
    if (this.#busy) return;
    this.#busy = true;
    try {
      // It may be changed again meanwhile.
      for (let wanted = this.#wanted; wanted !== null && this.waitsForIdle && isFree(); wanted = this.#wanted) {
        for (const key of Object.keys(bench)) Reflect.deleteProperty(bench, key);
        Object.assign(bench, wanted);
        await reopen();
      }
    } catch (error) {
      log.error({ error, bench: bench.id }, 'the devices could not be opened anew');
    } finally {
      this.#busy = false;
    }
  }
}
