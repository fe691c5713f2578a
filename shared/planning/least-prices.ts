import type { Market, Prices } from './market.ts';
import type { Container, Fit } from '#shared/fitting/types.ts';
import type { PriceSteps } from '#shared/rating/types.ts';
import type { RateBook } from '#shared/rating/rate-card.ts';
import { toMillimetres, type Length } from '#shared/units/length.ts';

type Size = Fit['filled'];

/** Every size, longest side first, below which some service of the book refuses a parcel or asks more for it. */
function leastSizes(book: RateBook): readonly (readonly Length[])[] {
  let sizes = known.get(book);
  if (sizes === undefined) known.set(book, (sizes = collected(book)));
  return sizes;
}

const known = new WeakMap<RateBook, readonly (readonly Length[])[]>();

function collected(book: RateBook): readonly (readonly Length[])[] {
  return book.cards
    .flatMap((card) => card.services)
    .flatMap(({ limits, surcharges }) => [
      ...limits.flatMap((limit) => (limit.limit === 'smallest-size' ? [limit.least] : [])),
      ...surcharges.flatMap(({ when }) =>
        when.flatMap((condition) => (condition.when === 'smaller-than' ? [condition.least] : [])),
      ),
    ]);
}

/** The size brought up to a least one; itself where it is no smaller. */
function atLeast(size: Size, least: readonly Length[]): Size {
  const [long = 0, middle = 0, short = 0] = least.map(toMillimetres);
  const width = Math.max(Math.min(size.width, size.length), middle);
  const length = Math.max(size.width, size.length, long);
  const thickness = Math.max(size.thickness, short);
  const isSame = width + length === size.width + size.length && thickness === size.thickness;
  return isSame ? size : { width, length, thickness };
}

/** One price list for each service: at every mass the least that its lists ask. */
function cheapestOfEach(lists: readonly PriceSteps[]): readonly PriceSteps[] {
  const services = new Map<string, [PriceSteps, ...PriceSteps[]]>();
  for (const list of lists) {
    const key = `${list.carrier} ${list.service}`;
    const before = services.get(key);
    if (before === undefined) services.set(key, [list]);
    else before.push(list);
  }
  return [...services.values()].map(leastOf);
}

function leastOf([first, ...rest]: readonly [PriceSteps, ...PriceSteps[]]): PriceSteps {
  if (rest.length === 0) return first;
  const lists = [first, ...rest];
  const ceilings = [...new Set(lists.flatMap(({ steps }) => steps.map(({ ceiling }) => ceiling)))].sort(
    (a, b) => a - b,
  );
  const steps: PriceSteps['steps'][number][] = [];
  for (const ceiling of ceilings) {
    const prices = lists.flatMap((list) => list.steps.find((step) => step.ceiling >= ceiling)?.price ?? []);
    const [price] = prices.sort((a, b) => a.minor - b.minor);
    if (price === undefined) continue;
    if (steps.at(-1)?.price.minor === price.minor) steps.pop();
    steps.push({ ceiling, price });
  }
  return { ...first, steps };
}

const bounding = new WeakMap<Prices, Prices>();

/** A heavier parcel may be taken where a lighter one is not, so smallest masses play no part in a bound. */
function withoutLeast(prices: Prices): Prices {
  if (prices.steps.every(({ least }) => least === undefined)) return prices;
  let bound = bounding.get(prices);
  if (bound === undefined) {
    const steps = prices.steps.map((each): PriceSteps => {
      const { least: _, ...rest } = each;
      return rest;
    });
    bounding.set(prices, (bound = { steps }));
  }
  return bound;
}

/**
 * Prices that no filled container undercuts which is in no direction smaller than a size.
 *
 * The price of a mass never falls when the parcel grows, but for least sizes: below one a service refuses, or asks more. So
 * the size is priced, and the size brought up to every least size of the rate cards.
 *
 * @param smallest as of `smallestFilled`
 */
export function leastPrices(container: Container, smallest: Size, book: RateBook, market: Market): Prices {
  if (container.type === 'carton') return withoutLeast(market(container, smallest));
  const sizes = new Set([smallest, ...leastSizes(book).map((least) => atLeast(smallest, least))]);
  const asked = new Set([...sizes].map((size) => market(container, size)));
  const [first] = asked;
  if (asked.size === 1 && first !== undefined) return withoutLeast(first);
  return withoutLeast({ steps: cheapestOfEach([...asked].flatMap(({ steps }) => steps)) });
}
