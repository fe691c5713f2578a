import { join } from 'node:path';
import { plain, type Figure } from './figure.ts';
import { fillWithOrders } from '#tests/support/day/day-shop.ts';
import { addressOf, query, type Cluster } from '#tests/support/postgres-cluster.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';
import { loadShop } from '#config/load.ts';
import { WaitingOrders } from '#server/queue/waiting-orders.ts';
import { openPostgres } from '#server/store/open.ts';
import { openVersions } from '#server/store/orders.ts';
import { moveStore } from '#server/store/postgres/move-store.ts';
import { poolOf } from '#server/store/postgres/connect.ts';

const ORDERS = 10_000;
const LOOKS = 200;
const COMPARED = 20;

async function median(times: number, work: () => Promise<unknown>, before: () => Promise<unknown>): Promise<number> {
  const taken: number[] = [];
  for (let each = 0; each < times; each++) {
    await before();
    const from = performance.now();
    await work();
    taken.push(performance.now() - from);
  }
  return taken.sort((a, b) => a - b)[Math.floor(times / 2)] ?? NaN;
}

/** What it takes to know the queue again after another server has written one order, with 10,000 that wait. */
export async function queueFollowed(cluster: Cluster): Promise<readonly Figure[]> {
  const folder = temporaryFolder('servers-queue');
  await query(cluster, 'postgres', 'create database queue');
  const address = addressOf(cluster, 'queue');
  await fillWithOrders(join(folder.path, 'store'), ORDERS, Date.now());
  await moveStore(join(folder.path, 'store'), address);
  const store = await openPostgres(address);
  const other = poolOf(address, 1);
  const shop = loadShop('config');
  const waiting = new WaitingOrders(
    () => shop,
    () => ({ container: null, parcels: null }),
  );
  await waiting.follow(store);
  const [id] = waiting.all.keys();
  const written = () => other.query('update shop_order set version = version + 1 where id = $1', [id]);
  const followed = await median(LOOKS, () => waiting.follow(store), written);
  const compared = await median(COMPARED, () => openVersions(store), written);
  await other.end();
  await store.destroy();
  folder.remove();
  const figure = { bench: 'servers', unit: 'ms', against: `${ORDERS.toLocaleString('en')} orders wait, median` };
  return [
    plain({ ...figure, name: 'queue known again after another server wrote one order', value: followed }),
    plain({ ...figure, name: 'likewise: the comparison of all, without reading what differs', value: compared }),
  ];
}
