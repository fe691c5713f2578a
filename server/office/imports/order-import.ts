import { addressDoubts } from '#shared/addresses/address-doubts.ts';
import { MOST_PIECES } from '#shared/planning/most-pieces.ts';
import type { Order } from '#shared/planning/types.ts';
import { setImmediate } from 'node:timers/promises';
import { columnsFor } from './columns-for.ts';
import { changesBetween } from './compare.ts';
import { HeldPieces } from './held-pieces.ts';
import { NameIndex } from './name-index.ts';
import { OrderDrafts, READING_ROUND, type OrderDraft } from './order-drafts.ts';
import { skusIn, type OrderReading } from './order-rows.ts';
import { orderTexts, toOrder, type StoredOrder } from './orders.ts';
import { Outcome, type ImportRequest, type RunningImport } from './outcome.ts';
import { RowReader } from './row.ts';
import { ShopCodes } from './scannable.ts';
import type { Scratch } from './scratch.ts';
import type { Table } from './table.ts';

/** @throws ImportError columns-missing or columns-twice */
export function importOrders(request: ImportRequest, table: Table, scratch: Scratch): RunningImport<Order> {
  const { shop, existing } = request;
  const columns = columnsFor(request, table, 'orders');
  const services = shop.rates.cards.flatMap((card) => card.services);
  let skus: ReadonlySet<string> = new Set();
  const isSku = (code: string): boolean => skus.has(code);
  const reading: OrderReading = {
    shop,
    now: request.now,
    isSku,
    codes: new ShopCodes(shop, { isOrder: () => false, isSku }),
    services: new NameIndex(services.map(({ id, name }) => ({ id, names: Object.values(name) }))),
    serviceIds: [...new Set(services.map(({ id }) => id))],
  };
  const outcome = new Outcome<Order>(scratch);
  const drafts = new OrderDrafts(scratch, reading, (refused) => outcome.refuse(refused));
  const skuHeader = columns.byField.get('skus')?.header ?? null;
  const orderHeader = columns.byField.get('order')?.header ?? null;
  const held = new HeldPieces(scratch, drafts, skuHeader);

  /** Looks at each draft beside what the store has of it and of its pieces. */
  const holdAgainstStore = async (some: readonly OrderDraft[]): Promise<void> => {
    const stored = await existing.orders(some.map(({ id }) => id));
    const asked = new Set<string>();
    for (const draft of some) {
      goWithout(drafts, draft, stored.get(draft.id)?.order, skuHeader);
      refuseTooMany(drafts, draft, skuHeader);
      if (drafts.countPieces(draft.seq) > MOST_PIECES) continue;
      for (const { sku } of drafts.pieces(draft.seq)) asked.add(sku);
    }
    held.note(asked, await existing.ordersWith([...asked]));
  };

  const settle = (draft: OrderDraft, stored: StoredOrder | undefined): void => {
    const { seq, id, line } = draft;
    const pieces = drafts.pieces(seq).map(({ sku }) => sku);
    const order = toOrder(draft, pieces, stored?.order, (field) => columns.byField.has(field));
    if (order === null) return;
    const changes =
      stored === undefined ? null : changesBetween(orderTexts(stored.order, shop), orderTexts(order, shop));
    if (changes !== null && changes.length > 0 && stored?.state !== 'open' && stored?.state !== 'set-aside') {
      const found = `order ${id}, which is ${STATE_WORDS[stored?.state ?? 'packing'] ?? ''} (${changes.map((each) => each.field).join(', ')} would change)`;
      outcome.refuse([{ line, column: orderHeader, expected: 'an order that is not yet packed', found }]);
      return;
    }
    const count = order.pieces.length;
    const summary = `${order.buyer}, ${order.to.postcode}: ${String(count)} ${count === 1 ? 'piece' : 'pieces'}`;
    const doubts = addressDoubts(order);
    const told = doubts.length === 0 ? {} : { doubts };
    outcome.sort({ line, id: order.id, summary, ...told }, order, changes, pieces);
  };

  return {
    take: async ({ rows }) => {
      const readers = rows.map((row) => new RowReader(row, columns.byField, table.header.length));
      skus = await existing.skus(readers.flatMap((row) => [row.peek('order'), ...skusIn(row.peek('skus'))]));
      for (const row of readers) drafts.take(row);
    },
    finish: async (progress) => {
      const total = drafts.length;
      for (let from = 0; from < total; from += A_TURN) {
        await holdAgainstStore(drafts.slice(from, A_TURN));
        progress((0.4 * from) / total);
        await setImmediate();
      }
      await held.refuse(async () => {
        await setImmediate();
      });
      for (let from = 0; from < total; from += A_TURN) {
        const some = drafts.slice(from, A_TURN).filter(({ refused }) => refused === 0);
        const stored = await existing.orders(some.map(({ id }) => id));
        for (const draft of some) settle(draft, stored.get(draft.id));
        progress(0.4 + (0.6 * from) / total);
        await setImmediate();
      }
      return outcome.result(request, table, columns.all);
    },
  };
}

/** So many orders are some milliseconds. */
const A_TURN = 100;

/** What an order was sent without stays out of it, whatever the file says. */
function goWithout(
  drafts: OrderDrafts,
  { seq, line }: OrderDraft,
  stored: Order | undefined,
  column: string | null,
): void {
  const leftOut = stored?.leftOut ?? [];
  if (leftOut.length === 0) return;
  const [first] = drafts.pieces(seq);
  for (const { sku } of leftOut) drafts.goWithout(seq, sku);
  if (first === undefined || drafts.countPieces(seq) > 0) return;
  const expected = 'a piece that this order was not sent without';
  drafts.refuse(seq, READING_ROUND, [{ line, column, expected, found: `"${first.sku}"` }]);
}

function refuseTooMany(drafts: OrderDrafts, { seq, line }: OrderDraft, column: string | null): void {
  const count = drafts.countPieces(seq);
  if (count <= MOST_PIECES) return;
  const expected = `at most ${String(MOST_PIECES)} pieces in one order; divide it into several`;
  drafts.refuse(seq, READING_ROUND, [{ line, column, expected, found: `${String(count)} pieces` }]);
}

const STATE_WORDS: Readonly<Record<string, string>> = {
  packing: 'being packed',
  packed: 'packed',
  cancelled: 'cancelled',
  combined: 'combined with others: take them apart on the page Orders first',
};
