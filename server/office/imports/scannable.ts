import { scanMeaning } from '#shared/codes/scan-meaning.ts';
import type { KnownCodes, ScanMeaning } from '#shared/codes/types.ts';
import type { Shop } from '#shared/shop/shop.ts';

const MEANINGS: Readonly<Record<ScanMeaning['means'], string>> = {
  piece: 'a piece',
  container: 'a container',
  order: 'an order',
  sack: 'the card of a sack',
  command: 'a command card',
  staff: 'a badge',
  label: "a parcel's label",
  unknown: 'a damaged code',
};

/** What else of the shop a code could be taken for when it is scanned. */
export class ShopCodes {
  readonly #containers: ReadonlySet<string>;
  readonly #badges: ReadonlyMap<string, string>;
  readonly #carriers: ReadonlySet<string>;
  readonly #stored: Pick<KnownCodes, 'isOrder' | 'isSku'>;

  /** @param stored what of the store is known; asked anew each time */
  constructor(shop: Shop, stored: Pick<KnownCodes, 'isOrder' | 'isSku'>) {
    this.#containers = new Set(shop.containers.keys());
    this.#carriers = new Set(shop.collections.map(({ carrier }) => carrier));
    this.#badges = new Map(shop.staff.map(({ badge, id }) => [badge, id]));
    this.#stored = stored;
  }

  /** What scanning a piece's SKU would be taken for instead of the piece; null when it is taken for the piece. */
  insteadOfPiece(sku: string): string | null {
    const meaning = scanMeaning(
      sku,
      this.#known((code) => code === sku),
    );
    return meaning.means === 'piece' ? null : MEANINGS[meaning.means];
  }

  /** The numbers of orders that {@link insteadOfPiece} will ask for. */
  ordersAskedFor(sku: string): readonly string[] {
    const asked: string[] = [];
    const isOrder = (code: string): boolean => {
      asked.push(code);
      return false;
    };
    scanMeaning(sku, { ...this.#known((code) => code === sku), isOrder });
    return asked;
  }

  /** What of the shop has the same code as an order; null when nothing has. */
  sameAsOrder(order: string): string | null {
    if (this.#stored.isSku(order)) return MEANINGS.piece;
    if (this.#containers.has(order)) return MEANINGS.container;
    return this.#badges.has(order) ? MEANINGS.staff : null;
  }

  #known(isSku: (code: string) => boolean): KnownCodes {
    return {
      isSku,
      isContainer: (code) => this.#containers.has(code),
      isOrder: (code) => this.#stored.isOrder(code),
      isCarrier: (id) => this.#carriers.has(id),
      staffByBadge: (code) => this.#badges.get(code) ?? null,
    };
  }
}
