import type { Store } from '#server/store/open.ts';
import { correctionsOf } from '#server/store/corrections.ts';
import { referenceChecks } from '#server/store/reference-checks.ts';
import type { WeighFacts } from '#shared/run/types.ts';
import type { BenchConfig } from '#shared/shop/shop.ts';
import { massFromBase, type Mass } from '#shared/units/mass.ts';
import { biasShare, learnBias, type LearnedBias } from '#shared/weighing/bias.ts';

/** What trials with a known mass and the carrier's corrections say of one bench's scale. */
export class WeighingTrust {
  readonly #bench: BenchConfig;
  readonly #store: Store;
  #reference: Mass | null = null;
  #learned: LearnedBias | null = null;

  constructor(bench: BenchConfig, store: Store) {
    this.#bench = bench;
    this.#store = store;
  }

  /** Reads both again: at the start, and after a trial or an import. */
  async load(): Promise<void> {
    const [newest] = await referenceChecks(this.#store, this.#bench.id, 1);
    this.#reference = newest === undefined ? null : massFromBase(Math.abs(newest.deviation) + newest.plusMinus);
    this.#learned = learnBias(await correctionsOf(this.#store, this.#bench.id));
  }

  learned(): LearnedBias | null {
    return this.#learned;
  }

  /** @param zeroDrift what an empty pan showed last, by its size */
  facts(zeroDrift: Mass): WeighFacts {
    const { accuracy, drift, division } = this.#bench.scale;
    return {
      accuracy,
      division,
      drift: zeroDrift > drift ? zeroDrift : drift,
      learned: biasShare(this.#learned),
      ...(this.#reference === null ? {} : { reference: this.#reference }),
    };
  }
}
