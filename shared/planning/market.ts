import { leastPrices } from './least-prices.ts';
import { measuredSize, ratedParcel } from './rated-parcel.ts';
import type { Container, Fit } from '#shared/fitting/types.ts';
import { priceSteps } from '#shared/rating/price-steps.ts';
import { routeKey } from '#shared/rating/route-zones.ts';
import type { Day, PriceSteps, Route } from '#shared/rating/types.ts';
import type { RateBook } from '#shared/rating/rate-card.ts';
import type { Shop } from '#shared/shop/shop.ts';

type Size = Fit['filled'];

/** What every service that takes a filled container asks for it. */
export interface Prices {
  readonly steps: readonly PriceSteps[];
}

/** Prices of one route on one day. Filled containers of the same prices mostly give the very same object. */
export type Market = (container: Container, filled: Size) => Prices;

/** By container, then thickness, then width and length, all in thousandths of a millimetre: numbers are quick to look up. */
type PriceTable = Map<Container, Map<number, Map<number, Prices>>>;

/** What is remembered of routes that pay the same. */
interface Memory {
  readonly filled: PriceTable;
  readonly least: PriceTable;
  /** by the numbers of their price lists, which rating makes once */
  readonly different: Map<string, Prices>;
}

/** Memories kept per rate book; beyond it the oldest is forgotten. */
const MEMORIES_KEPT = 500;

/** A rate book is immutable, so what its cards say never goes stale. */
const known = new WeakMap<RateBook, { readonly memories: Map<string, Memory>; readonly keys: Map<string, string> }>();

/** Addresses whose zones are remembered; working them out takes longer than planning a piece that is known. */
const KEYS_KEPT = 5000;

/** What routes that pay the same on a day have in common. */
function keyOf(rates: RateBook, route: Route, day: Day, keys: Map<string, string>): string {
  const asked = `${day} ${JSON.stringify(route)}`;
  let key = keys.get(asked);
  if (key === undefined) {
    if (keys.size >= KEYS_KEPT) keys.clear();
    keys.set(asked, (key = `${day} ${routeKey(rates, route, day)}`));
  }
  return key;
}

function memoryOf(rates: RateBook, route: Route, day: Day): Memory {
  const { memories, keys } = known.get(rates) ?? {
    memories: new Map<string, Memory>(),
    keys: new Map<string, string>(),
  };
  known.set(rates, { memories, keys });
  const key = keyOf(rates, route, day, keys);
  const memory = memories.get(key) ?? { filled: new Map(), least: new Map(), different: new Map() };
  memories.delete(key);
  memories.set(key, memory);
  const oldest = memories.keys().next();
  if (memories.size > MEMORIES_KEPT && oldest.done !== true) memories.delete(oldest.value);
  return memory;
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

const emptyMap = () => new Map<never, never>();

function remembered(table: PriceTable, container: Container, size: Size, make: () => Prices): Prices {
  const byThickness = below(table, container, emptyMap);
  const bySides = below(byThickness, Math.round(size.thickness * 1000), emptyMap);
  const key = pair(size.width, size.length);
  let found = bySides.get(key);
  if (found === undefined) bySides.set(key, (found = make()));
  return found;
}

const numbers = new WeakMap<PriceSteps, string>();
let numbered = 0;

function numberOf(steps: PriceSteps): string {
  let number = numbers.get(steps);
  if (number === undefined) numbers.set(steps, (number = String((numbered += 1))));
  return number;
}

/** One object for all prices that say the same, so that what follows from them is worked out once. */
function same(prices: Prices, different: Memory['different']): Prices {
  const key = prices.steps.map(numberOf).join();
  const before = different.get(key);
  if (before !== undefined) return before;
  different.set(key, prices);
  return prices;
}

/** What the search asks the rate cards about one route on one day. */
export interface RouteMarket {
  readonly market: Market;
  /** {@link leastPrices} */
  readonly leastPrices: Market;
}

export function marketFor({ rates }: Pick<Shop, 'rates'>, route: Route, day: Day): RouteMarket {
  const { filled: filledTable, least, different } = memoryOf(rates, route, day);
  const market: Market = (container, filled) =>
    remembered(filledTable, container, measuredSize(container, filled), () =>
      same({ steps: priceSteps(rates, ratedParcel(container, filled), route, day).steps }, different),
    );
  return {
    market,
    leastPrices: (container, smallest) =>
      remembered(least, container, smallest, () => same(leastPrices(container, smallest, rates, market), different)),
  };
}
