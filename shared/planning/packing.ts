import { repackCost } from './cost.ts';
import type { MassEstimate } from './expected-postage.ts';
import type { Item } from './item.ts';
import { itemIn } from './item-in.ts';
import type { Prices } from './market.ts';
import { parcelMass } from './parcel-mass.ts';
import { cheapestPostage, type Postage, type Scene } from './scene.ts';
import { smallestFilled } from './smallest-filled.ts';
import type { Container, Fit, Wrap } from '#shared/fitting/types.ts';

/** Items in one container and wrap: what stays the same however they are folded, worked out when first asked for. */
export class Packing {
  readonly items: readonly Item[];
  readonly container: Container;
  readonly wrap: Wrap;
  readonly mass: MassEstimate;
  readonly #scene: Scene;
  readonly #known = new Map<Prices, Postage | null>();
  #leastPostage: number | null = null;

  constructor(items: readonly Item[], container: Container, wrap: Wrap, scene: Scene) {
    this.items = items;
    this.container = container;
    this.wrap = wrap;
    this.#scene = scene;
    const masses = items.map((item) => item.mass);
    this.mass = parcelMass(masses, container, wrap, scene.shop.additions);
  }

  #cheapest(prices: Prices): Postage | null {
    let found = this.#known.get(prices);
    if (found === undefined) {
      found = cheapestPostage(prices, this.mass, repackCost(this.container, this.#scene.shop), this.#scene);
      this.#known.set(prices, found);
    }
    return found;
  }

  /** The cheapest postage for a filled size; null where no service takes it. */
  postage(filled: Fit['filled']): Postage | null {
    return this.#cheapest(this.#scene.market(this.container, filled));
  }

  /** No way of filling the container has a cheaper postage, in minor units; infinite where nothing takes it. */
  leastPostage(): number {
    if (this.#leastPostage === null) {
      const smallest = smallestFilled(this.items, this.container, this.wrap);
      const prices = this.#scene.leastPrices(this.container, smallest);
      this.#leastPostage = this.#cheapest(prices)?.expected ?? Infinity;
    }
    return this.#leastPostage;
  }
}

/** Items with only those of their folds that can be in the container; null where one of them does not go in at all. */
export function packingOf(items: readonly Item[], container: Container, wrap: Wrap, scene: Scene): Packing | null {
  const inside: Item[] = [];
  for (const item of items) {
    const found = itemIn(item, container, wrap);
    if (found === null) return null;
    inside.push(found);
  }
  return new Packing(inside, container, wrap, scene);
}
