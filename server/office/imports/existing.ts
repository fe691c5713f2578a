import type { Piece } from '#shared/garments/types.ts';
import type { StoredOrder } from './orders.ts';

/** What the store has already, asked for what some rows of a file name. */
export interface Existing {
  readonly pieces: (skus: readonly string[]) => Promise<ReadonlyMap<string, Piece>>;
  /** those of some codes that are SKUs of pieces */
  readonly skus: (codes: readonly string[]) => Promise<ReadonlySet<string>>;
  /** those of some codes that are numbers of orders */
  readonly orderIds: (codes: readonly string[]) => Promise<ReadonlySet<string>>;
  readonly orders: (ids: readonly string[]) => Promise<ReadonlyMap<string, StoredOrder>>;
  /** every order that has or had one of some pieces */
  readonly ordersWith: (skus: readonly string[]) => Promise<ReadonlyMap<string, StoredOrder>>;
}

/** The same of what lies in memory. */
export interface Known {
  readonly pieces: ReadonlyMap<string, Piece>;
  readonly orders: ReadonlyMap<string, StoredOrder>;
}

export function existingOf({ pieces, orders }: Known): Existing {
  const among = <Value>(map: ReadonlyMap<string, Value>, keys: readonly string[]): Map<string, Value> => {
    const found = new Map<string, Value>();
    for (const key of keys) {
      const value = map.get(key);
      if (value !== undefined) found.set(key, value);
    }
    return found;
  };
  return {
    pieces: (skus) => Promise.resolve(among(pieces, skus)),
    skus: (codes) => Promise.resolve(new Set(codes.filter((code) => pieces.has(code)))),
    orderIds: (codes) => Promise.resolve(new Set(codes.filter((code) => orders.has(code)))),
    orders: (ids) => Promise.resolve(among(orders, ids)),
    ordersWith: (skus) => {
      const asked = new Set(skus);
      const has = ([, { order }]: readonly [string, StoredOrder]) => order.pieces.some(({ sku }) => asked.has(sku));
      return Promise.resolve(new Map([...orders].filter(has)));
    },
  };
}
