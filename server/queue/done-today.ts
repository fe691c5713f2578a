import { finishedAfter } from '#server/store/day.ts';
import type { Store } from '#server/store/open.ts';

/** Parcels of several servers are not stored in the order of their numbers: now and then all of the day are read anew. */
const ANEW_AFTER_MS = 5000;

/** How many orders had a parcel finished today: read once, and from then on only what came to it. */
export class DoneToday {
  #since = NaN;
  #last = 0;
  #readAt = 0;
  #orders = new Set<string>();
  readonly #isShared: boolean;

  /** @param isShared others write into this store, too */
  constructor(isShared = false) {
    this.#isShared = isShared;
  }

  /** @param since the beginning of the day, epoch ms */
  async since(store: Store, since: number): Promise<number> {
    const stale = this.#isShared && performance.now() - this.#readAt > ANEW_AFTER_MS;
    if (since !== this.#since || stale) {
      this.#since = since;
      this.#last = 0;
      this.#readAt = performance.now();
      this.#orders = new Set();
    }
    const orders = this.#orders;
    for (const { parcel, order } of await finishedAfter(store, this.#last, since)) {
      orders.add(order);
      if (orders === this.#orders) this.#last = Math.max(this.#last, parcel);
    }
    return orders.size;
  }
}
