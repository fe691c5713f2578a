import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'csv-parse/sync';
import { z } from 'zod';
import { previewAgainstStore, type Previewed } from './import-service.ts';
import { storeRecords, type Records } from './import-store.ts';
import { existingInStore } from './imports/existing-in-store.ts';
import { previewTable } from './imports/preview.ts';
import { Scratch } from './imports/scratch.ts';
import { openTable } from './imports/table.ts';
import { stockChange } from './supplies/stock-entry.ts';
import type { Clock } from '#server/clock.ts';
import { inTransaction } from '#server/store/in-transaction.ts';
import type { Store } from '#server/store/open.ts';
import { saveOrder } from '#server/store/orders.ts';
import { changeStock, stockLevels } from '#server/store/stock.ts';
import type { Shop } from '#shared/shop/shop.ts';

/**
 * A config folder may carry a demo: its pieces and orders come in at the first start, through the same import as any file.
 * Its ship-by times and promised days are relative, so at a later start the orders that still wait are given new ones: the demo never goes stale.
 */
export async function seedDemo(folder: string, shop: Shop, store: Store, clock: Clock): Promise<void> {
  for (const subject of ['pieces', 'orders'] as const) {
    const file = join(folder, 'demo', `${subject}.csv`);
    if (!existsSync(file)) continue;
    const bytes = readFileSync(file);
    const parts = { store, shop, clock };
    const previewed = await previewAgainstStore(parts, { content: bytes, fileName: `${subject}.csv`, subject });
    // What the shop has changed since stays as it is: only what is missing comes in.
    const records = await missingOf(store, previewed);
    await storeRecords(store, records, { now: clock.now(), since: previewed.at });
    previewed.records.close();
    if (subject === 'orders') await refreshDays(bytes, parts);
  }
  await seedStock(folder, shop, store, clock);
}

async function missingOf(store: Store, previewed: Previewed): Promise<Records> {
  const existing = existingInStore(store);
  if (previewed.subject === 'pieces') {
    const pieces = previewed.records.slice(0, previewed.records.length);
    const known = await existing.skus(pieces.map(({ sku }) => sku));
    return { subject: 'pieces', records: pieces.filter(({ sku }) => !known.has(sku)) };
  }
  const orders = previewed.records.slice(0, previewed.records.length);
  const known = await existing.orderIds(orders.map(({ id }) => id));
  return { subject: 'orders', records: orders.filter(({ id }) => !known.has(id)) };
}

async function refreshDays(
  bytes: Uint8Array,
  { store, shop, clock }: { readonly store: Store; readonly shop: Shop; readonly clock: Clock },
): Promise<void> {
  const now = clock.now();
  const inStore = existingInStore(store);
  const none = () => Promise.resolve(new Map<never, never>());
  const scratch = new Scratch(null);
  const { records } = await previewTable(
    {
      fileName: 'orders.csv',
      subject: 'orders',
      shop,
      existing: { ...inStore, orders: none, ordersWith: none },
      now,
    },
    await openTable(bytes),
    scratch,
  );
  const days = new Map(records.slice(0, records.length).map(({ id, shipBy, arriveBy }) => [id, { shipBy, arriveBy }]));
  scratch.close();
  const stored = await inStore.orders([...days.keys()]);
  for (const { order, state } of stored.values()) {
    const renewed = days.get(order.id);
    if (state !== 'open' || renewed === undefined || Date.parse(order.shipBy) >= now) continue;
    await saveOrder(
      store,
      { ...order, shipBy: renewed.shipBy, ...(renewed.arriveBy && { arriveBy: renewed.arriveBy }) },
      now,
    );
  }
}

/** The demo's shelf is counted once, at the first start. */
async function seedStock(folder: string, shop: Shop, store: Store, clock: Clock): Promise<void> {
  const file = join(folder, 'demo', 'stock.csv');
  if (!existsSync(file) || (await stockLevels(store)).size > 0) return;
  const lines: unknown = parse(readFileSync(file, 'utf8'), { columns: true, skip_empty_lines: true });
  const rows = z.array(z.strictObject({ supply: z.string(), amount: z.string() })).parse(lines);
  await inTransaction(store, async (transaction) => {
    for (const { supply, amount } of rows) {
      const entry = { kind: 'counted', amount, in: 'unit', reason: 'first count', who: null } as const;
      await changeStock(transaction, stockChange(supply, entry, shop, clock.now()));
    }
  });
}
