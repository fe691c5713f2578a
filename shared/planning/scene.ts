import { parcelMass } from './parcel-mass.ts';
import { expectedPostage, type MassEstimate } from './expected-postage.ts';
import { repackCost } from './cost.ts';
import type { Item } from './item.ts';
import type { Market, Prices } from './market.ts';
import type { Container, Fit, Wrap } from '#shared/fitting/types.ts';
import type { PriceSteps } from '#shared/rating/types.ts';
import type { Shop } from '#shared/shop/shop.ts';

/** All that the search for one order's parcels asks about: fixed while it runs. */
export interface Scene {
  readonly shop: Shop;
  readonly market: Market;
  readonly containers: readonly Container[];
  /** the wraps that may be put around these pieces, all of them alike */
  readonly wrapsFor: (items: readonly Item[]) => readonly Wrap[];
  /** whether the shop would put these pieces into this container, room aside; with more pieces never again once not */
  readonly admits: (container: Container, items: readonly Item[]) => boolean;
  /** services that may be chosen: quick enough for what was promised */
  readonly mayUse: (steps: PriceSteps) => boolean;
  /** bounds the prices of a container however it is filled; the very same object each time */
  readonly leastPrices: (container: Container) => Prices;
}

/** The service that a parcel would go by and what that is expected to cost, in minor units. */
export interface Postage {
  readonly steps: PriceSteps;
  readonly expected: number;
}

/** The cheapest of the services that may be used, or null when none takes such a parcel. */
export function cheapestPostage(prices: Prices, mass: MassEstimate, repack: number, scene: Scene): Postage | null {
  let best: Postage | null = null;
  const usable = prices.steps.filter(scene.mayUse);
  for (const steps of usable) {
    const expected = expectedPostage(steps, mass, usable, repack);
    if (expected !== null && (best === null || expected < best.expected)) best = { steps, expected };
  }
  return best;
}

/** Pieces in one container and wrap: what stays the same however they are folded. */
export interface Packing {
  readonly items: readonly Item[];
  readonly container: Container;
  readonly wrap: Wrap;
  readonly mass: MassEstimate;
  /** the cheapest postage for a filled size; asked often for the same one */
  readonly postage: (filled: Fit['filled']) => Postage | null;
  /** no way of filling the container has a cheaper postage, in minor units; infinite where nothing takes it */
  readonly leastPostage: () => number;
}

export function packing(items: readonly Item[], container: Container, wrap: Wrap, scene: Scene): Packing {
  const { shop, market } = scene;
  const mass = parcelMass(
    items.map((item) => item.mass),
    container,
    wrap,
    shop.additions,
  );
  const repack = repackCost(container, shop);
  // Made only when asked: most packings are dropped on their bound alone.
  let known: Map<Prices, Postage | null> | null = null;
  let least: number | null = null;
  const postage = (filled: Fit['filled']) => {
    const prices = market(container, filled);
    known ??= new Map();
    let found = known.get(prices);
    if (found === undefined) {
      found = cheapestPostage(prices, mass, repack, scene);
      known.set(prices, found);
    }
    return found;
  };
  const leastPostage = () =>
    (least ??= cheapestPostage(scene.leastPrices(container), mass, repack, scene)?.expected ?? Infinity);
  return { items, container, wrap, mass, postage, leastPostage };
}
