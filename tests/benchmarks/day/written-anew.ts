import { statSync } from 'node:fs';
import { join } from 'node:path';
import { monitorEventLoopDelay } from 'node:perf_hooks';
import { setTimeout as sleep } from 'node:timers/promises';
import { sql } from 'kysely';
import { plain, type Figure } from '../figure.ts';
import { fillWithOrders } from '#tests/support/day/day-shop.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';
import { purgeBuyer } from '#server/privacy/purge.ts';
import { PhotoFiles } from '#server/proof/photo-files.ts';
import { openStore } from '#server/store/open.ts';
import { openOrders, saveOrder } from '#server/store/orders.ts';
import { saveSweepMemory } from '#server/store/sweeps.ts';
import { writeAnew } from '#server/store/write-anew.ts';

const ORDERS = 10_000;
/** What a packed parcel leaves in the store (see the day's own figure), in bytes. */
const BYTES_A_PARCEL = 42 * 1024;
const RESOLUTION_MS = 2;
const BUYER = 'One Buyer';
const BUYERS_ORDERS = 200;

/** How long inputs wait, and how long the loop is held up, while a store is written anew so that no removed byte is left. */
export async function writtenAnew(): Promise<readonly Figure[]> {
  const data = temporaryFolder('day-anew');
  await fillWithOrders(data.path, ORDERS, Date.now());
  const figures = [...(await measured(data.path, `${ORDERS.toLocaleString('en')} waiting orders`))];
  const store = await openStore(data.path);
  await sql`create table as_packed (body blob)`.execute(store);
  await sql`with recursive parcel(n) as (select 1 union all select n + 1 from parcel where n < ${sql.lit(ORDERS)})
    insert into as_packed select randomblob(${sql.lit(BYTES_A_PARCEL)}) from parcel`.execute(store);
  await store.destroy();
  figures.push(...(await measured(data.path, `and as much as ${ORDERS.toLocaleString('en')} packed parcels leave`)));
  figures.push(await purged(data.path));
  data.remove();
  return figures;
}

async function measured(folder: string, what: string): Promise<readonly Figure[]> {
  const store = await openStore(folder);
  const histogram = monitorEventLoopDelay({ resolution: RESOLUTION_MS });
  histogram.enable();
  const from = performance.now();
  await writeAnew(store);
  const took = performance.now() - from;
  histogram.disable();
  await store.destroy();
  const against = `${(statSync(join(folder, 'benchfold.db')).size / 2 ** 20).toFixed(0)} MB`;
  const figure = { bench: 'day', unit: 'ms', against };
  return [
    plain({ ...figure, name: `store written anew, ${what}: inputs wait`, value: took }),
    plain({ ...figure, name: 'likewise: loop held up at most', value: histogram.max / 1e6 - RESOLUTION_MS }),
  ];
}

/** How long an input waits at most while one buyer's data are taken out, on request, while benches pack. */
async function purged(folder: string): Promise<Figure> {
  const store = await openStore(folder);
  const orders = (await openOrders(store, BUYERS_ORDERS)).map(({ order }) => order);
  for (const order of orders) await saveOrder(store, { ...order, buyer: BUYER }, Date.now());
  await store
    .updateTable('shop_order')
    .set({ state: 'cancelled' })
    .where(
      'id',
      'in',
      orders.map(({ id }) => id),
    )
    .execute();
  let most = 0;
  const over = new AbortController();
  const inputs = (async () => {
    while (!over.signal.aborted) {
      const from = performance.now();
      await saveSweepMemory(store, 'an input', { at: Date.now(), heldAt: null });
      most = Math.max(most, performance.now() - from);
      await sleep(1);
    }
  })();
  const parts = { store, files: new PhotoFiles(join(folder, 'photos')), now: Date.now(), isPacking: () => true };
  const outcome = await purgeBuyer(parts, BUYER, () => Promise.resolve());
  over.abort();
  await inputs;
  await store.destroy();
  if (!outcome.done || outcome.orders.length !== orders.length) throw new Error('the buyer was not taken out');
  return plain({
    bench: 'day',
    name: `likewise: a buyer of ${String(BUYERS_ORDERS)} orders taken out by request: an input waits at most`,
    value: most,
    unit: 'ms',
    against: `${(statSync(join(folder, 'benchfold.db')).size / 2 ** 20).toFixed(0)} MB`,
  });
}
