import { addressDoubts } from '#shared/addresses/address-doubts.ts';
import { MOST_PIECES } from '#shared/planning/most-pieces.ts';
import type { Order } from '#shared/planning/types.ts';
import { columnsFor } from './columns-for.ts';
import { changesBetween } from './compare.ts';
import { refuseHeldPieces } from './held-pieces.ts';
import { NameIndex } from './name-index.ts';
import type { OrderReading } from './order-rows.ts';
import { OrderGatherer, orderTexts, toOrder, type OrderDraft } from './orders.ts';
import { Outcome, type ImportRequest, type ImportResult, type RunningImport } from './outcome.ts';
import { ShopCodes } from './scannable.ts';
import type { Table } from './table.ts';

/** @throws ImportError columns-missing or columns-twice */
export function importOrders(request: ImportRequest, table: Table): RunningImport<Order> {
  const { shop, existing } = request;
  const columns = columnsFor(request, table, 'orders');
  const known = existing.known ?? {
    isSku: (code) => existing.pieces.has(code),
    isOrder: (code) => existing.orders.has(code),
  };
  const services = shop.rates.cards.flatMap((card) => card.services);
  const reading: OrderReading = {
    shop,
    now: request.now,
    isSku: known.isSku,
    codes: new ShopCodes(shop, known.isOrder, known.isSku),
    services: new NameIndex(services.map(({ id, name }) => ({ id, names: Object.values(name) }))),
    serviceIds: [...new Set(services.map(({ id }) => id))],
  };
  const gatherer = new OrderGatherer(columns.byField, table.header.length, reading);
  const finishing = function* (): Generator<number, ImportResult<Order>> {
    const skuHeader = columns.byField.get('skus')?.header ?? null;
    const total = gatherer.drafts.size;
    for (const draft of gatherer.drafts.values()) {
      goWithout(draft, existing.orders.get(draft.id)?.order, skuHeader);
      refuseTooMany(draft, skuHeader);
    }
    yield* refuseHeldPieces(gatherer.drafts, existing.orders, skuHeader);

    const outcome = new Outcome<Order>();
    outcome.refused.push(...gatherer.homeless);
    let done = 0;
    for (const draft of gatherer.drafts.values()) {
      gatherer.drafts.delete(draft.id);
      done += 1;
      if (done % A_TURN === 0) yield done / total;
      const stored = existing.orders.get(draft.id);
      const order = toOrder(draft, stored?.order, (field) => columns.byField.has(field));
      if (order === null) {
        outcome.refused.push(...draft.refused);
        continue;
      }
      const changes =
        stored === undefined ? null : changesBetween(orderTexts(stored.order, shop), orderTexts(order, shop));
      if (changes !== null && changes.length > 0 && stored?.state !== 'open' && stored?.state !== 'set-aside') {
        const found = `order ${draft.id}, which is ${STATE_WORDS[stored?.state ?? 'packing']} (${changes.map((each) => each.field).join(', ')} would change)`;
        const column = columns.byField.get('order')?.header ?? null;
        outcome.refused.push({ line: draft.line, column, expected: 'an order that is not yet packed', found });
        continue;
      }
      const count = order.pieces.length;
      const summary = `${order.buyer}, ${order.to.postcode}: ${String(count)} ${count === 1 ? 'piece' : 'pieces'}`;
      const doubts = addressDoubts(order);
      const told = doubts.length === 0 ? {} : { doubts };
      outcome.sort({ line: draft.line, id: order.id, summary, ...told }, order, changes);
    }
    return outcome.result(request, table, columns.all);
  };
  return {
    take: (row) => gatherer.take(row),
    named: () => ({
      orders: [...gatherer.drafts.keys()],
      skus: [...gatherer.drafts.values()].flatMap(({ skus }) => [...skus.keys()]),
    }),
    finishing,
  };
}

/** So many orders are some milliseconds. */
const A_TURN = 100;

/** What an order was sent without stays out of it, whatever the file says. */
function goWithout({ skus, line, refused }: OrderDraft, stored: Order | undefined, column: string | null): void {
  const [first] = skus.keys();
  for (const { sku } of stored?.leftOut ?? []) skus.delete(sku);
  if (skus.size > 0 || first === undefined) return;
  refused.push({ line, column, expected: 'a piece that this order was not sent without', found: `"${first}"` });
}

function refuseTooMany({ skus, line, refused }: OrderDraft, column: string | null): void {
  if (skus.size <= MOST_PIECES) return;
  const expected = `at most ${String(MOST_PIECES)} pieces in one order; divide it into several`;
  refused.push({ line, column, expected, found: `${String(skus.size)} pieces` });
}

const STATE_WORDS: Readonly<Record<string, string>> = {
  packing: 'being packed',
  packed: 'packed',
  cancelled: 'cancelled',
  combined: 'combined with others: take them apart on the page Orders first',
};
