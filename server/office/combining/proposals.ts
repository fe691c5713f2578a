import type { Planner } from '#server/planning/planner.ts';
import { planJob } from '#server/runs/plan-for.ts';
import { isDeclined } from '#server/store/combining.ts';
import { unpackedOrders, type UnpackedOrder } from '#server/store/day.ts';
import { foldedAheadAll } from '#server/store/folded-ahead.ts';
import type { Store } from '#server/store/open.ts';
import { combined, combinedNumber, groupsToCombine } from '#shared/combining/combine.ts';
import type { Order } from '#shared/planning/types.ts';
import type { Shop } from '#shared/shop/shop.ts';
import { money } from '#shared/units/money.ts';
import type { CombineProposal, CombiningView } from '#shared/wire/combining.ts';

/** More groups than these are proposed when some of these are decided. */
const MOST_PROPOSED = 30;
const KEEP_MOST = 500;

interface Cost {
  /** minor units, a float */
  readonly total: number;
  readonly parcels: number;
}

/** Groups of orders that may be one, with what the planner says of it; a plan is kept while its order stays as it is. */
export class CombiningDesk {
  readonly #planner: Pick<Planner, 'plan'>;
  readonly #costs = new Map<string, Cost | null>();

  constructor(planner: Pick<Planner, 'plan'>) {
    this.#planner = planner;
  }

  async view(store: Store, shop: Shop, now: number): Promise<CombiningView> {
    const unpacked = await unpackedOrders(store);
    const proposals: CombineProposal[] = [];
    for (const group of (await freeGroups(store, unpacked)).slice(0, MOST_PROPOSED)) {
      const proposal = await this.#proposal(store, shop, group, now);
      if (proposal !== null) proposals.push(proposal);
    }
    const taken = unpacked.flatMap(({ order: { id, buyer, combines }, state }) =>
      combines === undefined ? [] : [{ id, orders: combines, buyer, state }],
    );
    proposals.sort((a, b) => b.saves.minor - a.saves.minor);
    return { proposals, taken, timeZone: shop.timeZone };
  }

  /** Null where one of the plans cannot be made, or nothing is saved. */
  async #proposal(
    store: Store,
    shop: Shop,
    orders: readonly [Order, ...Order[]],
    now: number,
  ): Promise<CombineProposal | null> {
    const whole = await this.#cost(store, shop, combined(orders), now);
    const parts: (Cost | null)[] = [];
    for (const order of orders) parts.push(await this.#cost(store, shop, order, now));
    const known = parts.filter((part) => part !== null);
    if (whole === null || known.length < parts.length) return null;
    const apart = Math.round(known.reduce((sum, { total }) => sum + total, 0));
    const together = Math.round(whole.total);
    if (together >= apart) return null;
    const [first] = orders;
    const inShop = (minor: number) => money(minor, shop.currency);
    return {
      orders: orders.map(({ id, pieces, shipBy }) => ({ id, pieces: pieces.length, shipBy })),
      buyer: first.buyer,
      lines: first.address,
      apart: inShop(apart),
      together: inShop(together),
      saves: inShop(apart - together),
      parcelsApart: known.reduce((sum, { parcels }) => sum + parcels, 0),
      parcelsTogether: whole.parcels,
    };
  }

  async #cost(store: Store, shop: Shop, order: Order, now: number): Promise<Cost | null> {
    const job = await planJob(store, shop, order, now, { bench: shop.benches[0]?.id ?? '' });
    const key = JSON.stringify([job.order, job.pieces, job.day, job.outOfStock]);
    const kept = this.#costs.get(key);
    if (kept !== undefined) return kept;
    const planned = await this.#planner.plan(job);
    const cost = planned.ok ? { total: planned.plan.cost.total, parcels: planned.plan.parcels.length } : null;
    if (this.#costs.size >= KEEP_MOST) this.#costs.clear();
    this.#costs.set(key, cost);
    return cost;
  }
}

/** Groups whose orders all wait, lie folded for nobody, and were not declined. */
async function freeGroups(
  store: Store,
  unpacked: readonly UnpackedOrder[],
): Promise<readonly (readonly [Order, ...Order[]])[]> {
  const folded = new Set((await foldedAheadAll(store)).map(({ order }) => order));
  const open = unpacked.flatMap(({ order, state }) => (state === 'open' && !folded.has(order.id) ? [order] : []));
  const known = new Set(unpacked.map(({ order }) => order.id));
  const free: (readonly [Order, ...Order[]])[] = [];
  for (const [first, ...rest] of groupsToCombine(open)) {
    if (first === undefined || known.has(combinedNumber([first, ...rest]))) continue;
    const ids = [first, ...rest].map(({ id }) => id);
    if (!(await isDeclined(store, ids))) free.push([first, ...rest]);
  }
  return free;
}
