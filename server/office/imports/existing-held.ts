import type { Records } from '#server/office/import-store.ts';
import type { StoredOrder } from './orders.ts';
import type { ExistingInStore } from './existing-in-store.ts';
import type { Existing, KnownCodes, NamedInFile } from './outcome.ts';
import type { Piece } from '#shared/garments/types.ts';

/** What the store has, and what files that are to be stored before this one will have put there. */
export class ExistingHeld implements Existing {
  readonly pieces: Existing['pieces'];
  readonly orders: Map<string, StoredOrder>;
  readonly known: KnownCodes;
  readonly #stored: ExistingInStore;
  readonly #held: readonly Records[];

  constructor(stored: ExistingInStore, held: readonly Records[]) {
    this.#stored = stored;
    this.#held = held;
    const pieces = new Map<string, Piece>();
    const orders = new Set<string>();
    for (const each of held) {
      if (each.subject === 'pieces') for (const piece of each.records) pieces.set(piece.sku, piece);
      else for (const order of each.records) orders.add(order.id);
    }
    this.orders = stored.orders;
    this.pieces = {
      has: (sku) => pieces.has(sku) || stored.pieces.has(sku),
      get: (sku) => pieces.get(sku) ?? stored.pieces.get(sku),
    };
    this.known = {
      isSku: (code) => pieces.has(code) || stored.known.isSku(code),
      isOrder: (code) => orders.has(code) || stored.known.isOrder(code),
    };
  }

  async lookUp(named: NamedInFile): Promise<void> {
    await this.#stored.lookUp(named);
    for (const each of this.#held) {
      if (each.subject !== 'orders') continue;
      for (const order of each.records) {
        this.orders.set(order.id, { order, state: this.orders.get(order.id)?.state ?? 'open' });
      }
    }
  }
}
