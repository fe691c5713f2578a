import { loadShop } from '#config/load.ts';
import type { Shop } from '#shared/shop/shop.ts';

/** The shop as it is now. Whoever uses it reads `current` at the time of use, since the owner may change prices meanwhile. */
export class ShopHolder {
  /** the config folder */
  readonly folder: string;
  #current: Shop;

  /** @throws ConfigError */
  constructor(folder: string) {
    this.folder = folder;
    this.#current = loadShop(folder);
  }

  get current(): Shop {
    return this.#current;
  }

  /**
   * Reads the config folder again. Runs in progress keep the plan that is stored with them.
   * @throws ConfigError when the folder cannot be used; the shop then stays as it was
   */
  reload(): Shop {
    this.#current = loadShop(this.folder);
    return this.#current;
  }
}
