import type { OrderQueueParts } from './order-queue.ts';
import type { Queued } from './waiting-orders.ts';
import { calendarDay } from '#server/calendar.ts';
import { TooLongError } from '#server/planning/planner.ts';
import { emptyContainers } from '#server/office/supplies/empty-containers.ts';
import { allBeliefs } from '#server/store/learning.ts';
import type { Store } from '#server/store/open.ts';
import { findPieces, pieceChanges } from '#server/store/pieces.ts';
import type { Shop } from '#shared/shop/shop.ts';

/** What is kept of a plan that was made before its order's turn. */
export interface PlannedAhead {
  readonly container: string | null;
  readonly parcels: number | null;
}

const UNKNOWN: PlannedAhead = { container: null, parcels: null };

/** What a plan was made from: another shop, day, shelf or piece makes another plan. What was learned since does not hurry. */
interface Basis {
  readonly shop: Shop;
  readonly key: string;
}

/**
 * Plans of waiting orders, made in the background one after the other, so that an order that is claimed meanwhile waits for
 * one of them at most. They tell what goes into the same container; the plan that is packed is made when the order is taken.
 */
export class PlansAhead {
  readonly #parts: OrderQueueParts;
  readonly #onMade: (order: string, version: number, plan: PlannedAhead) => void;
  readonly #made = new Map<string, PlannedAhead & { readonly version: number; readonly basis: Basis }>();
  #basis: Basis;
  #running: Promise<boolean> | null = null;
  /** what waits by now, for which was asked while plans were made */
  #newer: readonly Queued[] | null = null;
  #stopped = false;

  /** @param onMade hears each plan that became another */
  constructor(parts: OrderQueueParts, onMade: (order: string, version: number, plan: PlannedAhead) => void) {
    this.#parts = parts;
    this.#onMade = onMade;
    this.#basis = { shop: parts.shop(), key: '' };
  }

  of(order: string, version: number): PlannedAhead {
    const made = this.#made.get(order);
    return made?.version === version ? { container: made.container, parcels: made.parcels } : UNKNOWN;
  }

  /**
   * Plans what has no plan or an outdated one, the most urgent first, and then what came or changed meanwhile if that was asked
   * for. True when some plan became another.
   * @throws when the store fails or planning breaks down
   */
  catchUp(store: Store, waiting: readonly Queued[]): Promise<boolean> {
    if (this.#running !== null) this.#newer = waiting;
    this.#running ??= this.#untilNothingIsNewer(store, waiting).finally(() => (this.#running = null));
    return this.#running;
  }

  async #untilNothingIsNewer(store: Store, waiting: readonly Queued[]): Promise<boolean> {
    let changed = false;
    for (let next: readonly Queued[] | null = waiting; next !== null && !this.#stopped; next = this.#newer) {
      this.#newer = null;
      if (await this.#catchUp(store, next)) changed = true;
    }
    return changed;
  }

  async stop(): Promise<void> {
    this.#stopped = true;
    await this.#running?.catch(() => undefined);
  }

  async #catchUp(store: Store, waiting: readonly Queued[]): Promise<boolean> {
    const { shop: shopNow, clock, planner } = this.#parts;
    const shop = shopNow();
    const day = calendarDay(clock.now(), shop.timeZone);
    const outOfStock = await emptyContainers(store, shop, null);
    const key = JSON.stringify([day, outOfStock, await pieceChanges(store)]);
    if (key !== this.#basis.key || shop !== this.#basis.shop) this.#basis = { shop, key };
    const basis = this.#basis;
    const still = new Set(waiting.map(({ id }) => id));
    for (const id of this.#made.keys()) if (!still.has(id)) this.#made.delete(id);
    const due = waiting
      .filter(({ id, version }) => {
        const made = this.#made.get(id);
        return made?.version !== version || made.basis !== basis;
      })
      .sort((a, b) => a.collection - b.collection);
    if (due.length === 0) return false;
    const beliefs = await allBeliefs(store);
    let changed = false;
    for (const { order, version } of due) {
      if (this.#stopped || shopNow() !== shop) break;
      const pieces = await findPieces(
        store,
        order.pieces.map(({ sku }) => sku),
      );
      const job = { order, pieces: [...pieces.values()], day, without: [], beliefs, outOfStock };
      const containers = await planner.containers(job).catch((error: unknown) => {
        // The others are not to wait for one that nobody can plan.
        if (error instanceof TooLongError) return null;
        throw error;
      });
      const made = { container: containers?.[0] ?? null, parcels: containers?.length ?? null };
      changed ||= this.of(order.id, version).container !== made.container;
      this.#made.set(order.id, { ...made, version, basis });
      this.#onMade(order.id, version, made);
    }
    return changed;
  }
}
