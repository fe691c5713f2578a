import { randomUUID } from 'node:crypto';
import { existsSync, mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { strFromU8, unzipSync } from 'fflate';
import { pino } from 'pino';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { loadShop } from '#config/load.ts';
import { secretHash } from '#server/access/secrets.ts';
import { runCli } from '#server/cli/cli.ts';
import { seedDemo } from '#server/office/demo.ts';
import { buyerRetention } from '#server/privacy/buyer-retention.ts';
import { exportBuyer } from '#server/privacy/export-buyer.ts';
import { KEPT } from '#server/privacy/kept.ts';
import { OwedBytes } from '#server/privacy/owed-bytes.ts';
import { purgeBuyer, resumePurges } from '#server/privacy/purge.ts';
import { TAKEN_OUT } from '#server/privacy/scrub.ts';
import { keepPhoto } from '#server/proof/keep-photo.ts';
import { PhotoFiles } from '#server/proof/photo-files.ts';
import type { ShopHolder } from '#server/shop-holder.ts';
import type { Store } from '#server/store/open.ts';
import { photoById } from '#server/store/photos.ts';
import { openPurges } from '#server/store/purges.ts';
import { allOrders, findOrder, openOrders, saveOrder } from '#server/store/orders.ts';
import { benchRun, finish, take } from '#tests/support/finish-run.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';
import { databaseFor } from '#tests/support/shared-cluster.ts';
import { smallJpeg } from '#tests/support/small-jpeg.ts';
import { openTestStore } from '#tests/support/test-store.ts';

// On both kinds of store: what is told of people's data, and one buyer's handed out and taken out.

const BUYER = "Zqbuyer O'Zqson";
const NOW = Date.parse('2026-11-25T15:00:00Z');
const clock = { now: () => NOW };
const shop = loadShop('config');
const data = temporaryFolder('personal-data');
let database: string | null;
let store: Store;
let files: PhotoFiles;
let order: string;

const cli = (...args: readonly string[]) =>
  runCli(args, {
    now: NOW,
    config: 'config',
    data: data.path,
    database,
    workingFolder: process.cwd(),
    stdin: () => new Uint8Array(),
    wire: 'build/api/wire.json',
    templates: 'config',
  });

beforeAll(async () => {
  mkdirSync(data.path, { recursive: true });
  database = await databaseFor(data.path);
  store = await openTestStore(data.path);
  files = new PhotoFiles(join(data.path, 'photos'));
  await seedDemo('config', shop, store, clock);
  const [first] = await openOrders(store, 1);
  if (first === undefined) throw new Error('no order');
  order = first.order.id;
  await saveOrder(store, { ...first.order, buyer: BUYER, address: ['Zqlane 7'], note: 'Zqnote' }, NOW);
  const run = benchRun({ store, shop, clock });
  await take(run, order);
  const here = { run: run.state.run, packer: null };
  await finish(run, NOW, 'ZQLABEL-');
  const photo = { id: randomUUID(), run: here.run ?? '', parcel: 1, what: 'packed', ago: 0 } as const;
  expect(await keepPhoto({ store, files, clock }, 'bench-1', here, { ...photo, jpeg: smallJpeg(3, 2) })).toBe('kept');
});
afterAll(async () => {
  await store.destroy();
  data.remove();
});

async function tablesHolding(sought: RegExp): Promise<readonly string[]> {
  const holding: string[] = [];
  for (const { name } of await store.introspection.getTables()) {
    const rows = await store
      .selectFrom(name as 'run')
      .selectAll()
      .execute();
    const texts = rows.flatMap((row: object) => Object.values(row) as readonly unknown[]);
    const told = texts.map((each) => (Buffer.isBuffer(each) ? each.toString('latin1') : String(each)));
    if (told.some((text) => sought.test(text))) holding.push(name);
  }
  return holding;
}

it('the command line tells what is kept, of how many and how long, and of nobody what', async () => {
  const { stdout, stderr, exit } = await cli('personal-data', '--json');
  expect({ stderr, exit }).toEqual({ stderr: '', exit: 0 });
  const told = JSON.parse(stdout) as {
    readonly buyers: number;
    readonly staff: number;
    readonly kept: readonly { readonly table: string; readonly whose: string; readonly rows: number }[];
    readonly files: readonly { readonly folder: string; readonly files: number }[];
  };
  const orders = await allOrders(store);
  expect(told.buyers).toBe(new Set(orders.map((each) => each.order.buyer)).size);
  expect(told.staff).toBe(shop.staff.length);
  expect(told.kept.map(({ table }) => table)).toEqual(KEPT.map(({ table }) => table));
  const rows = (table: string, whose: string) =>
    told.kept.find((each) => each.table === table && each.whose === whose)?.rows;
  expect(rows('shop_order', 'buyer')).toBe(orders.length);
  expect(rows('parcel', 'buyer')).toBe(1);
  expect(rows('photo', 'buyer')).toBe(1);
  expect(rows('photo', 'staff')).toBe(0);
  expect(told.files.find(({ folder }) => folder === 'photos')?.files).toBe(1);
  for (const language of ['en', 'es'] as const) {
    const text = (await cli('personal-data', '--language', language)).stdout;
    expect(text).toContain('shop_order: body');
    expect(text).toContain(KEPT[0]?.what[language]);
    expect(text).not.toMatch(/Zq/);
  }
  expect(stdout).not.toMatch(/Zq/);
});

it('a code to pair a tablet is made where the shop’s store is', async () => {
  const { stdout, exit } = await cli('code', 'pair', '--json');
  expect(exit).toBe(0);
  const { code } = JSON.parse(stdout) as { readonly code: string };
  const [kept] = await store.selectFrom('access_code').selectAll().execute();
  expect(kept).toMatchObject({ hash: secretHash(code.replace(/\D/g, '')) });
});

it('without a store it says so', async () => {
  const nowhere = await runCli(['personal-data', '--data', '/no/such/folder'], {
    now: NOW,
    config: 'config',
    workingFolder: process.cwd(),
    stdin: () => new Uint8Array(),
    wire: 'build/api/wire.json',
    templates: 'config',
  });
  expect(nowhere).toMatchObject({ exit: 1, stderr: expect.stringContaining('expected a store') as string });
});

it('one buyer’s data are handed out with the photos, and then taken out of every row and file', async () => {
  const made = await exportBuyer(store, files, BUYER, NOW);
  const zip = unzipSync(made?.zip ?? new Uint8Array());
  expect(strFromU8(zip['buyer.json'] ?? new Uint8Array())).toContain('Zqlane 7');
  expect(Object.keys(zip).filter((name) => name.startsWith('photos/'))).toHaveLength(1);
  await store.updateTable('print_job').set({ state: 'printed' }).execute();
  const outcome = await purgeBuyer({ store, files, now: NOW }, BUYER, () => Promise.resolve());
  expect(outcome).toEqual({ done: true, orders: [order], bytesLeft: 'none' });
  expect(await tablesHolding(/Zqbuyer|Zqlane|Zqnote|ZQLABEL/)).toEqual([]);
  expect((await files.list()).photos).toEqual([]);
  expect((await findOrder(store, order))?.order.buyer).toBe(TAKEN_OUT);
  // A tablet that was away comes back with a photo of the parcel.
  const run = await store.selectFrom('run').select('id').where('order_id', '=', order).executeTakeFirstOrThrow();
  const late = {
    id: randomUUID(),
    run: run.id,
    parcel: 1,
    what: 'closed',
    ago: 60_000,
    jpeg: smallJpeg(5, 4),
  } as const;
  const nobody = { run: null, packer: null };
  expect(await keepPhoto({ store, files, clock }, 'bench-1', nobody, late)).toBe('removed');
  expect(await keepPhoto({ store, files, clock }, 'bench-1', nobody, late)).toBe('kept-before');
  expect((await files.list()).photos).toEqual([]);
  expect(await photoById(store, late.id)).toMatchObject({ file: null, removed_at: NOW });
});

it('out of many orders with turns for others in between; cut off anywhere, it is gone on with, and ends the same', async () => {
  const ids: string[] = [];
  for (const { order: each } of await openOrders(store, 3)) {
    await saveOrder(store, { ...each, buyer: 'Zqmany', address: ['Zqstreet 9'] }, NOW);
    const run = benchRun({ store, shop, clock });
    await run.load();
    await take(run, each.id);
    await finish(run, NOW, `ZQCUT-${each.id}-`);
    ids.push(each.id);
  }
  await store.updateTable('print_job').set({ state: 'printed' }).execute();
  const sheet = { bench: 'bench-1', run: null, parcel: 0, why: '', made_at: NOW, ended_at: NOW, title: 'a list' };
  await store
    .insertInto('print_job')
    .values({ ...sheet, bytes: Buffer.from(`list: Zqmany, ZQCUT-${ids[0] ?? ''}`), state: 'printed' })
    .execute();
  const holding = async () => {
    const orders = await Promise.all(ids.map((id) => findOrder(store, id)));
    return orders.filter((each) => each?.order.buyer === 'Zqmany').length;
  };
  const watchedFolder = temporaryFolder('taken');
  const copy = join(watchedFolder.path, 'taken', 'today.csv');
  mkdirSync(join(watchedFolder.path, 'taken'));
  writeFileSync(copy, 'order;buyer\n1;Zqmany\n');
  const parts = { store, files, now: NOW, watchedFolder: watchedFolder.path, isPacking: () => true };
  const refuses = () => Promise.reject(new Error('the disk is full'));
  await expect(purgeBuyer(parts, 'Zqmany', refuses)).rejects.toThrow('the disk is full');
  expect([await holding(), existsSync(copy)]).toEqual([3, true]);
  let notes = 0;
  const note = () => {
    notes++;
    return Promise.resolve();
  };
  // The power goes at the second turn of each: one order farther every time, and then at the lists.
  const cutOff = () => {
    let turns = 0;
    return () => (++turns === 2 ? Promise.reject(new Error('the power is gone')) : Promise.resolve());
  };
  await expect(purgeBuyer({ ...parts, between: cutOff() }, 'Zqmany', note)).rejects.toThrow('the power is gone');
  expect(await holding()).toBe(2);
  expect((await openPurges(store)).map(({ orders }) => orders.length)).toEqual([2]);
  await expect(resumePurges({ ...parts, between: cutOff() })).rejects.toThrow('the power is gone');
  expect(await holding()).toBe(1);
  await expect(resumePurges({ ...parts, between: cutOff() })).rejects.toThrow('the power is gone');
  expect([await holding(), existsSync(copy)]).toEqual([0, true]);
  expect(await tablesHolding(/Zqmany/)).toEqual(expect.arrayContaining(['print_job', 'purge_asked']));
  const turns: number[] = [];
  const between = async () => {
    // Whoever packs writes meanwhile.
    await saveOrder(store, { ...(await findOrder(store, order))!.order, id: `ZQ-TURN-${String(turns.length)}` }, NOW);
    turns.push(await holding());
  };
  expect(await resumePurges({ ...parts, between })).toBe(1);
  expect(turns.length).toBeGreaterThan(0);
  expect(await tablesHolding(/Zqmany|Zqstreet|ZQCUT/)).toEqual([]);
  expect([notes, existsSync(copy)]).toEqual([1, false]);
  expect(await resumePurges(parts)).toBe(0);
  watchedFolder.remove();

  // The bytes go once nobody packs, or after half a day of waiting.
  let isPacking = true;
  const log = pino({ enabled: false });
  const owed = new OwedBytes({ store, files, clock, log, isPacking: () => isPacking });
  await owed.look();
  expect(await openPurges(store)).toHaveLength(1);
  await new OwedBytes({ store, files, log, isPacking: () => true, clock: { now: () => NOW + 13 * 3_600_000 } }).look();
  expect(await openPurges(store)).toEqual([]);
  await saveOrder(store, { ...(await findOrder(store, order))!.order, id: 'ZQ-LATER', buyer: 'Zqlater' }, NOW);
  await store.updateTable('shop_order').set({ state: 'cancelled' }).where('id', '=', 'ZQ-LATER').execute();
  expect(await purgeBuyer(parts, 'Zqlater', note)).toMatchObject({ done: true, bytesLeft: 'later' });
  isPacking = false;
  await owed.look();
  expect(await openPurges(store)).toEqual([]);
});

it('by age likewise, those that wait stay', async () => {
  const waiting = (await openOrders(store, 1))[0]?.order;
  if (waiting === undefined) throw new Error('no order');
  await saveOrder(store, { ...waiting, id: 'ZQ-OLD', buyer: 'Zqold' }, NOW);
  await store.updateTable('shop_order').set({ state: 'cancelled' }).where('id', '=', 'ZQ-OLD').execute();
  const shops = { current: { privacy: { buyersDays: 30 } } } as unknown as ShopHolder;
  expect(await buyerRetention({ store, files, shops }).remove(NOW + 31 * 86_400_000)).toBe(1);
  expect((await findOrder(store, 'ZQ-OLD'))?.order.buyer).toBe(TAKEN_OUT);
  expect((await findOrder(store, waiting.id))?.order.buyer).toBe(waiting.buyer);
});
