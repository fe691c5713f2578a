import type { Item } from './item.ts';
import type { Market, Prices } from './market.ts';
import type { Container, Fit } from '#shared/fitting/types.ts';
import type { PriceSteps } from '#shared/rating/types.ts';
import type { RateBook } from '#shared/rating/rate-card.ts';
import { toMillimetres, type Length } from '#shared/units/length.ts';

type Size = Fit['filled'];

/** The empty container as it lies. */
export function emptySize(container: Container): Size {
  const { width, length, depth } = container.outside;
  return {
    width: toMillimetres(width),
    length: toMillimetres(length),
    thickness: depth === undefined ? 0 : toMillimetres(depth),
  };
}

/** Down to a multiple, so that orders share what was asked before. */
function down(millimetres: number, step: number): number {
  return millimetres < step ? millimetres : Math.floor(millimetres / step) * step;
}

/**
 * No filled container of the order is smaller. Paper and board keep their outside; film draws in as it fills, but not
 * below what it holds.
 */
function smallestFilled(items: readonly Item[], container: Container): Size {
  if (container.type === 'carton') return emptySize(container);
  const least = (of: (item: Item) => number) => Math.min(...items.map(of));
  const thickness = down(
    least((item) => item.ideal.pressedThickness),
    1,
  );
  if (container.type === 'card') return { ...emptySize(container), thickness };
  return {
    width: down(
      least((item) => item.ideal.width),
      10,
    ),
    length: down(
      least((item) => item.ideal.length),
      10,
    ),
    thickness,
  };
}

/** Every size, longest side first, below which some service of the book refuses a parcel or asks more for it. */
function leastSizes(book: RateBook): readonly (readonly Length[])[] {
  return book.cards
    .flatMap((card) => card.services)
    .flatMap(({ limits, surcharges }) => [
      ...limits.flatMap((limit) => (limit.limit === 'smallest-size' ? [limit.least] : [])),
      ...surcharges.flatMap(({ when }) =>
        when.flatMap((condition) => (condition.when === 'smaller-than' ? [condition.least] : [])),
      ),
    ]);
}

function atLeast(size: Size, least: readonly Length[]): Size {
  const [long = 0, middle = 0, short = 0] = least.map(toMillimetres);
  return {
    width: Math.max(Math.min(size.width, size.length), middle),
    length: Math.max(size.width, size.length, long),
    thickness: Math.max(size.thickness, short),
  };
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

/**
 * Prices that no filled container of an order undercuts, asked once for each container.
 *
 * The price of a mass never falls when the parcel grows, but for least sizes: below one a service refuses, or asks more. So
 * the smallest size that the pieces could have is priced, and that size brought up to every least size of the rate cards.
 */
export function leastPricesFor(
  items: readonly Item[],
  book: RateBook,
  market: Market,
): (container: Container) => Prices {
  const known = new Map<Container, Prices>();
  const leasts = leastSizes(book);
  return (container) => {
    const before = known.get(container);
    if (before !== undefined) return before;
    const smallest = smallestFilled(items, container);
    const raised = container.type === 'carton' ? [] : leasts.map((least) => atLeast(smallest, least));
    const asked = [smallest, ...raised].map((size) => market(container, size));
    const prices = { steps: cheapestOfEach([...new Set(asked)].flatMap(({ steps }) => steps)), refused: [] };
    known.set(container, prices);
    return prices;
  };
}
