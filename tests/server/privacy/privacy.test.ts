import { randomUUID } from 'node:crypto';
import { mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { strFromU8, unzipSync } from 'fflate';
import { sql } from 'kysely';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { buyerRetention } from '#server/privacy/buyer-retention.ts';
import { KEPT } from '#server/privacy/kept.ts';
import { takenFileRetention } from '#server/privacy/taken-files.ts';
import { TAKEN_OUT } from '#server/privacy/scrub.ts';
import { PhotoFiles } from '#server/proof/photo-files.ts';
import type { ShopHolder } from '#server/shop-holder.ts';
import { saveOrder } from '#server/store/orders.ts';
import type { Order } from '#shared/planning/types.ts';
import type { PhotoDue } from '#shared/proof/types.ts';
import { BenchClient } from '#tests/support/bench-client.ts';
import { copyOfConfig, edit, removeConfigFolders } from '#tests/support/config-folder.ts';
import { serverOn } from '#tests/support/in-process-server.ts';
import { packNext } from '#tests/support/pack-order.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';
import { smallJpeg } from '#tests/support/small-jpeg.ts';

// A made-up buyer goes through the whole shop: an order, a bench, a slip, a label from outside, a photo, the search.

const BUYER = 'Zqbuyer Zqson';
const LINES = ['Zqlane 7', 'Zqtown'];
const NOTE = 'Zqnote zqwrapit';
const POSTCODE = '558029876';
const MARKS = [BUYER, ...LINES, NOTE, POSTCODE];
/** so many bytes of a name that a piece of it would be found too */
const inParts = (text: string) => [text, text.toLowerCase(), ...text.split(' ')].filter((part) => part.length >= 6);

let data: ReturnType<typeof temporaryFolder>;
let server: Awaited<ReturnType<typeof serverOn>>;
let bench: BenchClient;
let order: Order;
let label: string;
let jpeg: Uint8Array;

beforeAll(async () => {
  data = temporaryFolder('privacy');
  const config = copyOfConfig();
  edit(config, 'shop.yaml', /^# proof: .*$/m, 'proof: { photos: always }');
  edit(config, 'shop.yaml', /^# labels:$\n.*\n.*$/m, 'labels:\n  url: simulated');
  server = await serverOn(config, data.path);
  const row = await server.store
    .selectFrom('shop_order')
    .select('body')
    .where('state', '=', 'open')
    .orderBy('ship_by')
    .executeTakeFirstOrThrow();
  const first = JSON.parse(row.body) as Order;
  order = {
    ...first,
    buyer: BUYER,
    address: LINES,
    note: NOTE,
    to: { ...first.to, postcode: POSTCODE },
    shipBy: '2026-01-01T10:00:00.000Z',
  };
  await saveOrder(server.store, order, Date.now());
  bench = new BenchClient(server.url, 'bench-1');
  await bench.at('idle');
  const due: PhotoDue[] = [];
  bench.socket.on('view', ({ photo }) => {
    if (photo !== undefined) due.push(photo);
  });
  await bench.simulate({ do: 'scan', text: 'STAFF-MAREN-01' });
  await bench.until(({ view }) => view?.packer?.name === 'Maren', 'who packs');
  const packed = await packNext(bench);
  expect(packed.order).toBe(order.id);
  label = packed.labels[0] ?? '';
  jpeg = smallJpeg(321, 123, [9, 9, 9, 9]);
  const photo = { id: randomUUID(), ...due[0]!, ago: 0, jpeg: Buffer.from(jpeg) };
  await new Promise((done) => bench.socket.emit('photo', photo, done));
}, 60_000);
afterAll(async () => {
  bench.close();
  await server.stop();
  data.remove();
  removeConfigFolders();
});

async function columnsWith(sought: readonly string[]): Promise<readonly string[]> {
  const found = new Set<string>();
  for (const { name, columns } of await server.store.introspection.getTables()) {
    // The full-text indexes are of the entries that are looked through themselves.
    if (/^(kysely_|search_(order|piece|buyer))/.test(name)) continue;
    const { rows } = await sql<Record<string, unknown>>`select * from ${sql.table(name)}`.execute(server.store);
    for (const { name: column } of columns) {
      const held = rows.some((row) => {
        const value = row[column];
        const text = Buffer.isBuffer(value) ? value.toString('latin1') : typeof value === 'string' ? value : '';
        return sought.some((each) => text.includes(each));
      });
      if (held) found.add(`${name}.${column}`);
    }
  }
  return [...found].sort();
}

const listed = (whose: 'buyer' | 'staff') =>
  KEPT.filter((each) => each.whose === whose).flatMap(({ table, columns }) =>
    columns.map((column) => `${table}.${column}`),
  );

it('every column that holds something of a buyer or of who packs is listed, and every one that is listed is there', async () => {
  const ofBuyer = await columnsWith([...MARKS, label.slice(-12)]);
  expect(ofBuyer).toEqual(
    expect.arrayContaining(['shop_order.body', 'input.body', 'print_job.bytes', 'label_request.body']),
  );
  expect(ofBuyer.filter((column) => !listed('buyer').includes(column))).toEqual([]);
  const ofStaff = await columnsWith(['maren', 'STAFF-MAREN-01']);
  expect(ofStaff.filter((column) => !listed('staff').includes(column))).toEqual([]);
  const there = new Set(
    (await server.store.introspection.getTables()).flatMap(({ name, columns }) =>
      columns.map((column) => `${name}.${column.name}`),
    ),
  );
  expect([...listed('buyer'), ...listed('staff')].filter((column) => !there.has(column))).toEqual([]);
});

it('DEVELOPERS.md lists them', () => {
  const text = readFileSync('DEVELOPERS.md', 'utf8');
  for (const { table, columns, whose, what, until } of KEPT) {
    expect(text).toContain(`| \`${table}\` | ${columns.join(', ')} | ${whose} | ${what.en} | ${until.en} |`);
  }
});

it('one buyer’s data are handed out as one file, with the photos and without who packed', async () => {
  const answer = await fetch(`${server.url}/api/privacy/buyer.zip?${new URLSearchParams({ name: BUYER }).toString()}`);
  expect(answer.status).toBe(200);
  const files = unzipSync(new Uint8Array(await answer.arrayBuffer()));
  const told = strFromU8(files['buyer.json'] ?? new Uint8Array());
  for (const mark of MARKS) expect(told).toContain(mark);
  expect(told).not.toContain('maren');
  const photos = Object.keys(files).filter((name) => name.startsWith('photos/'));
  expect(photos).toHaveLength(1);
  expect(files[photos[0] ?? '']).toEqual(jpeg);
  expect((await fetch(`${server.url}/api/privacy/buyer?name=nobody`)).status).toBe(404);
});

/** Every byte of the folder, whichever file it lies in. */
function filesWith(sought: readonly string[]): readonly string[] {
  return readdirSync(data.path, { recursive: true })
    .map(String)
    .filter((name) => statSync(join(data.path, name)).isFile())
    .filter((name) => {
      const bytes = readFileSync(join(data.path, name));
      return sought.some(
        (each) => bytes.includes(Buffer.from(each, 'utf8')) || bytes.includes(Buffer.from(each, 'latin1')),
      );
    });
}

it('one buyer’s data are taken out of everything: rows, index, log and the bytes of the files; figures stay', async () => {
  const purge = (buyer: string) =>
    fetch(`${server.url}/api/privacy/purge`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ buyer }),
    });
  const report = async () => (await fetch(`${server.url}/api/report?by=kind`)).json();
  const sums = async () => {
    const rows = await server.store.selectFrom('parcel').select(['order_id', 'body']).execute();
    return rows.map(({ order_id, body }) => {
      const { owed, reading, zone, pieces } = JSON.parse(body) as Readonly<Record<string, unknown>>;
      return { order_id, owed, reading, zone, pieces };
    });
  };
  const before = { report: await report(), sums: await sums() };
  const sought = [...MARKS, label.slice(-12)].flatMap(inParts);
  expect(filesWith(sought).length).toBeGreaterThan(0);

  // What still waits could not be sent any more.
  const other = { ...order, id: 'OT-ZQ2', shipBy: '2027-01-01T10:00:00.000Z' };
  await saveOrder(server.store, other, Date.now());
  const refused = await purge(BUYER);
  expect(refused.status).toBe(409);
  expect(await refused.json()).toMatchObject({
    error: 'still-open',
    message: expect.stringContaining('OT-ZQ2') as string,
  });
  await fetch(`${server.url}/api/orders/OT-ZQ2/cancel`, { method: 'POST' });

  // The last slip and label come out first.
  await expect
    .poll(
      async () =>
        (await server.store.selectFrom('print_job').select('id').where('state', 'in', ['queued', 'sending']).execute())
          .length,
      { timeout: 8000 },
    )
    .toBe(0);
  await bench.until(({ view }) => view?.slip === 'printed', 'the slip');
  // A label that was asked for and did without: its answer may yet come, and would be stored.
  const request = () =>
    server.store
      .selectFrom('label_request')
      .select(['id', 'state', 'attempts', 'next_at'])
      .where('order_id', '=', order.id)
      .executeTakeFirstOrThrow();
  await expect.poll(async () => (await request()).state).toMatch(/^(answered|unused)$/);
  const { id, ...was } = await request();
  const change = (to: typeof was) => server.store.updateTable('label_request').set(to).where('id', '=', id).execute();
  await change({ state: 'withdrawn', attempts: 1, next_at: Date.now() + 60_000 });
  const early = await purge(BUYER);
  expect([early.status, await early.json()]).toMatchObject([409, { error: 'label-under-way' }]);
  await change(was);
  // Files of the watched folder, as spreadsheets write them; those of others stay.
  const taken = join(data.path, 'incoming', 'taken');
  mkdirSync(taken, { recursive: true });
  writeFileSync(join(taken, 'today.csv'), `order;name\n1;${BUYER}\n`);
  writeFileSync(join(taken, 'today.csv.txt'), BUYER);
  writeFileSync(join(taken, 'wide.csv'), Buffer.from(`order;name\n1;${BUYER}\n`, 'utf16le'));
  writeFileSync(join(taken, 'others.csv'), 'order;name\n2;Somebody Else\n');
  expect(await (await purge(BUYER)).json()).toEqual({
    orders: [order.id, 'OT-ZQ2'].sort(),
    bytesLeft: 'none',
  });
  expect(await columnsWith(sought)).toEqual([]);
  expect(filesWith(sought)).toEqual([]);
  expect(readdirSync(taken)).toEqual(['others.csv']);
  expect({ report: await report(), sums: await sums() }).toEqual(before);
  const stored = JSON.parse(
    (await server.store.selectFrom('shop_order').select('body').where('id', '=', order.id).executeTakeFirstOrThrow())
      .body,
  ) as Order;
  expect(stored).toMatchObject({
    id: order.id,
    buyer: TAKEN_OUT,
    address: [],
    to: { postcode: '558' },
    pieces: order.pieces,
  });
  const found = (await (await fetch(`${server.url}/api/search?text=Zqbuyer`)).json()) as { groups: readonly unknown[] };
  expect(found.groups).toEqual([]);
  expect((await purge(BUYER)).status).toBe(404);
  expect((await purge(TAKEN_OUT)).status).toBe(404);
  // The bench goes on, and shows nothing of it.
  expect(JSON.stringify(await bench.at('done'))).not.toContain('Zqbuyer');
  expect((await fetch(`${server.url}/api/orders/${order.id}`)).status).toBe(200);
});

it('by age the buyers of settled orders go, and those of orders that wait stay', async () => {
  const { store } = server;
  const old = { ...order, id: 'OT-ZQ3', buyer: 'Zqold Zqbuyer' };
  await saveOrder(store, old, Date.now());
  await saveOrder(store, { ...old, id: 'OT-ZQ4', buyer: 'Zqnew Zqbuyer' }, Date.now());
  await store.updateTable('shop_order').set({ state: 'cancelled' }).where('id', '=', 'OT-ZQ3').execute();
  const files = new PhotoFiles(join(data.path, 'photos'));
  const keptFor = (privacy?: { buyersDays: number }) =>
    buyerRetention({ store, files, shops: { current: { privacy } } as unknown as ShopHolder });
  const DAY = 86_400_000;
  expect(await keptFor().remove(Date.now() + 4000 * DAY)).toBe(0);
  expect(await keptFor({ buyersDays: 30 }).remove(Date.now() + 29 * DAY)).toBe(0);
  expect(await keptFor({ buyersDays: 30 }).remove(Date.now() + 31 * DAY)).toBe(1);
  const buyerOf = async (id: string) =>
    (
      JSON.parse(
        (await store.selectFrom('shop_order').select('body').where('id', '=', id).executeTakeFirstOrThrow()).body,
      ) as Order
    ).buyer;
  expect(await buyerOf('OT-ZQ3')).toBe(TAKEN_OUT);
  expect(await buyerOf('OT-ZQ4')).toBe('Zqnew Zqbuyer');
});

it('files of the watched folder go when the data in them would', async () => {
  const folder = join(data.path, 'watched');
  mkdirSync(join(folder, 'taken'), { recursive: true });
  mkdirSync(join(folder, 'refused'));
  for (const name of ['taken/a.csv', 'refused/b.csv', 'c.csv']) writeFileSync(join(folder, name), BUYER);
  const keptFor = (privacy?: { buyersDays: number }) =>
    takenFileRetention({
      store: server.store,
      shops: { current: { privacy } } as unknown as ShopHolder,
      folder: () => folder,
    });
  const in31Days = Date.now() + 31 * 86_400_000;
  expect(await keptFor().remove(in31Days)).toBe(0);
  expect(await keptFor({ buyersDays: 30 }).remove(Date.now())).toBe(0);
  expect(await keptFor({ buyersDays: 30 }).remove(in31Days)).toBe(1);
  const left = readdirSync(folder, { recursive: true }).map(String);
  expect(left.toSorted()).toEqual(['c.csv', 'refused', join('refused', 'b.csv'), 'taken']);
});
