import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { storeRecords, resumeImports } from '#server/office/import-store.ts';
import { applyImport, previewAgainstStore } from '#server/office/import-service.ts';
import type { Store } from '#server/store/open.ts';
import { claimOrder, findOrder } from '#server/store/orders.ts';
import { orderFile, orderNumber, pieceFile } from '#tests/support/order-file.ts';
import { importShop } from '#tests/support/import-shop.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';
import { openTestStore } from '#tests/support/test-store.ts';

const COUNT = 620;
let folder: ReturnType<typeof temporaryFolder>;
let store: Store;
beforeEach(async () => {
  folder = temporaryFolder('bulk');
  store = await openTestStore(folder.path);
});
afterEach(async () => {
  await store.destroy();
  folder.remove();
});

const parts = () => ({ store, shop: importShop, clock: { now: () => Date.parse('2026-11-25T12:00:00Z') } });
const preview = (subject: 'pieces' | 'orders', text: string, progress?: (done: number, of: number) => void) =>
  previewAgainstStore(parts(), { content: new TextEncoder().encode(text), fileName: 'bulk.csv', subject }, progress);
const stored = async () =>
  (
    await store
      .selectFrom('shop_order')
      .select((select) => select.fn.countAll<number>().as('count'))
      .executeTakeFirstOrThrow()
  ).count;

describe('a long file', () => {
  beforeEach(async () => {
    await applyImport(parts(), await preview('pieces', pieceFile(COUNT)));
  });

  it('is looked through and stored in turns, says how far it is, and lists only its beginning', async () => {
    const told: number[] = [];
    let turns = 0;
    const other = setInterval(() => (turns += 1), 0);
    const previewed = await preview('orders', orderFile(COUNT), (done, of) => told.push(done / of));
    expect(previewed.preview).toMatchObject({
      unchanged: 0,
      refused: [],
      counts: { added: COUNT, changed: 0, refused: 0 },
    });
    expect(previewed.preview.added).toHaveLength(500);
    expect(await stored()).toBe(0);
    const applied = await applyImport(parts(), previewed, (done, of) => told.push(1 + done / of));
    clearInterval(other);
    expect(applied).toEqual({ added: COUNT, changed: 0, unchanged: 0, refused: 0 });
    expect(await stored()).toBe(COUNT);
    expect(told).toEqual([...told].sort((a, b) => a - b));
    expect(told.at(-1)).toBe(2);
    expect(turns).toBeGreaterThan(10);
    expect((await preview('orders', orderFile(COUNT))).preview).toMatchObject({ unchanged: COUNT, added: [] });
  });

  it('changes what waits, leaves what a bench has taken since, and counts each', async () => {
    await applyImport(parts(), await preview('orders', orderFile(COUNT)));
    const changed = orderFile(COUNT).replaceAll('floor', 'storey');
    const previewed = await preview('orders', changed);
    expect(previewed.preview.counts).toEqual({ added: 0, changed: COUNT, refused: 0 });
    await claimOrder(store, { order: orderNumber(7), bench: 'bench-1', run: 'r', now: 1 });
    expect(await applyImport(parts(), previewed)).toEqual({ added: 0, changed: COUNT - 1, unchanged: 0, refused: 1 });
    expect((await findOrder(store, orderNumber(7)))?.order.address.join()).toContain('floor');
    expect(await findOrder(store, orderNumber(8))).toMatchObject({ version: 1 });
    // A piece of another order is refused although neither order is of the file's.
    const stolen = orderFile(1).replace(orderNumber(0), 'THIEF');
    expect((await preview('orders', stolen)).preview.refused).toMatchObject([
      { line: 2, found: expect.stringContaining(`order ${orderNumber(0)}`) as string },
    ]);
  });

  it('is stored to its end by the next start when the server stops in the middle of it, and not at all before', async () => {
    const { records } = await preview('orders', orderFile(COUNT));
    const all = { subject: 'orders', records: records as never } as const;
    const stopAt = (part: number) => (done: number, of: number) => {
      if (done / of >= part) throw new Error('the power is gone');
    };
    await expect(storeRecords(store, all, { now: 1, since: 0 }, stopAt(0.3))).rejects.toThrow('power');
    await store.destroy();
    store = await openTestStore(folder.path);
    expect(await resumeImports(store)).toBe(0);
    expect(await stored()).toBe(0);
    expect(await store.selectFrom('import_record').selectAll().execute()).toEqual([]);

    await expect(storeRecords(store, all, { now: 1, since: 0 }, stopAt(0.7))).rejects.toThrow('power');
    const half = await stored();
    expect(half).toBeGreaterThan(0);
    expect(half).toBeLessThan(COUNT);
    await store.destroy();
    store = await openTestStore(folder.path);
    expect(await resumeImports(store)).toBe(COUNT - half);
    expect(await stored()).toBe(COUNT);
    expect(await store.selectFrom('import_job').selectAll().execute()).toEqual([]);
    expect(await resumeImports(store)).toBe(0);
  });
});
