import type { Store } from '#server/store/open.ts';
import { findOrder } from '#server/store/orders.ts';
import { hasPiece } from '#server/store/pieces.ts';
import type { KnownCodes } from '#shared/codes/types.ts';
import type { Shop } from '#shared/shop/shop.ts';

/** What the shop knows of codes, asked for one scanned text at a time. */
export class KnownCodesCache {
  readonly #store: Store;
  readonly #shop: () => Shop;

  constructor(store: Store, shop: () => Shop) {
    this.#store = store;
    this.#shop = shop;
  }

  /**
   * Looks up every form in which the text may name something. The forms are the text as it came and without what a
   * scanner puts in front (an AIM identifier), upper-cased.
   */
  async read(text: string): Promise<KnownCodes> {
    const forms = formsOf(text);
    const skus = new Set<string>();
    const orders = new Set<string>();
    for (const form of forms) {
      if (await hasPiece(this.#store, form)) skus.add(form);
      if ((await findOrder(this.#store, form)) !== null) orders.add(form);
    }
    const shop = this.#shop();
    return {
      isSku: (asked) => skus.has(asked),
      isOrder: (asked) => orders.has(asked),
      isContainer: (asked) => shop.containers.has(asked),
      staffByBadge: (asked) => shop.staff.find((each) => each.badge === asked)?.id ?? null,
    };
  }
}

function formsOf(text: string): ReadonlySet<string> {
  const plain = text.trim();
  const bare = plain.replace(/^\][A-Za-z][0-9A-Za-z]/, '');
  const order = bare.replace(/^BFO-/i, '');
  return new Set([plain, bare, order, bare.toUpperCase(), order.toUpperCase()]);
}
