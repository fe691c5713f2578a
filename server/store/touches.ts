import type SqliteDatabase from 'better-sqlite3';
import type { StoreOrTransaction } from './open.ts';

/** Tables whose rows are written all day and counted for every screen. */
const WATCHED = { shop_order: 'id', parcel: null, folded_ahead: null, change_count: null } as const;
export type WatchedTable = keyof typeof WATCHED;

/**
 * What this process has written into some tables of a SQLite file, told by triggers that live with its connection, once it is
 * committed. What is undone is told, too: it is read once more than needed. Of PostgreSQL, where others write, nothing is known.
 */
export class Touches {
  /** other whenever another connection has written */
  readonly #version: SqliteDatabase.Statement<[]>;
  readonly #counts = new Map<WatchedTable, number>();
  readonly #followers = new Set<TouchedOrders>();
  readonly #changes: SqliteDatabase.Statement<[]>;
  /** written by a transaction that is under way */
  readonly #pending = { tables: new Set<WatchedTable>(), orders: new Set<string>() };
  #written: unknown = 0;
  #othersWrote: unknown;

  constructor(file: SqliteDatabase.Database) {
    this.#version = file.prepare<[]>('pragma data_version').pluck();
    this.#othersWrote = this.#version.get();
    this.#changes = file.prepare<[]>('select total_changes()').pluck();
    file.function('touched', { directOnly: false }, (table: unknown, id: unknown) => {
      this.#pending.tables.add(table as WatchedTable);
      if (table === 'shop_order') this.#pending.orders.add(String(id));
      return null;
    });
    for (const [table, id] of Object.entries(WATCHED)) {
      const told = (row: string) => `select touched('${table}', ${id === null ? 'null' : `${row}.${id}`})`;
      for (const [event, row] of [
        ['insert', 'new'],
        ['update', 'new'],
        ['delete', 'old'],
      ] as const) {
        file.exec(
          `create temp trigger touched_${table}_${event} after ${event} on main.${table} begin ${told(row)}; end`,
        );
      }
    }
  }

  /** Other whenever something was written into one of these tables. */
  of(...tables: readonly WatchedTable[]): string {
    this.#lookForOthers();
    return tables.map((table) => this.#counts.get(table) ?? 0).join(' ');
  }

  /** Other whenever anything was written into the store, by whomever. */
  written(): string {
    this.#lookForOthers();
    return `${String(this.#written)} ${String(this.#othersWrote)}`;
  }

  /** Which orders were written from now on. */
  followOrders(): TouchedOrders {
    const follower = new TouchedOrders({ look: () => this.#lookForOthers(), pending: this.#pending.orders });
    this.#followers.add(follower);
    return follower;
  }

  /** What was under way is committed or undone. */
  settled(): void {
    this.#written = this.#changes.get();
    const { tables, orders } = this.#pending;
    for (const table of tables) this.#counts.set(table, (this.#counts.get(table) ?? 0) + 1);
    for (const id of orders) for (const follower of this.#followers) follower.touch(id);
    tables.clear();
    orders.clear();
  }

  /** Another process may write, such as the command line: then everything may be otherwise. */
  #lookForOthers(): void {
    const version = this.#version.get();
    if (version === this.#othersWrote) return;
    this.#othersWrote = version;
    for (const table of Object.keys(WATCHED) as WatchedTable[]) {
      this.#counts.set(table, (this.#counts.get(table) ?? 0) + 1);
    }
    for (const follower of this.#followers) follower.touchAll();
  }
}

/** What a reader takes up to do: each with a mark, so that what is written again while it is read stays to be read. */
export interface Due {
  /** null: all orders */
  readonly orders: ReadonlyMap<string, number> | null;
  readonly all: number;
}

/** Orders that were written and not read since by one reader. */
export class TouchedOrders {
  readonly #source: { readonly look: () => void; readonly pending: ReadonlySet<string> };
  readonly #due = new Map<string, number>();
  #mark = 0;
  /** 0: not all of them are due */
  #all = 1;

  constructor(source: { readonly look: () => void; readonly pending: ReadonlySet<string> }) {
    this.#source = source;
  }

  touch(id: string): void {
    this.#due.set(id, ++this.#mark);
  }

  touchAll(): void {
    this.#all = ++this.#mark;
  }

  /** @param within a transaction, which sees what it has written itself */
  due(within: boolean): Due {
    this.#source.look();
    if (this.#all > 0) return { orders: null, all: this.#all };
    const orders = new Map(this.#due);
    if (within) for (const id of this.#source.pending) orders.set(id, orders.get(id) ?? 0);
    return { orders, all: 0 };
  }

  /** Whether an order was not written again since it was taken up. */
  isAsTaken(due: Due, id: string): boolean {
    return (this.#due.get(id) ?? 0) === due.orders?.get(id);
  }

  /** They were read, and nobody can undo what was read. */
  done(due: Due): void {
    if (due.orders === null) {
      if (this.#all === due.all) this.#all = 0;
      return;
    }
    for (const [id, mark] of due.orders) if (this.#due.get(id) === mark) this.#due.delete(id);
  }
}

const known = new WeakMap<object, Touches>();

export function keepTouches(store: StoreOrTransaction, touches: Touches): void {
  known.set(store.getExecutor().adapter, touches);
}

/** Of a store or of a transaction in it; null where it is not known what was written. */
export function touchesOf(store: StoreOrTransaction): Touches | null {
  return known.get(store.getExecutor().adapter) ?? null;
}
