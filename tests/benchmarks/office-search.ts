import { sql } from 'kysely';
import { atMost, plain, type Figure } from './figure.ts';
import { previewImport } from '#server/office/imports/preview.ts';
import { find } from '#server/office/search/find.ts';
import { openStore, type Store } from '#server/store/open.ts';
import { saveOrders } from '#server/store/orders.ts';
import { savePieces } from '#server/store/pieces.ts';
import { importShop } from '#tests/support/import-shop.ts';
import { orderFile, orderNumber, pieceFile } from '#tests/support/order-file.ts';
import { seeded } from '#tests/support/seeded.ts';

const ORDERS = 200_000;
const CHUNK = 500;
const QUERIES = 600;
const SCANS = 12;

/** Searches of a shop with 200,000 packed orders, as many pieces and labels, against looking through every row. */
export async function searching(folder: string): Promise<Figure[]> {
  const store = await openStore(folder);
  try {
    for (let from = 0; from < ORDERS; from += CHUNK) await fill(store, from);
    const uniform = seeded(8);
    const any = (most: number): number => Math.floor(uniform() * most);
    const queries = Array.from({ length: QUERIES }, (_, index) => query(index, any(ORDERS)));
    const times = await timed(queries, (text) => find(store, text));
    const scans = await timed(queries.slice(0, SCANS), (text) =>
      sql`select id from shop_order where body like ${`%${text}%`} order by came_at desc limit 13`.execute(store),
    );
    const common = {
      bench: 'office',
      unit: 'ms',
      against: `a scan with LIKE over the orders alone: p50 ${at(scans, 0.5).toFixed(0)} ms`,
    };
    return [
      atMost({ ...common, name: `search of ${String(ORDERS)} orders, p50`, value: at(times, 0.5), goal: 50 }),
      atMost({ ...common, name: 'search, p99', value: at(times, 0.99), goal: 50 }),
      plain({ ...common, name: 'search, most', value: at(times, 1) }),
    ];
  } finally {
    await store.destroy();
  }
}

/** Numbers, ends of tracking numbers, names, streets and pieces; whole, begun and mistyped. */
function query(index: number, order: number): string {
  const asked = [
    orderNumber(order),
    String(300_000 + order),
    label(order).slice(-7),
    label(order),
    'perez',
    'INÉS PÉ',
    'zoe ald',
    `${String(1 + (order % 900))} elm`,
    'calle del rio',
    'chambr',
    'moss corduroy shirt',
    `BULK-${String(100_000 + order)}`,
    'm',
    'nobody has this',
    '00000000',
  ];
  return asked[index % asked.length] ?? '';
}

const label = (index: number): string =>
  `9400${String(100_000_000_000 + ((index * 7_919) % 99_999_989)).padStart(18, '0')}`;

async function fill(store: Store, from: number): Promise<void> {
  const bytes = (text: string) => new TextEncoder().encode(text);
  const request = { fileName: 'x.csv', shop: importShop, now: 0 };
  const none = { pieces: new Map(), orders: new Map() };
  const { records: pieces } = await previewImport({
    ...request,
    subject: 'pieces',
    bytes: bytes(pieceFile(CHUNK, from)),
    existing: none,
  });
  const known = new Map(pieces.map((piece) => [piece.sku, piece]));
  const { records: orders } = await previewImport({
    ...request,
    subject: 'orders',
    bytes: bytes(orderFile(CHUNK, from)),
    existing: { ...none, pieces: known },
  });
  await store.transaction().execute(async (transaction) => {
    await savePieces(transaction, pieces);
    await saveOrders(transaction, orders, from);
    const parcels = orders.map(({ id }, index) => ({
      order_id: id,
      run: 'run',
      number: 1,
      label: label(from + index),
      carrier: 'merrow-post',
      body: '{}',
      finished_at: from,
      left_at: from,
    }));
    await transaction.insertInto('parcel').values(parcels).execute();
    await transaction.updateTable('shop_order').set({ state: 'packed' }).where('state', '=', 'open').execute();
  });
}

async function timed(queries: readonly string[], ask: (text: string) => Promise<unknown>): Promise<readonly number[]> {
  const times: number[] = [];
  for (const text of queries) {
    const begun = performance.now();
    await ask(text);
    times.push(performance.now() - begun);
  }
  return times.sort((a, b) => a - b);
}

const at = (sorted: readonly number[], part: number): number =>
  sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * part))] ?? NaN;
