/** Collections within so long of each other are counted as one first. */
const BLOCK_MS = 5 * 60_000;

/** Orders that leave within some minutes. */
export interface CollectionBlock {
  /** epoch ms: none leaves before it */
  readonly from: number;
  /** epoch ms: all leave before it */
  readonly until: number;
  readonly orders: number;
  /** how many leave with each collection, by its time in epoch ms */
  readonly collections: ReadonlyMap<number, number>;
}

interface Counted {
  orders: number;
  readonly collections: Map<number, number>;
}

/**
 * How many waiting orders leave with each collection. Of thousands each may have a time of its own, so they are kept by some
 * minutes, and what is asked of many together need not look at each.
 */
export class Collections {
  readonly #blocks: Map<number, Counted>;

  constructor(blocks: ReadonlyMap<number, Counted> = new Map<number, Counted>()) {
    this.#blocks = new Map(blocks);
  }

  /** @param at epoch ms */
  add(at: number): void {
    const number = Math.floor(at / BLOCK_MS);
    const block = this.#blocks.get(number) ?? { orders: 0, collections: new Map<number, number>() };
    this.#blocks.set(number, block);
    block.orders += 1;
    block.collections.set(at, (block.collections.get(at) ?? 0) + 1);
  }

  /** Takes one order out; nothing where none leaves then. */
  remove(at: number): void {
    const number = Math.floor(at / BLOCK_MS);
    const block = this.#blocks.get(number);
    const left = block?.collections.get(at);
    if (block === undefined || left === undefined) return;
    block.orders -= 1;
    if (left > 1) block.collections.set(at, left - 1);
    else block.collections.delete(at);
    if (block.orders === 0) this.#blocks.delete(number);
  }

  clear(): void {
    this.#blocks.clear();
  }

  /** The same without one order at each of these times; this one stays as it is. */
  without(times: readonly number[]): Collections {
    const blocks = new Map(this.#blocks);
    for (const number of new Set(times.map((at) => Math.floor(at / BLOCK_MS)))) {
      const block = blocks.get(number);
      if (block !== undefined) blocks.set(number, { ...block, collections: new Map(block.collections) });
    }
    const left = new Collections(blocks);
    for (const at of times) left.remove(at);
    return left;
  }

  /** The soonest first. */
  inTurn(): readonly CollectionBlock[] {
    return [...this.#blocks]
      .sort(([a], [b]) => a - b)
      .map(([number, { orders, collections }]) => ({
        from: number * BLOCK_MS,
        until: (number + 1) * BLOCK_MS,
        orders,
        collections,
      }));
  }
}
