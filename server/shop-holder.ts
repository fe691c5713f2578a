import { loadShop, textsOf, type ChangedFiles } from '#config/load.ts';
import type { Shop } from '#shared/shop/shop.ts';

/** The shop as it is now. Whoever uses it reads `current` at the time of use, since the owner may change it meanwhile. */
export class ShopHolder {
  /** the config folder */
  readonly folder: string;
  readonly #listeners = new Set<() => void>();
  #current: Shop;
  #texts: ChangedFiles;

  /** @throws ConfigError */
  constructor(folder: string) {
    this.folder = folder;
    this.#texts = textsOf(folder);
    this.#current = loadShop(folder, this.#texts);
  }

  get current(): Shop {
    return this.#current;
  }

  /** the files that the shop was read from, as they were then */
  get texts(): ChangedFiles {
    return this.#texts;
  }

  /**
   * Reads the config folder again. Runs in progress keep the plan that is stored with them.
   * @throws ConfigError when the folder cannot be used; the shop then stays as it was
   */
  reload(): Shop {
    const texts = textsOf(this.folder);
    this.take(loadShop(this.folder, texts), texts);
    return this.#current;
  }

  /** The shop is another one from now on. @param texts what it was read from */
  take(shop: Shop, texts: ChangedFiles): void {
    this.#current = shop;
    this.#texts = texts;
    for (const tell of this.#listeners) tell();
  }

  /** Told whenever the shop has become another one. */
  onChange(tell: () => void): void {
    this.#listeners.add(tell);
  }
}
