import type { BenchRunDependencies } from '#server/runs/bench-run.ts';
import { planJob } from '#server/runs/plan-for.ts';
import type { OrderQueue } from '#server/queue/order-queue.ts';
import type { Queued } from '#server/queue/waiting-orders.ts';
import { foldedAheadAll, type ToHold } from '#server/store/folded-ahead.ts';
import type { Store } from '#server/store/open.ts';
import type { PlannedPiece } from '#shared/planning/types.ts';
import { firstInTurn } from '#shared/queue/choice.ts';
import type { ContainerChoice } from '#shared/side-work/types.ts';

export interface BatchParts extends Pick<BenchRunDependencies, 'shop' | 'bench' | 'clock' | 'planner'> {
  readonly store: Store;
  readonly queue: OrderQueue;
}

/** A batch is for containers that come again. */
export const FEWEST_ORDERS = 2;
/** As many baskets as stand beside a bench. */
const MOST_ORDERS = 8;

/** Orders that go into one container in one parcel and that nobody has folded. */
async function foldable({ store, queue, bench }: BatchParts): Promise<readonly Queued[]> {
  const folded = new Set((await foldedAheadAll(store)).map(({ order }) => order));
  return (await queue.waiting(store, bench.id)).filter(
    ({ id, parcels, container }) => parcels === 1 && container !== null && !folded.has(id),
  );
}

/** The containers that enough waiting orders go into, those of most orders first. */
export async function containerChoices(parts: BatchParts): Promise<readonly ContainerChoice[]> {
  const groups = new Map<string, Queued[]>();
  for (const each of await foldable(parts)) {
    const container = each.container ?? '';
    groups.set(container, [...(groups.get(container) ?? []), each]);
  }
  const shop = parts.shop();
  return [...groups]
    .filter(([, orders]) => orders.length >= FEWEST_ORDERS)
    .map(([container, orders]) => ({
      container,
      name: shop.containers.get(container)?.name ?? { en: container, es: container },
      orders: orders.length,
      pieces: orders.reduce((sum, { order }) => sum + order.pieces.reduce((all, { count }) => all + count, 0), 0),
    }))
    .sort((a, b) => b.orders - a.orders || (a.container < b.container ? -1 : 1));
}

/** An order of a batch, planned for it. */
export interface PlannedForBatch extends ToHold {
  readonly planned: readonly PlannedPiece[];
}

/** The next orders of a container, planned as they would be at the bench now; those whose plan became another are left out. */
export async function planBatch(parts: BatchParts, container: string): Promise<readonly PlannedForBatch[]> {
  const { store, shop, bench, clock, planner } = parts;
  const all = (await foldable(parts)).filter((each) => each.container === container);
  const batch: PlannedForBatch[] = [];
  for (const { order, version } of firstInTurn(all, { container: null, shelf: null }, MOST_ORDERS)) {
    const planned = await planner.plan(await planJob(store, shop(), order, clock.now(), { bench: bench.id }));
    const [parcel, ...others] = planned.ok ? planned.plan.parcels : [];
    if (parcel === undefined || others.length > 0 || parcel.container.id !== container) continue;
    const pieces = parcel.pieces.map(({ piece, fold }) => ({
      sku: piece.sku,
      recipe: fold.recipe,
      wrap: parcel.wrap.id,
    }));
    batch.push({ order: order.id, version, pieces, planned: parcel.pieces });
  }
  return batch;
}
