import { setImmediate } from 'node:timers/promises';
import { PlansAhead } from './plans-ahead.ts';
import type { Clock } from '#server/clock.ts';
import { Deadlines } from '#server/office/day-board/deadlines.ts';
import type { Planner } from '#server/planning/planner.ts';
import { foldedAheadAll } from '#server/store/folded-ahead.ts';
import { lastPacked } from '#server/store/last-packed.ts';
import type { StoreOrTransaction } from '#server/store/open.ts';
import { findQueued, openVersions, type QueuedRow } from '#server/store/orders.ts';
import { findPieces, pieceChanges } from '#server/store/pieces.ts';
import type { Order } from '#shared/planning/types.ts';
import { firstInTurn, type BenchBefore, type WaitingOrder } from '#shared/queue/choice.ts';
import type { Shop } from '#shared/shop/shop.ts';

/** An order in the queue, with who collects it. */
export interface Queued extends WaitingOrder {
  readonly order: Order;
  readonly version: number;
  /** by id */
  readonly carriers: readonly string[];
  /** of how many parcels its plan is; null while that is not known */
  readonly parcels: number | null;
}

/** So many are some milliseconds. */
const ENTRIES_AT_ONCE = 500;

type Entry = Omit<Queued, 'container' | 'parcels'>;

export interface OrderQueueParts {
  readonly shop: () => Shop;
  readonly clock: Clock;
  readonly planner: Pick<Planner, 'containers'>;
}

/**
 * The one queue of all benches. What it knows of the waiting orders is kept and compared with the store at each use, so
 * that a claim, an import or a release anywhere is seen at once; the containers come from plans that are made ahead.
 */
export class OrderQueue {
  readonly #parts: OrderQueueParts;
  readonly plans: PlansAhead;
  readonly #entries = new Map<string, Entry>();
  #deadlines: Deadlines;
  #shop: Shop;
  #pieces = -1;

  constructor(parts: OrderQueueParts) {
    this.#parts = parts;
    this.#shop = parts.shop();
    this.#deadlines = new Deadlines(this.#shop);
    this.plans = new PlansAhead(parts);
  }

  /** All that waits and that this bench may take: what another bench is folding ahead is not among it. */
  async waiting(store: StoreOrTransaction, bench: string | null): Promise<readonly Queued[]> {
    await this.#follow(store);
    const folding = new Set(
      (await foldedAheadAll(store)).flatMap((each) =>
        each.state === 'folding' && each.bench !== bench ? [each.order] : [],
      ),
    );
    return [...this.#entries.values()].flatMap((entry) =>
      folding.has(entry.id) ? [] : [{ ...entry, ...this.plans.of(entry.id, entry.version) }],
    );
  }

  /** The first orders of a bench's queue, in their turn. */
  async next(
    store: StoreOrTransaction,
    bench: string,
    most: number,
  ): Promise<{ readonly orders: readonly Queued[]; readonly before: BenchBefore }> {
    const before = await lastPacked(store, bench);
    return { orders: firstInTurn(await this.waiting(store, bench), before, most), before };
  }

  /** Brings what is known up to what is stored. */
  async #follow(store: StoreOrTransaction): Promise<void> {
    const shop = this.#parts.shop();
    const pieces = await pieceChanges(store);
    if (shop !== this.#shop || pieces !== this.#pieces) {
      this.#entries.clear();
      this.#shop = shop;
      this.#pieces = pieces;
      this.#deadlines = new Deadlines(shop);
    }
    const open = await openVersions(store);
    for (const id of this.#entries.keys()) if (!open.has(id)) this.#entries.delete(id);
    const unknown = [...open].flatMap(([id, version]) => (this.#entries.get(id)?.version === version ? [] : [id]));
    if (unknown.length > 0) await this.#read(store, unknown);
  }

  async #read(store: StoreOrTransaction, ids: readonly string[]): Promise<void> {
    const rows = await findQueued(store, ids);
    const skus = rows.flatMap(({ order }) => order.pieces.slice(0, 1).map(({ sku }) => sku));
    const pieces = await findPieces(store, [...new Set(skus)]);
    for (const [index, row] of rows.entries()) {
      if (index % ENTRIES_AT_ONCE === ENTRIES_AT_ONCE - 1) await setImmediate();
      const shelf = pieces.get(row.order.pieces[0]?.sku ?? '')?.place ?? null;
      this.#entries.set(row.order.id, this.#entry(row, shelf));
    }
  }

  #entry({ order, version, cameAt }: QueuedRow, shelf: string | null): Entry {
    const { at, carriers } = this.#deadlines.of(order);
    return { id: order.id, order, version, collection: Date.parse(at), carriers, shelf, cameAt };
  }
}
