import { instantOf, wallTimeAt } from '../local-time.ts';
import { collectionsOn } from '#shared/hand-over/collections.ts';
import type { Order } from '#shared/planning/types.ts';
import type { Shop } from '#shared/shop/shop.ts';

export interface Deadline {
  /** ISO instant */
  readonly at: string;
  /** who comes then, by id */
  readonly carriers: readonly string[];
}

/** When orders leave: remembered by ship-by time and carrier, since thousands share a few. */
export class Deadlines {
  readonly #shop: Shop;
  readonly #known = new Map<string, Deadline>();
  readonly #carrierOf: ReadonlyMap<string, string>;

  constructor(shop: Shop) {
    this.#shop = shop;
    this.#carrierOf = new Map(
      shop.rates.cards.flatMap(({ carrier, services }) => services.map(({ id }) => [id, carrier] as const)),
    );
  }

  /**
   * The last collection on the ship-by day that is not after the ship-by time: of the carrier whose service the buyer paid
   * for, else of any. Where none is, the ship-by time itself.
   */
  of({ shipBy, service }: Order): Deadline {
    const carrier = service === undefined ? undefined : this.#carrierOf.get(service);
    const key = `${carrier ?? ''} ${shipBy}`;
    const known = this.#known.get(key);
    if (known !== undefined) return known;
    const found = this.#find(shipBy, carrier);
    this.#known.set(key, found);
    return found;
  }

  #find(shipBy: string, carrier: string | undefined): Deadline {
    const { collections, timeZone } = this.#shop;
    const wall = wallTimeAt(Date.parse(shipBy), timeZone);
    const two = (value: number) => String(value).padStart(2, '0');
    const day = `${String(wall.year)}-${two(wall.month)}-${two(wall.day)}`;
    const own = carrier === undefined ? collections : collections.filter((each) => each.carrier === carrier);
    const clock = `${two(wall.hour)}:${two(wall.minute)}`;
    const last = collectionsOn(own, day).findLast(({ at }) => at <= clock);
    if (last === undefined) return { at: new Date(shipBy).toISOString(), carriers: [] };
    const [hour = 0, minute = 0] = last.at.split(':').map(Number);
    const at = new Date(instantOf({ ...wall, hour, minute }, timeZone)).toISOString();
    const then = collectionsOn(own, day).filter((each) => each.at === last.at);
    return { at, carriers: then.map((each) => each.carrier) };
  }
}
