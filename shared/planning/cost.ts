import type { PlanCost } from './types.ts';
import type { Container, Wrap } from '#shared/fitting/types.ts';
import type { Shop } from '#shared/shop/shop.ts';

/** Seconds that one step of a fold takes a practised packer (common practice, no source). */
const SECONDS_PER_FOLD_STEP = 4;

/** What working for some seconds costs, in minor units. */
export function wages(seconds: number, shop: Pick<Shop, 'labour'>): number {
  return (seconds * shop.labour.perHour.minor) / 3600;
}

/** Container and wrap, in minor units. */
export function materialsCost(container: Container, wrap: Wrap, pieces: number): number {
  return container.cost.minor + wrap.costPerPiece.minor * pieces;
}

/** Making up and closing the container and wrapping, in minor units; folding comes on top. */
export function handlingCost(container: Container, wrap: Wrap, pieces: number, shop: Pick<Shop, 'labour'>): number {
  return wages(container.seconds + wrap.secondsPerPiece * pieces, shop);
}

/** Folding in so many steps, in minor units. */
export function foldingCost(steps: number, shop: Pick<Shop, 'labour'>): number {
  return wages(steps * SECONDS_PER_FOLD_STEP, shop);
}

/** Taking everything out and packing it into another container, the first one being spoilt; in minor units. */
export function repackCost(container: Container, shop: Pick<Shop, 'labour'>): number {
  return wages(shop.labour.repackSeconds, shop) + container.cost.minor;
}

/** @param parts in minor units */
export function planCost(currency: string, parts: Omit<PlanCost, 'currency' | 'total'>): PlanCost {
  return { currency, ...parts, total: parts.postage + parts.materials + parts.labour + parts.risk };
}

/** The cost of several parcels together. */
export function addCosts(currency: string, costs: readonly PlanCost[]): PlanCost {
  const sum = (part: 'postage' | 'materials' | 'labour' | 'risk') =>
    costs.reduce((total, cost) => total + cost[part], 0);
  return planCost(currency, {
    postage: sum('postage'),
    materials: sum('materials'),
    labour: sum('labour'),
    risk: sum('risk'),
  });
}
