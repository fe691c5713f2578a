import { setImmediate } from 'node:timers/promises';
import { sql } from 'kysely';
import type { StoredOrder } from './orders.ts';
import type { Existing, KnownCodes, NamedInFile } from './outcome.ts';
import type { Store } from '#server/store/open.ts';
import type { Piece } from '#shared/garments/types.ts';
import type { Order, OrderState } from '#shared/planning/types.ts';
import type { ImportSubject } from '#shared/wire/office.ts';

/** Read at once, between which other work gets its turn. */
const ROWS = 1000;
const NAMES = 400;

/**
 * What the store has, for a file to be held against: every code, but of the orders only those that the file names or
 * whose pieces it asks for. A shop's whole past is not held in memory.
 */
export class ExistingInStore implements Existing {
  readonly pieces: Pick<ReadonlyMap<string, Piece>, 'has' | 'get'>;
  readonly orders = new Map<string, StoredOrder>();
  readonly known: KnownCodes;
  readonly #store: Store;

  private constructor(store: Store, pieces: ReadonlyMap<string, string>, orders: ReadonlySet<string>) {
    this.#store = store;
    this.pieces = {
      has: (sku) => pieces.has(sku),
      get: (sku) => {
        const body = pieces.get(sku);
        return body === undefined ? undefined : (JSON.parse(body) as Piece);
      },
    };
    this.known = { isSku: (code) => pieces.has(code), isOrder: (code) => orders.has(code) };
  }

  static async read(store: Store, subject: ImportSubject): Promise<ExistingInStore> {
    const pieces = new Map<string, string>();
    for (let after: string | undefined = ''; after !== undefined;) {
      const rows: readonly { sku: string; body: string }[] = await store
        .selectFrom('piece')
        // Only a file of pieces is held against what the pieces are.
        .select(['sku', subject === 'pieces' ? 'body' : sql<string>`''`.as('body')])
        .where('sku', '>', after)
        .orderBy('sku')
        .limit(ROWS)
        .execute();
      for (const { sku, body } of rows) pieces.set(sku, body);
      after = rows.at(-1)?.sku;
      await setImmediate();
    }
    const orders = new Set<string>();
    for (let after: string | undefined = ''; after !== undefined;) {
      const rows: readonly { id: string }[] = await store
        .selectFrom('shop_order')
        .select('id')
        .where('id', '>', after)
        .orderBy('id')
        .limit(ROWS)
        .execute();
      for (const { id } of rows) orders.add(id);
      after = rows.at(-1)?.id;
      await setImmediate();
    }
    return new ExistingInStore(store, pieces, orders);
  }

  /** Reads the orders that a file is about. */
  async lookUp({ orders, skus }: NamedInFile): Promise<void> {
    for (let at = 0; at < orders.length; at += NAMES) {
      const query = this.#orders().where('shop_order.id', 'in', orders.slice(at, at + NAMES));
      this.#keep(await query.execute());
      await setImmediate();
    }
    for (let at = 0; at < skus.length; at += NAMES) {
      const query = this.#orders()
        .innerJoin('order_piece', 'order_piece.order_id', 'shop_order.id')
        .where('order_piece.sku', 'in', skus.slice(at, at + NAMES));
      this.#keep(await query.execute());
      await setImmediate();
    }
  }

  #orders() {
    return this.#store.selectFrom('shop_order').select(['shop_order.id', 'shop_order.body', 'shop_order.state']);
  }

  #keep(rows: readonly { readonly id: string; readonly body: string; readonly state: OrderState }[]): void {
    for (const { id, body, state } of rows) this.orders.set(id, { order: JSON.parse(body) as Order, state });
  }
}
