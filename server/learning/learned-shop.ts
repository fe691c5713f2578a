import type { KindBelief } from '#server/store/learning.ts';
import { withFactors } from '#shared/garments/factor-learning.ts';
import { withLearned } from '#shared/garments/learning.ts';
import type { Kind, Wardrobe } from '#shared/garments/types.ts';
import type { Shop } from '#shared/shop/shop.ts';

function learnedWardrobe(wardrobe: Wardrobe, beliefs: readonly KindBelief[]): Wardrobe {
  const masses = beliefs.flatMap(({ kind, mass }) => (mass === null ? [] : [[kind, mass] as const]));
  const factors = beliefs.flatMap(({ kind, factor }) => (factor === null ? [] : [[kind, factor] as const]));
  return withFactors(withLearned(wardrobe, new Map(masses)), new Map(factors));
}

/**
 * The shop as its files say it, with the kinds as its parcels have taught. What planning remembers hangs on the shop and
 * its kinds, so the same beliefs give the very same ones again.
 */
export class LearnedShop {
  readonly #shop: Shop;
  readonly #kinds = new Map<string, { readonly belief: string; readonly kind: Kind }>();
  #last: { readonly key: string; readonly shop: Shop };

  constructor(shop: Shop) {
    this.#shop = shop;
    this.#last = { key: '[[],[]]', shop };
  }

  /** @param empty containers of which none is left, beside those that the shop's files name */
  with(beliefs: readonly KindBelief[], empty: readonly string[] = []): Shop {
    const key = JSON.stringify([beliefs, empty]);
    if (key === this.#last.key) return this.#last.shop;
    const learned = learnedWardrobe(this.#shop.wardrobe, beliefs);
    const kinds = new Map(learned.kinds);
    for (const each of beliefs) {
      const kind = kinds.get(each.kind);
      if (kind === undefined) continue;
      const belief = JSON.stringify(each);
      const before = this.#kinds.get(each.kind);
      if (before?.belief === belief) kinds.set(each.kind, before.kind);
      else this.#kinds.set(each.kind, { belief, kind });
    }
    const outOfStock = [...new Set([...(this.#shop.outOfStock ?? []), ...empty])];
    const shop = { ...this.#shop, outOfStock, wardrobe: { ...learned, kinds } };
    this.#last = { key, shop };
    return shop;
  }
}
