import type { Item } from './item.ts';
import { expectedPostage, type MassEstimate } from './expected-postage.ts';
import type { Market, Prices } from './market.ts';
import type { Container, Wrap } from '#shared/fitting/types.ts';
import type { RatedParcel, PriceSteps, Refusal } from '#shared/rating/types.ts';
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
  /** prices that no filled container undercuts which is nowhere smaller */
  readonly leastPrices: Market;
  /** why services refuse a parcel whatever it weighs */
  readonly refusals: (parcel: RatedParcel) => readonly Refusal[];
}

/** The service that a parcel would go by and what that is expected to cost, in minor units. */
export interface Postage {
  readonly steps: PriceSteps;
  readonly expected: number;
}

/** The cheapest of the services that may be used, or null when none takes such a parcel. */
export function cheapestPostage(
  prices: Prices,
  mass: MassEstimate,
  repack: number,
  scene: Pick<Scene, 'mayUse'>,
): Postage | null {
  let best: Postage | null = null;
  const usable = prices.steps.filter(scene.mayUse);
  for (const steps of usable) {
    const expected = expectedPostage(steps, mass, usable, repack);
    if (expected !== null && (best === null || expected < best.expected)) best = { steps, expected };
  }
  return best;
}
