import { measuredSize, ratedParcel } from './rated-parcel.ts';
import type { Container, Fit } from '#shared/fitting/types.ts';
import { priceSteps } from '#shared/rating/price-steps.ts';
import type { Day, PriceSteps, Refusal, Route } from '#shared/rating/types.ts';
import type { RateBook } from '#shared/rating/rate-card.ts';
import type { Shop } from '#shared/shop/shop.ts';

/** What every service asks for one filled container. */
export interface Prices {
  readonly steps: readonly PriceSteps[];
  readonly refused: readonly Refusal[];
}

/** Prices of one route on one day. The same filled container gives the very same object. */
export type Market = (container: Container, filled: Fit['filled']) => Prices;

/** Routes kept per rate book; beyond it the oldest is forgotten. */
const ROUTES_KEPT = 500;

/** By container, then thickness, then width and length, all in thousandths of a millimetre: numbers are quick to look up. */
type PriceTable = Map<Container, Map<number, Map<number, Prices>>>;

/** A rate book is immutable, so what it says for a route and a day never goes stale. */
const known = new WeakMap<RateBook, Map<string, PriceTable>>();

function routeKey(route: Route, day: Day): string {
  return 'zone' in route ? `${day} zone ${route.zone}` : JSON.stringify([day, route.from, route.to]);
}

function tableOf(rates: RateBook, route: Route, day: Day): PriceTable {
  const routes = known.get(rates) ?? new Map<string, PriceTable>();
  known.set(rates, routes);
  const key = routeKey(route, day);
  const prices = routes.get(key) ?? new Map<Container, Map<number, Map<number, Prices>>>();
  routes.delete(key);
  routes.set(key, prices);
  const oldest = routes.keys().next();
  if (routes.size > ROUTES_KEPT && oldest.done !== true) routes.delete(oldest.value);
  return prices;
}

/** Two numbers below ten metres in thousandths of a millimetre, as one. */
function pair(width: number, length: number): number {
  return Math.round(width * 1000) * 10_000_000 + Math.round(length * 1000);
}

/** The map under a key, made when there is none. */
function below<Key, Inner extends Map<unknown, unknown>>(map: Map<Key, Inner>, key: Key, make: () => Inner): Inner {
  let inner = map.get(key);
  if (inner === undefined) map.set(key, (inner = make()));
  return inner;
}

export function marketFor({ rates }: Pick<Shop, 'rates'>, route: Route, day: Day): Market {
  const table = tableOf(rates, route, day);
  return (container, filled) => {
    const size = measuredSize(container, filled);
    const byThickness = below(table, container, () => new Map<number, Map<number, Prices>>());
    const bySides = below(byThickness, Math.round(size.thickness * 1000), () => new Map<number, Prices>());
    const key = pair(size.width, size.length);
    let found = bySides.get(key);
    if (found === undefined) {
      found = priceSteps(rates, ratedParcel(container, filled), route, day);
      bySides.set(key, found);
    }
    return found;
  };
}
