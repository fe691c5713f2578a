import { itemsOf, type Item } from './item.ts';
import { marketFor } from './market.ts';
import { alternative, together, type Errand } from './parcel-plan.ts';
import { bestInContainer, compareCandidates } from './parcel-search.ts';
import { PlanError } from './plan-error.ts';
import type { Scene } from './scene.ts';
import type { Candidate } from './fold-search.ts';
import { serviceWish, type ServiceWish } from './service-wish.ts';
import { searchSplit, type SplitSearch } from './split.ts';
import { whyNot, type Tried } from './why-not.ts';
import type { Order, OrderPlan, PlanRejection } from './types.ts';
import type { Piece } from '#shared/garments/types.ts';
import { priceSteps } from '#shared/rating/price-steps.ts';
import type { Day, RatedParcel, Route } from '#shared/rating/types.ts';
import type { Shop } from '#shared/shop/shop.ts';

/** What {@link planOrder} plans. */
export interface PlanRequest {
  readonly order: Order;
  /** by SKU; may hold more than the order's */
  readonly pieces: ReadonlyMap<string, Piece>;
  readonly shop: Shop;
  /** of posting: decides which prices are in force */
  readonly day: Day;
  /** containers that are not to be used, such as one that the packer found too tight */
  readonly without?: readonly string[];
  /** a zone known already, instead of from the shop to the order's address */
  readonly route?: Route;
}

/** What the search found for all the pieces at once, container by container, and the cheapest way of splitting them. */
interface Findings {
  readonly tried: readonly Tried[];
  /** one for each container that takes all the pieces, cheapest first */
  readonly singles: readonly Candidate[];
  readonly division: SplitSearch;
}

function search(items: readonly Item[], scene: Scene): Findings {
  const tried = scene.containers.map((container) => ({ container, search: bestInContainer(items, container, scene) }));
  const singles = tried.flatMap((each) => (each.search.found ? [each.search.candidate] : [])).sort(compareCandidates);
  return { tried, singles, division: searchSplit(items, scene, singles[0] ?? null) };
}

function nothingFits(
  order: Order,
  findings: Findings,
  leftOut: readonly string[],
  scene: Scene,
  wish: ServiceWish | null,
) {
  const reasons = whyNot(findings.tried, null, Infinity, leftOut, scene, wish);
  const message = `order ${order.id}: no container takes its pieces and can be sent to this address`;
  return new PlanError('nothing-fits', message, reasons);
}

function assemble(
  order: string,
  { tried, singles, division }: Findings,
  leftOut: readonly string[],
  scene: Scene,
  wish: ServiceWish | null,
  errand: Errand,
): OrderPlan {
  const { split } = division;
  const single = split === null ? singles[0] : undefined;
  const chosen = split?.candidates ?? (single === undefined ? [] : [single]);
  const others = singles.filter((candidate) => candidate !== single);
  const { parcels, cost } = together(chosen, errand);
  let reasons: readonly PlanRejection[] | undefined;
  return {
    order,
    parcels,
    cost,
    alternatives: others.map((candidate) => alternative(candidate, errand)),
    // Hundreds of orders are planned at once, and their reasons are mostly never read.
    get whyNot() {
      return (reasons ??= whyNot(tried, single ?? null, cost.total, leftOut, scene, wish));
    },
    ...(division.proven ? { proven: true } : { proven: false, lowerBound: division.lowerBound }),
  };
}

function isEmpty({ singles, division }: Findings): boolean {
  return singles.length === 0 && division.split === null;
}

/**
 * The plan of least expected cost for an order: over every way to divide its pieces into parcels, every container, every
 * wrap, every fold of each piece and every service.
 *
 * Expected cost is postage over the distribution of the finished mass, materials, labour, and the chance that the parcel
 * does not close times the cost of packing it anew. It is exact up to {@link MOST_EXACT} pieces; above that the plan is
 * marked as not proven, with a lower bound.
 *
 * A service named on the order is a preference: it, or a cheaper one that takes no more days, is used where the pieces can
 * go by it; where they cannot, any service may be used. Plans of equal cost prefer fewer parcels, then fewer folding
 * steps, then the smaller container.
 *
 * @throws PlanError no-pieces, too-many-pieces, unknown-piece, unknown-kind; nothing-fits, with what was held against
 *   every container
 */
export function planOrder(request: PlanRequest): OrderPlan {
  const { order, pieces, shop, day, without = [] } = request;
  const items = itemsOf(order, pieces, shop);
  const route = request.route ?? { from: shop.from, to: order.to };
  const { market, leastPrices } = marketFor(shop, route, day);
  const containers = [...shop.containers.values()].filter(({ id }) => !without.includes(id));
  const wish = order.service === undefined ? null : serviceWish(order.service, containers, market);
  const wraps = [...shop.wraps.values()];
  const refusals = (parcel: RatedParcel) => priceSteps(shop.rates, parcel, route, day).refused;
  const mayUse = wish?.keeps ?? (() => true);
  let scene: Scene = { shop, market, containers, wraps, mayUse, leastPrices, refusals };
  let findings = search(items, scene);
  if (wish !== null && isEmpty(findings)) {
    scene = { ...scene, mayUse: () => true };
    findings = search(items, scene);
  }
  if (isEmpty(findings)) throw nothingFits(order, findings, without, scene, wish);
  return assemble(order.id, findings, without, scene, wish, { shop, route, day });
}
