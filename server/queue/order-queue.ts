import { PlansAhead } from './plans-ahead.ts';
import { WaitingOrders, type Queued } from './waiting-orders.ts';
import type { Clock } from '#server/clock.ts';
import type { Planner } from '#server/planning/planner.ts';
import { foldedAheadAll, type FoldedAhead } from '#server/store/folded-ahead.ts';
import { lastPacked } from '#server/store/last-packed.ts';
import type { StoreOrTransaction } from '#server/store/open.ts';
import { touchesOf } from '#server/store/touches.ts';
import type { Collections } from '#shared/day-board/collections.ts';
import { firstInTurn, type BenchBefore } from '#shared/queue/choice.ts';
import type { Shop } from '#shared/shop/shop.ts';

export interface OrderQueueParts {
  readonly shop: () => Shop;
  readonly clock: Clock;
  readonly planner: Pick<Planner, 'containers'>;
}

/**
 * The one queue of all benches. What it knows of the waiting orders is brought up to the store at each use, so that a claim,
 * an import or a release anywhere is seen at once; the containers come from plans that are made ahead.
 */
export class OrderQueue {
  readonly plans: PlansAhead;
  readonly #waiting: WaitingOrders;
  #folded: { readonly key: string; readonly all: readonly FoldedAhead[] } | null = null;

  constructor(parts: OrderQueueParts) {
    this.plans = new PlansAhead(parts, (id, version, plan) => this.#waiting.planned(id, version, plan));
    this.#waiting = new WaitingOrders(parts.shop, (id, version) => this.plans.of(id, version));
  }

  /** All that waits and that this bench may take: what another bench is folding ahead is not among it. */
  async waiting(store: StoreOrTransaction, bench: string | null): Promise<readonly Queued[]> {
    await this.#waiting.follow(store);
    const folding = await this.#foldingElsewhere(store, bench);
    const all = [...this.#waiting.all.values()];
    return folding.size === 0 ? all : all.filter(({ id }) => !folding.has(id));
  }

  /** The first orders of a bench's queue, in their turn. */
  async next(
    store: StoreOrTransaction,
    bench: string,
    most: number,
  ): Promise<{ readonly orders: readonly Queued[]; readonly before: BenchBefore }> {
    const before = await lastPacked(store, bench);
    await this.#waiting.follow(store);
    const folding = await this.#foldingElsewhere(store, bench);
    const orders = firstInTurn(this.#waiting.all.values(), before, most + folding.size);
    return { orders: orders.filter(({ id }) => !folding.has(id)).slice(0, most), before };
  }

  /** How many orders wait, those that are folded ahead too; and how many that any bench may take leave with each collection. */
  async counted(
    store: StoreOrTransaction,
  ): Promise<{ readonly open: number; readonly collections: Pick<Collections, 'inTurn'> }> {
    await this.#waiting.follow(store);
    const { all, collections } = this.#waiting;
    const folding = await this.#foldingElsewhere(store, null);
    const left = [...folding].flatMap((id) => all.get(id)?.collection ?? []);
    return { open: all.size, collections: left.length === 0 ? collections : collections.without(left) };
  }

  /** By basket. */
  async foldedAhead(store: StoreOrTransaction): Promise<readonly FoldedAhead[]> {
    const key = store.isTransaction ? null : (touchesOf(store)?.of('folded_ahead') ?? null);
    if (key !== null && this.#folded?.key === key) return this.#folded.all;
    const all = await foldedAheadAll(store);
    this.#folded = key === null ? null : { key, all };
    return all;
  }

  async #foldingElsewhere(store: StoreOrTransaction, bench: string | null): Promise<ReadonlySet<string>> {
    const all = await this.foldedAhead(store);
    return new Set(all.flatMap((each) => (each.state === 'folding' && each.bench !== bench ? [each.order] : [])));
  }
}
