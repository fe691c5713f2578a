import { setImmediate } from 'node:timers/promises';
import { Deadlines } from '#server/office/day-board/deadlines.ts';
import type { StoreOrTransaction } from '#server/store/open.ts';
import { findQueued, openVersions, type QueuedRow } from '#server/store/orders.ts';
import { findPieces, pieceChanges } from '#server/store/pieces.ts';
import { OrderChanges } from '#server/store/postgres/order-changes.ts';
import { touchesOf, type Due, type TouchedOrders } from '#server/store/touches.ts';
import { Collections } from '#shared/day-board/collections.ts';
import type { Order } from '#shared/planning/types.ts';
import type { WaitingOrder } from '#shared/queue/choice.ts';
import type { Shop } from '#shared/shop/shop.ts';

/** An order in the queue, with who collects it. */
export interface Queued extends WaitingOrder {
  readonly order: Order;
  readonly version: number;
  /** by id */
  readonly carriers: readonly string[];
  /** of how many parcels its plan is; null while that is not known */
  readonly parcels: number | null;
}

type Planned = Pick<Queued, 'container' | 'parcels'>;

/** So many are some milliseconds. */
const AT_ONCE = 500;

/**
 * What is known of the orders that wait, brought up to what is stored at each use: of those that were written since, only
 * these are read again.
 */
export class WaitingOrders {
  readonly #shopNow: () => Shop;
  readonly #planOf: (order: string, version: number) => Planned;
  readonly #entries = new Map<string, Queued>();
  readonly #collections = new Collections();
  #deadlines: Deadlines;
  #shop: Shop;
  #pieces = -1;
  /** when `#pieces` was read; null where that is not known */
  #piecesKey: string | null = null;
  #touched: TouchedOrders | null = null;
  /** where other servers write, too */
  readonly #changes = new OrderChanges();
  #comparing: Promise<void> | null = null;

  constructor(shop: () => Shop, planOf: (order: string, version: number) => Planned) {
    this.#shopNow = shop;
    this.#planOf = planOf;
    this.#shop = shop();
    this.#deadlines = new Deadlines(this.#shop);
  }

  get all(): ReadonlyMap<string, Queued> {
    return this.#entries;
  }

  get collections(): Collections {
    return this.#collections;
  }

  /** The plan of an order was made. */
  planned(id: string, version: number, plan: Planned): void {
    const entry = this.#entries.get(id);
    if (entry?.version === version) this.#entries.set(id, { ...entry, ...plan });
  }

  /** Brings what is known up to what is stored. */
  async follow(store: StoreOrTransaction): Promise<void> {
    await this.#followShop(store);
    this.#touched ??= touchesOf(store)?.followOrders() ?? this.#changes.touched;
    const touched = this.#touched;
    if (touched === this.#changes.touched) await this.#changes.look(store);
    const due = touched.due(store.isTransaction);
    // Somebody else may have read all of them meanwhile, and newer.
    const compare = () => this.#compareAll(store, () => touched.due(false).all === due.all);
    if (due.orders === null && !store.isTransaction) {
      // At a start all benches ask at once: one of them reads, the others wait for it.
      this.#comparing ??= compare()
        .then(() => touched.done(due))
        .finally(() => (this.#comparing = null));
      await this.#comparing;
      return this.follow(store);
    }
    if (due.orders === null) await compare();
    else if (due.orders.size > 0) await this.#readAgain(store, due, touched);
    // A transaction may be undone, with all that was read in it.
    if (!store.isTransaction) touched.done(due);
  }

  async #followShop(store: StoreOrTransaction): Promise<void> {
    const shop = this.#shopNow();
    const key = touchesOf(store)?.of('change_count') ?? null;
    const pieces = key !== null && key === this.#piecesKey ? this.#pieces : await pieceChanges(store);
    this.#piecesKey = store.isTransaction ? null : key;
    if (shop === this.#shop && pieces === this.#pieces) return;
    this.#entries.clear();
    this.#collections.clear();
    this.#shop = shop;
    this.#pieces = pieces;
    this.#deadlines = new Deadlines(shop);
    this.#touched?.touchAll();
  }

  async #compareAll(store: StoreOrTransaction, stillDue: () => boolean): Promise<void> {
    const open = await openVersions(store);
    const unknown = [...open].flatMap(([id, version]) => (this.#entries.get(id)?.version === version ? [] : [id]));
    const read = await this.#read(store, unknown);
    if (!stillDue()) return;
    for (const id of this.#entries.keys()) if (!open.has(id)) this.#remove(id);
    for (const entry of read) this.#put(entry);
  }

  async #readAgain(store: StoreOrTransaction, due: Due, touched: TouchedOrders): Promise<void> {
    const ids = [...(due.orders?.keys() ?? [])];
    const read = new Map((await this.#read(store, ids)).map((entry) => [entry.id, entry]));
    for (const id of ids) {
      // One that was written again meanwhile is read again, by whoever asks next.
      if (!touched.isAsTaken(due, id)) continue;
      const entry = read.get(id);
      if (entry === undefined) this.#remove(id);
      else this.#put(entry);
    }
  }

  #put(entry: Queued): void {
    this.#remove(entry.id);
    this.#entries.set(entry.id, entry);
    this.#collections.add(entry.collection);
  }

  #remove(id: string): void {
    const entry = this.#entries.get(id);
    if (entry === undefined) return;
    this.#entries.delete(id);
    this.#collections.remove(entry.collection);
  }

  /** Those that are open. */
  async #read(store: StoreOrTransaction, ids: readonly string[]): Promise<readonly Queued[]> {
    if (ids.length === 0) return [];
    const rows = await findQueued(store, ids);
    const skus = rows.flatMap(({ order }) => order.pieces.slice(0, 1).map(({ sku }) => sku));
    const pieces = await findPieces(store, [...new Set(skus)]);
    const read: Queued[] = [];
    for (const [index, row] of rows.entries()) {
      if (index % AT_ONCE === AT_ONCE - 1) await setImmediate();
      read.push(this.#entry(row, pieces.get(row.order.pieces[0]?.sku ?? '')?.place ?? null));
    }
    return read;
  }

  #entry({ order, version, cameAt }: QueuedRow, shelf: string | null): Queued {
    const { at, carriers } = this.#deadlines.of(order);
    const plan = this.#planOf(order.id, version);
    return { id: order.id, order, version, collection: Date.parse(at), carriers, shelf, cameAt, ...plan };
  }
}
