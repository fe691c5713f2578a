import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { BenchClient } from '#tests/support/bench-client.ts';
import { removeConfigFolders } from '#tests/support/config-folder.ts';
import { dayConfig, fillWithOrders } from '#tests/support/day/day-shop.ts';
import { serverOn } from '#tests/support/in-process-server.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';
import { orderCode } from '#shared/codes/our-codes.ts';

const BENCHES = 20;
const ORDERS = 24;
const data = temporaryFolder('twenty');
let server: Awaited<ReturnType<typeof serverOn>>;
let benches: readonly BenchClient[];

beforeAll(async () => {
  await fillWithOrders(data.path, ORDERS, Date.now());
  server = await serverOn(dayConfig(Array.from({ length: BENCHES }, () => null)), data.path);
  benches = server.shop.benches.map(({ id }) => new BenchClient(server.url, id));
  await Promise.all(benches.map((bench) => bench.until(({ view }) => view?.task.at === 'idle', 'idle', 30_000)));
}, 60_000);

afterAll(async () => {
  for (const bench of benches) bench.close();
  await server.stop();
  data.remove();
  removeConfigFolders();
});

const inHand = async () => {
  const rows = await server.store
    .selectFrom('shop_order')
    .select(['id', 'bench', 'run'])
    .where('state', '=', 'packing')
    .orderBy('id')
    .execute();
  const leases = await server.store
    .selectFrom('claim_lease')
    .select(['order_id as id', 'bench', 'run'])
    .orderBy('order_id')
    .execute();
  // Who has an order and who holds its lease is never two answers.
  expect(leases).toEqual(rows);
  return rows;
};

it('twenty benches that press "next" at once get twenty orders, and of one that all scan exactly one gets it', async () => {
  await Promise.all(benches.map((bench) => bench.command('next')));
  await Promise.all(
    benches.map((bench) => bench.until(({ view }) => view?.task.at === 'gather', 'an order of its own', 30_000)),
  );
  const taken = benches.map(({ view }) => view?.order?.id);
  expect(new Set(taken).size).toBe(BENCHES);
  expect((await inHand()).map(({ id }) => id)).toEqual([...taken].sort());

  await Promise.all(benches.map((bench) => bench.command('back')));
  await Promise.all(benches.map((bench) => bench.until(({ view }) => view?.task.at === 'idle', 'idle again', 30_000)));
  expect(await inHand()).toEqual([]);

  const text = orderCode(taken[0] ?? '');
  const scan = (bench: BenchClient) => bench.input({ id: randomUUID(), type: 'scan', text, by: 'key' });
  await Promise.all(benches.map(scan));
  const told = (bench: BenchClient) =>
    bench.view?.task.at === 'gather' || bench.view?.notice?.code === 'order-taken-elsewhere';
  await Promise.all(benches.map((bench) => bench.until(() => told(bench), 'the order, or a word', 30_000)));
  expect(benches.filter(({ view }) => view?.task.at === 'gather')).toHaveLength(1);
  expect((await inHand()).map(({ id }) => id)).toEqual([taken[0]]);
}, 90_000);
