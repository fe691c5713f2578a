import { ratedParcel } from './rated-parcel.ts';
import type { Container, Fit } from '#shared/fitting/types.ts';
import { priceSteps } from '#shared/rating/price-steps.ts';
import type { Day, PriceSteps, Refusal, Route } from '#shared/rating/types.ts';
import type { Shop } from '#shared/shop/shop.ts';

/** What every service asks for one filled container. */
export interface Prices {
  readonly steps: readonly PriceSteps[];
  readonly refused: readonly Refusal[];
}

/** Prices of one route on one day. The same filled container gives the very same object. */
export type Market = (container: Container, filled: Fit['filled']) => Prices;

/** Routes kept per shop; beyond it the oldest is forgotten. */
const ROUTES_KEPT = 500;

/** A shop is immutable, so what its rate cards say for a route and a day never goes stale. */
const known = new WeakMap<Shop, Map<string, Map<string, Prices>>>();

function routeKey(route: Route, day: Day): string {
  return 'zone' in route ? `${day} zone ${route.zone}` : JSON.stringify([day, route.from, route.to]);
}

function pricesOf(shop: Shop, route: Route, day: Day): Map<string, Prices> {
  const routes = known.get(shop) ?? new Map<string, Map<string, Prices>>();
  known.set(shop, routes);
  const key = routeKey(route, day);
  const prices = routes.get(key) ?? new Map<string, Prices>();
  routes.delete(key);
  routes.set(key, prices);
  const oldest = routes.keys().next();
  if (routes.size > ROUTES_KEPT && oldest.done !== true) routes.delete(oldest.value);
  return prices;
}

export function marketFor(shop: Shop, route: Route, day: Day): Market {
  const prices = pricesOf(shop, route, day);
  return (container, filled) => {
    const key = `${container.id} ${filled.width} ${filled.length} ${filled.thickness}`;
    const before = prices.get(key);
    if (before !== undefined) return before;
    const found = priceSteps(shop.rates, ratedParcel(container, filled), route, day);
    prices.set(key, found);
    return found;
  };
}
