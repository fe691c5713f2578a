import { join } from 'node:path';
import SqliteDatabase from 'better-sqlite3';
import fc from 'fast-check';
import { Kysely, Migrator, SqliteDialect } from 'kysely';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { find } from '#server/office/search/find.ts';
import { orderDetail } from '#server/office/search/order-detail.ts';
import { orderPage } from '#server/office/search/order-page.ts';
import { first } from '#server/store/migrations/001-first.ts';
import { learning } from '#server/store/migrations/002-learning.ts';
import { weighing } from '#server/store/migrations/003-weighing.ts';
import { openStore, type Store } from '#server/store/open.ts';
import { closeOrder, saveOrder } from '#server/store/orders.ts';
import { saveParcel, type FinishedParcel } from '#server/store/parcels.ts';
import { savePieces } from '#server/store/pieces.ts';
import { closeSack, keepParcel, openSack, putInSack } from '#server/store/sacks.ts';
import type { Order } from '#shared/planning/types.ts';
import { money } from '#shared/units/money.ts';
import { massFromDecimal } from '#shared/units/mass.ts';
import { importShop } from '#tests/support/import-shop.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';
import { openTestStore } from '#tests/support/test-store.ts';
import { anySign } from '#tests/support/any-sign.ts';

const order = (id: string, buyer: string, change: Partial<Order> = {}): Order => ({
  id,
  pieces: [{ sku: `SKU-${id}`, count: 1 }],
  buyer,
  address: ['12 Elm Street', 'Duluth'],
  to: { postcode: '55802', country: 'US' },
  shipBy: '2026-11-25T22:30:00.000Z',
  ...change,
});
const parcel = (of: string): FinishedParcel => ({
  order: of,
  run: `run-${of}`,
  number: 1,
  of: 1,
  bench: 'bench-1',
  packer: 'nobody-known',
  pieces: [`SKU-${of}`],
  container: 'a-gone-container',
  wrap: 'none',
  recipes: [],
  carrier: 'merrow-post',
  service: 'light-parcel',
  zone: '1',
  planned: money(500, 'USD'),
  owed: money(500, 'USD'),
  reading: massFromDecimal('9.5', 'oz'),
  readingUnit: 'oz',
  toCome: massFromDecimal('0.1', 'oz'),
  ceiling: massFromDecimal('10', 'oz'),
  uncertainty: 0,
  expectedGrams: 270,
  verdict: 'clear',
  because: null,
  decided: null,
  labelByEye: false,
  postcode: '55802',
  startedAt: 1,
});

let folder: ReturnType<typeof temporaryFolder>;
let store: Store;
beforeAll(async () => {
  folder = temporaryFolder('search');
  store = await openTestStore(folder.path);
  await savePieces(store, [
    { sku: 'SKU-OT-1045', title: 'Jersey azul marino', kind: 'sweater', place: 'B3' },
    { sku: 'UNSOLD-7', title: 'Corduroy jacket', kind: 'sweater' },
  ]);
  await saveOrder(store, order('OT-1045', 'Inés Pérez'), 1);
  await saveOrder(store, order('OT-1046', 'ines perez'), 2);
  await saveOrder(store, order('OT-1047', "Wren O'Dell", { address: ['3 Łąkowa'] }), 3);
  await saveParcel(store, parcel('OT-1046'), '420558029400100000007919', 10);
});
afterAll(async () => {
  await store.destroy();
  folder.remove();
});

/** "order:OT-1045" and such, as they are listed */
async function found(text: string): Promise<readonly string[]> {
  const { groups } = await find(store, text);
  return groups.flatMap(({ kind, hits }) => hits.map((hit) => `${kind}:${hit.code === '' ? hit.words : hit.code}`));
}

describe('search', () => {
  it('takes case and diacritics for the same, and lists the newest first', async () => {
    for (const text of ['perez', 'PÉREZ', 'pe\u0301rez', 'inés per']) {
      expect(await found(text)).toEqual(['order:OT-1046', 'order:OT-1045', 'buyer:ines perez', 'buyer:Inés Pérez']);
    }
    for (const text of ["o'dell", 'o’dell']) {
      expect(await found(text)).toEqual(['order:OT-1047', "buyer:Wren O'Dell"]);
    }
  });
  it('finds who works here by name, id or the number on the badge, and never tells that number', async () => {
    const staff = [
      { id: 'ines', name: 'Inés Brook', badge: 'STAFF-4471', language: 'en', role: 'supervisor' },
      { id: 'otis', name: 'Otis Pérez-Hale', badge: 'STAFF-9920', language: 'es', role: 'packer' },
    ] as const;
    const people = async (text: string) =>
      (await find(store, text, staff)).groups.flatMap(({ kind, hits }) => (kind === 'staff' ? hits : []));
    expect(await people('ines')).toEqual([
      { kind: 'staff', code: 'ines', words: 'Inés Brook', order: null, state: null, orders: 0, role: 'supervisor' },
    ]);
    for (const text of ['HALE ot', 'pérez', 'staff-9920', '9920', 'STAFF 9920'.replace(' ', '-')]) {
      expect(
        (await people(text)).map(({ code }) => code),
        text,
      ).toEqual(['otis']);
    }
    for (const text of ['920', 'rook', 'nobody', '']) expect(await people(text), text).toEqual([]);
    // Buyers of that name are found beside them; without the right to see people, they alone.
    expect((await find(store, 'perez', staff)).groups.map(({ kind }) => kind)).toEqual(['order', 'buyer', 'staff']);
    expect(await found('ines')).not.toContain('staff:ines');
  });
  it('leads to the order, whose state it says', async () => {
    const { groups } = await find(store, 'azul');
    expect(groups).toMatchObject([
      { kind: 'piece', more: false, hits: [{ code: 'SKU-OT-1045', order: 'OT-1045', state: 'open' }] },
    ]);
    expect((await find(store, 'corduroy')).groups).toMatchObject([{ hits: [{ code: 'UNSOLD-7', order: null }] }]);
  });
  it('finds a tracking number by its beginning, its end, and with the spaces that people put into it', async () => {
    for (const text of ['42055802', '7919', '00007919', '4205 5802 9400 1000 0000 7919']) {
      expect(await found(text)).toContain('parcel:420558029400100000007919');
    }
    expect(await found('919')).not.toContain('parcel:420558029400100000007919');
    expect((await find(store, '7919')).groups).toMatchObject([{ hits: [{ order: 'OT-1046', words: 'ines perez' }] }]);
  });
  it('finds a number that was answered for a label before it is on the parcel, and once when it is', async () => {
    const request = {
      key: 'k',
      run: 'run-OT-1045',
      number: 1,
      order_id: 'OT-1045',
      bench: 'bench-1',
      facts: '{}',
      body: '{}',
      state: 'waiting',
      attempts: 0,
      next_at: 0,
      why: '',
      answer: '',
      tracking: null,
      label_type: null,
      label: null,
      made_at: 0,
      tried_at: null,
      ended_at: null,
    } as const;
    await store.insertInto('label_request').values(request).execute();
    await store.updateTable('label_request').set({ tracking: 'ANSWERED5551234' }).execute();
    expect((await find(store, '5551234')).groups).toMatchObject([{ hits: [{ order: 'OT-1045' }] }]);
    await saveParcel(store, parcel('OT-1045'), 'ANSWERED5551234', 11);
    expect(await found('answered555')).toEqual(['parcel:ANSWERED5551234']);
    await store.deleteFrom('parcel').where('order_id', '=', 'OT-1045').execute();
  });
  it('puts what is meant exactly before what only holds it', async () => {
    await saveOrder(store, order('1045', 'Odd Number'), 4);
    await saveOrder(store, order('10459', 'Odd Number'), 5);
    expect((await found('1045')).slice(0, 3)).toEqual(['order:1045', 'order:OT-1045', 'order:10459']);
  });
  it('follows what is changed and forgets what was', async () => {
    await saveOrder(store, order('OT-2000', 'Marta Before'), 6);
    expect(await found('marta')).toEqual(['order:OT-2000', 'buyer:Marta Before']);
    await saveOrder(store, order('OT-2000', 'Bruno After'), 7);
    expect(await found('marta')).toEqual([]);
    expect(await found('bruno')).toEqual(['order:OT-2000', 'buyer:Bruno After']);
    await savePieces(store, [{ sku: 'UNSOLD-7', title: 'Waxed jacket', kind: 'sweater' }]);
    expect(await found('corduroy')).toEqual([]);
    expect(await found('waxed')).toEqual(['piece:UNSOLD-7']);
  });
  it('takes any text: nothing in it is an operator, and nothing throws', async () => {
    for (const text of [
      '"',
      "'",
      '*',
      'a" OR b',
      'NEAR(a b)',
      'words:',
      '-',
      '%',
      '🧶🧵',
      '\0',
      '(',
      '½',
      'a:*',
      "'a' | 'b'",
      'a <-> b',
      'x'.repeat(10_000),
    ]) {
      await expect(find(store, text)).resolves.toBeDefined();
    }
    expect(await found('OR')).toEqual([]);
    expect(await found('perez 🧶')).toHaveLength(4);
    await fc.assert(
      fc.asyncProperty(fc.string({ unit: anySign, maxLength: 200 }), async (text) => {
        await find(store, text);
      }),
      { numRuns: 200 },
    );
  });
});

describe('a store of an older version', () => {
  it('is indexed when it is opened', async () => {
    const older = temporaryFolder('search-older');
    const file = new SqliteDatabase(join(older.path, 'benchfold.db'));
    const old = new Kysely<unknown>({ dialect: new SqliteDialect({ database: file }) });
    const migrations = { '001-first': first, '002-learning': learning, '003-weighing': weighing };
    const migrator = new Migrator({ db: old, provider: { getMigrations: () => Promise.resolve(migrations) } });
    expect((await migrator.migrateToLatest()).error).toBeUndefined();
    file
      .prepare(`insert into shop_order (id, body, state, ship_by, changed_at) values ('X-1', ?, 'open', '', 1)`)
      .run(JSON.stringify(order('X-1', 'Anežka')));
    file.prepare(`insert into piece (sku, body) values ('P-1', '{"sku":"P-1","title":"Linen shirt"}')`).run();
    file
      .prepare('insert into parcel (order_id, run, number, label, body, finished_at) values (?, ?, ?, ?, ?, ?)')
      .run('X-1', 'r', 1, 'TRACK123456', '{"order":"X-1","carrier":"merrow-post"}', 5);
    await old.destroy();
    const after = await openStore(older.path);
    for (const [text, kind] of [
      ['anezka', 'order'],
      ['linen', 'piece'],
      ['3456', 'parcel'],
    ] as const) {
      expect((await find(after, text)).groups[0]).toMatchObject({ kind, hits: [{}] });
    }
    await saveOrder(after, order('X-1', 'Someone Else'), 3);
    expect((await find(after, 'anezka')).groups).toEqual([]);
    await after.destroy();
    older.remove();
  });
});

describe('where an order is', () => {
  const place = async (id: string) => (await orderDetail(store, importShop, id))?.parcels.map((each) => each.place);
  it('is told by its pieces while it waits', async () => {
    expect(await orderDetail(store, importShop, 'OT-1045')).toMatchObject({
      state: 'open',
      lines: [{ sku: 'SKU-OT-1045', title: 'Jersey azul marino', place: 'B3' }],
      parcels: [],
      cameAt: 1,
    });
    expect(await orderDetail(store, importShop, 'none')).toBeNull();
  });
  it('is told by each parcel until it has left, or that it stays', async () => {
    const detail = await orderDetail(store, importShop, 'OT-1046');
    expect(detail?.parcels).toMatchObject([
      {
        label: '420558029400100000007919',
        service: { es: 'Paquete ligero' },
        packer: 'nobody-known',
        verdict: 'clear',
      },
    ]);
    expect(await place('OT-1046')).toEqual([{ at: 'waits' }]);
    const id = detail?.parcels[0]?.id ?? 0;
    const sack = await openSack(store, { carrier: 'merrow-post', day: '2026-11-25', at: '16:30' }, 20);
    await putInSack(store, id, sack.id, 21);
    expect(await place('OT-1046')).toEqual([{ at: 'sack', collection: '2026-11-25 16:30' }]);
    await closeSack(store, sack.id, null, 30);
    expect(await place('OT-1046')).toEqual([{ at: 'left', when: 30, sheet: sack.id }]);
    await saveParcel(store, parcel('OT-1047'), null, 40);
    const other = (await orderDetail(store, importShop, 'OT-1047'))?.parcels[0]?.id ?? 0;
    await keepParcel(store, other, 'torn');
    expect(await place('OT-1047')).toEqual([{ at: 'stays', reason: 'torn' }]);
  });
});

describe('a page of the orders', () => {
  const asked = { text: '', state: null, by: 'id', descending: false, from: 0, count: 3 } as const;
  const ids = async (change: Partial<Parameters<typeof orderPage>[2]>) =>
    (await orderPage(store, importShop, { ...asked, ...change })).rows.map(({ id }) => id);
  it('goes on where the one before ends, with numbers by their size', async () => {
    const all = await ids({ count: 500 });
    expect(all.slice(0, 2)).toEqual(['1045', '10459']);
    expect([...(await ids({})), ...(await ids({ from: 3 }))]).toEqual(all.slice(0, 6));
    expect(await ids({ descending: true, count: 500 })).toEqual([...all].reverse());
  });
  it('counts what there is and what is left of it', async () => {
    await closeOrder(store, { order: 'OT-1045', state: 'set-aside', reason: 'unplanned:nothing-fits', now: 50 });
    const page = await orderPage(store, importShop, { ...asked, state: 'set-aside' });
    expect(page).toMatchObject({
      matching: 1,
      all: 6,
      counts: { 'set-aside': 1 },
      timeZone: 'America/Chicago',
      rows: [{ id: 'OT-1045', reason: 'unplanned:nothing-fits' }],
    });
    expect(await ids({ text: 'perez', by: 'buyer' })).toEqual(['OT-1045', 'OT-1046']);
    expect(await ids({ text: 'perez', state: 'open' })).toEqual(['OT-1046']);
    expect(await ids({ text: 'nobody has this' })).toEqual([]);
    expect((await orderPage(store, importShop, { ...asked, text: '"' })).matching).toBe(0);
  });
});
