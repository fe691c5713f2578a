import { itemsOf, type Item } from './item.ts';
import { marketFor } from './market.ts';
import type { Errand } from './parcel-plan.ts';
import { nearestFit } from './nearest-fit.ts';
import { bestInContainer, compareCandidates } from './parcel-search.ts';
import { admittedBy, containersOf, isAmong, isTooTightToo, wrapsWanted } from './preferences.ts';
import type { Scene } from './scene.ts';
import type { Candidate } from './fold-search.ts';
import { serviceWish, type ServiceWish } from './service-wish.ts';
import { smallestWithAny } from './smallest-filled.ts';
import { searchSplit, type SplitSearch } from './split.ts';
import type { LeftOut, Tried } from './why-not.ts';
import type { Order, OrderPlan } from './types.ts';
import type { Container } from '#shared/fitting/types.ts';
import type { Piece } from '#shared/garments/types.ts';
import { priceSteps } from '#shared/rating/price-steps.ts';
import type { Day, RatedParcel, Route } from '#shared/rating/types.ts';
import type { Shop } from '#shared/shop/shop.ts';

/** What is planned. */
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
export interface Survey {
  readonly items: readonly Item[];
  readonly tried: readonly Tried[];
  /** one for each container that takes all the pieces, cheapest first */
  readonly singles: readonly Candidate[];
  readonly division: SplitSearch;
  readonly leftOut: readonly LeftOut[];
  readonly scene: Scene;
  readonly wish: ServiceWish | null;
  readonly promise?: NonNullable<OrderPlan['promise']>;
  readonly errand: Errand;
}

type Findings = Pick<Survey, 'tried' | 'singles' | 'division'>;

function search(items: readonly Item[], scene: Scene): Findings {
  const tried = scene.containers
    .filter((container) => scene.admits(container, items))
    .map((container): Tried => {
      const search = bestInContainer(items, container, scene);
      return { container, search, near: search.found ? null : nearestFit(items, container, scene.wrapsFor(items)) };
    });
  const singles = tried.flatMap((each) => (each.search.found ? [each.search.candidate] : [])).sort(compareCandidates);
  return { tried, singles, division: searchSplit(items, scene, singles[0] ?? null) };
}

/** Whether nothing takes the pieces, in one parcel or several. */
export function isEmpty({ singles, division }: Findings): boolean {
  return singles.length === 0 && division.split === null;
}

/** Containers that are out of the question whatever they cost. */
function leftOutOf(
  containers: readonly Container[],
  items: readonly Item[],
  request: PlanRequest,
  scene: Scene,
): LeftOut[] {
  const { shop, without = [] } = request;
  return containers.flatMap((container): LeftOut[] => {
    const { id, doubled } = container;
    if (doubled !== undefined) return [];
    if (isTooTightToo(container, without, shop)) return [{ container: id, code: 'left-out' }];
    if (shop.outOfStock?.includes(id) === true) return [{ container: id, code: 'out-of-stock' }];
    return scene.admits(container, items) ? [] : [{ container: id, code: 'wants-double-bag' }];
  });
}

/**
 * Searches every container for all the pieces of an order, and every way of dividing them.
 *
 * A promise is kept where it can be: where nothing that keeps it takes the pieces, the search goes over every service, unless
 * the shop says that a promise must be kept.
 * @throws PlanError no-pieces, too-many-pieces, unknown-piece or unknown-kind
 */
export function surveyOrder(request: PlanRequest): Survey {
  const { order, pieces, shop, day, without = [] } = request;
  const items = itemsOf(order, pieces, shop);
  const route = request.route ?? { from: shop.from, to: order.to };
  const { market, leastPrices } = marketFor(shop, route, day);
  const all = containersOf(shop);
  const usable = all.filter((each) => !isAmong(each, shop.outOfStock ?? []) && !isTooTightToo(each, without, shop));
  const leastIn = (container: Container) => leastPrices(container, smallestWithAny(items, container));
  const wish = serviceWish(order, usable, leastIn, day);
  const scene: Scene = {
    shop,
    market,
    containers: usable,
    wrapsFor: wrapsWanted(shop),
    admits: admittedBy(shop),
    mayUse: wish?.keeps ?? (() => true),
    leastPrices,
    refusals: (parcel: RatedParcel) => priceSteps(shop.rates, parcel, route, day).refused,
  };
  const common = { items, leftOut: leftOutOf(all, items, request, scene), wish, errand: { shop, route, day } };
  const promised = {
    ...(order.service === undefined ? {} : { service: order.service }),
    ...(order.arriveBy === undefined ? {} : { arriveBy: order.arriveBy }),
  };
  const isPromised = order.service !== undefined || order.arriveBy !== undefined;
  const promise = (kept: boolean) => (isPromised ? { promise: { ...promised, kept } } : {});
  const findings = search(items, scene);
  const offered = order.service === undefined || wish?.service === order.service;
  if (wish === null || !isEmpty(findings) || shop.preferences?.promise === 'must') {
    return { ...common, ...findings, scene, ...promise(offered && !isEmpty(findings)) };
  }
  const anyService = { ...scene, mayUse: () => true };
  return { ...common, ...search(items, anyService), scene: anyService, ...promise(false) };
}
