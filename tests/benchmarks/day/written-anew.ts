import { statSync } from 'node:fs';
import { join } from 'node:path';
import { monitorEventLoopDelay } from 'node:perf_hooks';
import { sql } from 'kysely';
import { plain, type Figure } from '../figure.ts';
import { fillWithOrders } from '#tests/support/day/day-shop.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';
import { openStore } from '#server/store/open.ts';
import { writeAnew } from '#server/store/write-anew.ts';

const ORDERS = 10_000;
/** What a packed parcel leaves in the store (see the day's own figure), in bytes. */
const BYTES_A_PARCEL = 42 * 1024;
const RESOLUTION_MS = 2;

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
