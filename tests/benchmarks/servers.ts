import { rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { io } from 'socket.io-client';
import { atLeast, atMost, plain, type Figure } from './figure.ts';
import type { BenchOptions } from './options.ts';
import { queueFollowed } from './servers-queue.ts';
import { dayConfig, fillWithOrders } from '#tests/support/day/day-shop.ts';
import { Packer, startDevices, type Acknowledged } from '#tests/support/day/packer.ts';
import { addressOf, query, removeCluster, startCluster, type Cluster } from '#tests/support/postgres-cluster.ts';
import { seeded } from '#tests/support/seeded.ts';
import { startProcess, temporaryFolder, type ServerProcess } from '#tests/support/server-process.ts';
import { openPostgres, type Store } from '#server/store/open.ts';
import { moveStore } from '#server/store/postgres/move-store.ts';

const BENCH = 'servers';
const BENCHES = 40;
const ORDERS = 1500;
const BEFORE_MS = 45_000;
const AFTER_MS = 45_000;

/** `--only queue`: the queue alone. */
export async function bench({ only }: Pick<BenchOptions, 'only'>): Promise<readonly Figure[]> {
  const cluster = await startCluster(join(tmpdir(), `benchfold-bench-${String(process.pid)}`), true);
  try {
    const figures = await queueFollowed(cluster);
    return only.includes('queue') ? figures : [...(await twoServers(cluster)), ...figures];
  } finally {
    await removeCluster(cluster.folder);
  }
}

/**
 * Two servers on one durable PostgreSQL, forty benches with devices and packers of their own, and one server killed in the
 * middle: its packers go on at the other. Then the store is looked through.
 */
async function twoServers(cluster: Cluster): Promise<readonly Figure[]> {
  const folder = temporaryFolder('servers');
  const devices = await Promise.all(Array.from({ length: BENCHES }, () => startDevices()));
  const config = dayConfig(devices.map(({ ports }) => ports));
  try {
    await query(cluster, 'postgres', 'create database shop');
    const database = addressOf(cluster, 'shop');
    await fillWithOrders(join(folder.path, 'first'), ORDERS, Date.now());
    const moving = performance.now();
    await moveStore(join(folder.path, 'first'), database);
    const moved = performance.now() - moving;
    const names = devices.map((_, index) => `bench-${String(index + 1)}`);
    const halves = [names.slice(0, BENCHES / 2), names.slice(BENCHES / 2)];
    const servers: ServerProcess[] = [];
    for (const [index, own] of halves.entries()) {
      const environment = { BENCHFOLD_BENCHES: own.join(',') };
      servers.push(await startProcess({ data: join(folder.path, String(index)), config, database, environment }));
    }
    const [one, other] = servers;
    if (one === undefined || other === undefined) throw new Error('two servers are needed');
    const acknowledged: Acknowledged[] = [];
    const steps: number[] = [];
    const packerAt = (name: string, seed: number) => {
      const own = devices[names.indexOf(name)];
      if (own === undefined) throw new Error(`no devices for ${name}`);
      return new Packer({
        bench: name,
        devices: own,
        uniform: seeded(seed),
        onAcknowledged: (each) => acknowledged.push(each),
        onStep: (_by, ms) => steps.push(ms),
      });
    };
    await Promise.all(halves.map((own, index) => served(servers[index]?.url ?? '', own)));
    const first = halves.map((own) => own.map((name, index) => packerAt(name, index)));
    const at = (packers: readonly Packer[], url: string) => packers.map((packer) => packer.work(url));
    const working = [...at(first[0] ?? [], one.url), ...at(first[1] ?? [], other.url)];
    await sleep(BEFORE_MS);
    await one.kill();
    const killed = performance.now();
    for (const packer of first[0] ?? []) packer.stop();
    await served(other.url, halves[0] ?? []);
    const away = performance.now() - killed;
    const second = (halves[0] ?? []).map((name, index) => packerAt(name, 100 + index));
    working.push(...at(second, other.url));
    await sleep(AFTER_MS);
    for (const packer of [...first.flat(), ...second]) packer.stop();
    await Promise.all(working);
    await other.stop();
    const store = await openPostgres(database);
    const figures = await looked(store, acknowledged);
    await store.destroy();
    steps.sort((a, b) => a - b);
    const quantile = (part: number) => steps[Math.floor(steps.length * part)] ?? 0;
    const against = `${String(BENCHES)} benches at two servers, one killed`;
    return [
      ...figures.map((figure) => ({ ...figure, against })),
      plain({ bench: BENCH, name: 'from the kill until all its benches are served', value: away, unit: 'ms', against }),
      plain({ bench: BENCH, name: 'input to the view that follows, p50', value: quantile(0.5), unit: 'ms', against }),
      plain({ bench: BENCH, name: 'the same, p99', value: quantile(0.99), unit: 'ms', against }),
      plain({
        bench: BENCH,
        name: `a shop of ${String(ORDERS)} orders moved and compared`,
        value: moved,
        unit: 'ms',
        against,
      }),
    ];
  } finally {
    await Promise.all(devices.map((each) => each.stop()));
    rmSync(config, { recursive: true, force: true });
    folder.remove();
  }
}

/** Once a server has all of some benches. */
async function served(url: string, benches: readonly string[]): Promise<void> {
  for (const bench of benches) {
    while (!(await isHere(url, bench))) await sleep(100);
  }
}

function isHere(url: string, bench: string): Promise<boolean> {
  const socket = io(`${url}/bench`, {
    auth: { bench },
    transports: ['websocket'],
    forceNew: true,
    reconnection: false,
  });
  return new Promise((done) => {
    const end = (here: boolean) => {
      socket.disconnect();
      done(here);
    };
    socket.once('connect', () => end(true));
    socket.once('connect_error', () => end(false));
  });
}

/** What of the day is in the store, and what must not be. */
async function looked(
  store: Store,
  acknowledged: readonly Acknowledged[],
): Promise<readonly Omit<Figure, 'against'>[]> {
  const orders = await store.selectFrom('shop_order').select(['id', 'state', 'bench', 'run']).execute();
  const parcels = await store.selectFrom('parcel').select(['order_id', 'run', 'number']).execute();
  const inputs = await store.selectFrom('input').select(['id', 'bench', 'seq']).execute();
  const stored = new Map(inputs.map(({ id, bench, seq }) => [id, { bench, seq }]));
  const missing = acknowledged.filter(({ id, bench }) => stored.get(id)?.bench !== bench).length;
  const runsOf = new Map<string, Set<string>>();
  for (const { order_id, run } of parcels) runsOf.set(order_id, (runsOf.get(order_id) ?? new Set()).add(run));
  const packed = orders.filter(({ state }) => state === 'packed');
  const doubled = [...runsOf.values()].filter((runs) => runs.size > 1).length;
  const unpacked = packed.filter(({ id }) => !runsOf.has(id)).length;
  const inHands = orders.filter(({ state }) => state === 'packing').map(({ bench }) => bench);
  const twoAtOne = inHands.length - new Set(inHands).size;
  const lost = ORDERS - orders.length + unpacked;
  const last = new Map<string, number>();
  for (const { bench, seq } of inputs) last.set(bench, Math.max(seq, last.get(bench) ?? 0));
  const gaps = [...last].reduce(
    (sum, [bench, seq]) => sum + seq - inputs.filter((each) => each.bench === bench).length,
    0,
  );
  const none = (name: string, value: number) => atMost({ bench: BENCH, name, value, unit: '', goal: 0, against: '' });
  return [
    atLeast({ bench: BENCH, name: 'orders packed', value: packed.length, unit: '', goal: BENCHES, against: '' }),
    none('orders packed twice', doubled + twoAtOne),
    none('orders lost', lost),
    plain({ bench: BENCH, name: 'inputs acknowledged', value: acknowledged.length, unit: '', against: '' }),
    none('of these not stored once, under their bench', missing),
    none('gaps in the numbers of inputs', gaps),
  ];
}
