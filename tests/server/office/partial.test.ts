import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { applyImport, previewAgainstStore } from '#server/office/import-service.ts';
import { cancelOrder } from '#server/office/cancel-order.ts';
import { leaveOut, restIsHere } from '#server/office/partial/leave-out.ts';
import { orderDetail } from '#server/office/search/order-detail.ts';
import { openStore, type Store } from '#server/store/open.ts';
import { claimOrder, closeOrder, findOrder, openOrders } from '#server/store/orders.ts';
import { savePieces } from '#server/store/pieces.ts';
import { importShop } from '#tests/support/import-shop.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';

let data: ReturnType<typeof temporaryFolder>;
let store: Store;
let now = 0;

const FILE = [
  'order,sku,buyer,address,postcode,ship by,paidPostage',
  'O-1,A,Ida Wren,1 Lark Lane,55802,2027-01-05,9.50',
  'O-1,B,,,,,',
  'O-1,C,,,,,',
  '',
].join('\n');

beforeEach(async () => {
  data = temporaryFolder('partial');
  store = await openStore(data.path);
  await savePieces(
    store,
    ['A', 'B', 'C', 'D'].map((sku) => ({ sku, title: sku, kind: 'jeans' })),
  );
  await importFile(FILE);
});
afterEach(async () => {
  await store.destroy();
  data.remove();
});

const noNote = () => Promise.resolve();
const leave = (skus: readonly string[], follow: boolean, order = 'O-1') =>
  leaveOut(store, { order, skus, follow, by: 'mara' }, (now += 1000), noNote);
const skusOf = async (id: string) => (await findOrder(store, id))?.order.pieces.map(({ sku }) => sku);
const stateOf = async (id: string) => (await findOrder(store, id))?.state;

async function importFile(text: string) {
  const parts = { store, shop: importShop, clock: { now: () => (now += 1000) } };
  const file = { content: Buffer.from(text), fileName: 'orders.csv', subject: 'orders' } as const;
  const previewed = await previewAgainstStore(parts, file);
  await applyImport(parts, previewed);
  return previewed.preview;
}

describe('an order that is sent without a piece', () => {
  it('is open with the others, keeps what was paid, and has its rest set aside until the piece is there', async () => {
    await closeOrder(store, { order: 'O-1', state: 'set-aside', reason: 'missing', now: 1, asidePlace: 4 });
    expect(await leave(['B'], true)).toEqual({ done: true, follows: 'O-1-2' });
    const first = await findOrder(store, 'O-1');
    // Where its pieces lie is still known to whoever takes it.
    expect(first).toMatchObject({ state: 'open', reason: null, asidePlace: 4 });
    expect(first?.order).toMatchObject({
      paidPostage: { minor: 950, currency: 'USD' },
      leftOut: [{ sku: 'B', follows: 'O-1-2', by: 'mara', at: now }],
    });
    expect([await skusOf('O-1'), await skusOf('O-1-2')]).toEqual([['A', 'C'], ['B']]);
    const rest = await findOrder(store, 'O-1-2');
    expect(rest).toMatchObject({ state: 'set-aside', reason: 'missing', order: { restOf: 'O-1', buyer: 'Ida Wren' } });
    expect(rest?.order.paidPostage).toBeUndefined();
    expect((await openOrders(store, 10)).map(({ order }) => order.id)).toEqual(['O-1']);
    expect(await restIsHere(store, 'O-1-2', (now += 1), noNote)).toBe('done');
    expect(await restIsHere(store, 'O-1-2', (now += 1), noNote)).toBe('not-waiting');
    expect(await stateOf('O-1-2')).toBe('open');
    expect(await orderDetail(store, importShop, 'O-1-2')).toMatchObject({ restOf: 'O-1', leftOut: [] });
    expect(await orderDetail(store, importShop, 'O-1')).toMatchObject({
      restOf: null,
      leftOut: [{ sku: 'B', follows: 'O-1-2' }],
    });
  });

  it('stays so when its file is imported again, and what the file changes of the address goes to both', async () => {
    await leave(['B'], true);
    expect(await importFile(FILE)).toMatchObject({ unchanged: 1, refused: [], counts: { added: 0, changed: 0 } });
    const moved = FILE.replace('1 Lark Lane', '2 Lark Lane');
    expect(await importFile(moved)).toMatchObject({ refused: [], counts: { changed: 1 } });
    for (const id of ['O-1', 'O-1-2']) expect((await findOrder(store, id))?.order.address).toEqual(['2 Lark Lane']);
    expect([await skusOf('O-1'), await skusOf('O-1-2')]).toEqual([['A', 'C'], ['B']]);
    expect(await stateOf('O-1-2')).toBe('set-aside');
    // One more piece of the buyer's goes to the first.
    await importFile(`${moved}O-1,D,,,,,\n`);
    expect(await skusOf('O-1')).toEqual(['A', 'C', 'D']);
    // With nothing but what it goes without, the order would be empty.
    const onlyLeft = FILE.replace('O-1,A', 'O-1,B').replace(/O-1,[BC],,,,,\n/g, '');
    expect((await importFile(onlyLeft)).refused).toMatchObject([{ line: 2, column: 'sku', found: '"B"' }]);
  });

  it('may lose the piece for good; a rest may be dropped or divided again', async () => {
    expect(await leave(['A'], false)).toEqual({ done: true, follows: null });
    expect(await skusOf('O-1')).toEqual(['B', 'C']);
    expect((await importFile(FILE)).unchanged).toBe(1);
    expect(await leave(['B'], true)).toEqual({ done: true, follows: 'O-1-2' });
    expect((await importFile(FILE)).unchanged).toBe(1);
    expect(await cancelOrder(store, 'O-1-2', (now += 1))).toBe('done');
    expect((await importFile(FILE)).unchanged).toBe(1);
    expect(await skusOf('O-1')).toEqual(['C']);
  });

  it('is refused where it makes no sense, and changes nothing', async () => {
    expect(await leave(['A'], true, 'none')).toEqual({ done: false, why: 'unknown-order' });
    expect(await leave(['D'], true)).toEqual({ done: false, why: 'not-its-pieces' });
    expect(await leave([], true)).toEqual({ done: false, why: 'not-its-pieces' });
    expect(await leave(['A', 'B', 'C'], true)).toEqual({ done: false, why: 'nothing-left' });
    await claimOrder(store, { order: 'O-1', bench: 'bench-1', run: 'r', now: 1 });
    expect(await leave(['A'], true)).toEqual({ done: false, why: 'in-hand' });
    await closeOrder(store, { order: 'O-1', state: 'packed', reason: null, now: 1 });
    expect(await leave(['A'], true)).toEqual({ done: false, why: 'not-waiting' });
    expect(await skusOf('O-1')).toEqual(['A', 'B', 'C']);
    expect(await stateOf('O-1-2')).toBeUndefined();
  });
});
