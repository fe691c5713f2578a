import type { Existing } from './existing.ts';
import type { KeptRecords } from './kept-records.ts';
import type { StoredOrder } from './orders.ts';
import type { Piece } from '#shared/garments/types.ts';
import type { Order } from '#shared/planning/types.ts';

/** What another file will have stored. */
export type HeldRecords =
  | { readonly subject: 'pieces'; readonly records: KeptRecords<Piece> }
  | { readonly subject: 'orders'; readonly records: KeptRecords<Order> };

/** What the store has, and what files that are to be stored before this one will have put there. */
export function existingHeld(stored: Existing, held: readonly HeldRecords[]): Existing {
  // The last one counts: it is stored last.
  const latest = [...held].reverse();
  const heldPiece = (sku: string): Piece | undefined => {
    for (const each of latest) {
      const found = each.subject === 'pieces' ? each.records.find(sku) : undefined;
      if (found !== undefined) return found;
    }
    return undefined;
  };
  const heldOrder = (id: string): Order | undefined => {
    for (const each of latest) {
      const found = each.subject === 'orders' ? each.records.find(id) : undefined;
      if (found !== undefined) return found;
    }
    return undefined;
  };
  const among = <Value>(keys: readonly string[], find: (key: string) => Value | undefined) =>
    keys.flatMap((key): readonly (readonly [string, Value])[] => {
      const found = find(key);
      return found === undefined ? [] : [[key, found]];
    });
  const withHeld = (known: ReadonlyMap<string, StoredOrder>, changed: readonly (readonly [string, Order])[]) => {
    const orders = new Map(known);
    for (const [id, order] of changed) orders.set(id, { order, state: orders.get(id)?.state ?? 'open' });
    return orders;
  };
  return {
    pieces: async (skus) => new Map([...(await stored.pieces(skus)), ...among(skus, heldPiece)]),
    skus: async (codes) => new Set([...(await stored.skus(codes)), ...among(codes, heldPiece).map(([sku]) => sku)]),
    orderIds: async (codes) =>
      new Set([...(await stored.orderIds(codes)), ...among(codes, heldOrder).map(([id]) => id)]),
    orders: async (ids) => withHeld(await stored.orders(ids), among(ids, heldOrder)),
    ordersWith: async (skus) => {
      const asked = new Set(skus);
      const known = await stored.ordersWith(skus);
      const asking = latest.flatMap((each) =>
        each.subject === 'orders' ? skus.flatMap((sku) => each.records.asking(sku)) : [],
      );
      const ids = [...new Set([...known.keys(), ...asking.map(({ id }) => id)])];
      const states = await stored.orders(ids);
      const all = withHeld(new Map([...known, ...states]), among(ids, heldOrder));
      return new Map([...all].filter(([, { order }]) => order.pieces.some(({ sku }) => asked.has(sku))));
    },
  };
}
