import { statSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import SqliteDatabase from 'better-sqlite3';
import { atLeast, atMost, plain, type Figure } from './figure.ts';
import type { BenchOptions } from './options.ts';
import { watchedServer, type WatchedServer } from './watching.ts';
import { removeConfigFolders } from '#tests/support/config-folder.ts';
import { dayConfig, fillWithOrders } from '#tests/support/day/day-shop.ts';
import { Packer, startDevices, type Devices } from '#tests/support/day/packer.ts';
import { seeded } from '#tests/support/seeded.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';
import { linesOf, readDay, recordDay } from '#server/replay/recorded-day.ts';
import { replayDay } from '#server/replay/replay-day.ts';

const ORDERS_AN_HOUR = 60;
/** Devices and hands that are so many times as quick as real ones; more would flood the server with frames that no scale sends. */
const HASTE = 3;

interface Run {
  readonly orders: number;
  readonly inputs: number;
  readonly seconds: number;
  readonly scan: readonly number[];
  readonly all: readonly number[];
  readonly late: number;
  readonly bytesAParcel: number;
  readonly heaps: readonly number[];
}

interface Wish {
  readonly benches: number;
  readonly seconds: number;
  /** stops earlier when so many orders are packed */
  readonly orders?: number;
  /** each bench begins so many orders an hour at most; as many as it can without it */
  readonly anHour?: number;
}

const share = (times: readonly number[], part: number) => {
  const sorted = [...times].sort((one, other) => one - other);
  // Nothing that came to a screen is no good figure.
  return sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * part))] ?? Infinity;
};

/** Bytes of the store, with what its log holds beyond. */
function counted(data: string): { readonly bytes: number; readonly parcels: number; readonly inputs: number } {
  const file = new SqliteDatabase(join(data, 'benchfold.db'));
  file.pragma('wal_checkpoint(TRUNCATE)');
  const count = (table: string) => file.prepare(`select count(*) from ${table}`).pluck().get() as number;
  const found = { parcels: count('parcel'), inputs: count('input') };
  file.close();
  return { bytes: statSync(join(data, 'benchfold.db')).size, ...found };
}

/** Packers at so many benches for a while, on a server in a process of its own. */
async function run({ benches, seconds, orders: most = Infinity, anHour }: Wish): Promise<Run> {
  const data = temporaryFolder('day');
  const devices: Devices[] = [];
  for (let index = 0; index < benches; index++) devices.push(await startDevices(HASTE));
  const config = dayConfig(devices.map(({ ports }) => ports));
  const wanted = most === Infinity ? Math.ceil(seconds * Math.min(40, 3 + benches * 2)) : most + benches;
  await fillWithOrders(data.path, Math.min(wanted, 14_000), Date.now());
  const before = counted(data.path);
  let server: WatchedServer | null = await watchedServer(data.path, config);
  const scan: number[] = [];
  const all: number[] = [];
  const packers = devices.map(
    (own, index) =>
      new Packer({
        bench: `bench-${String(index + 1)}`,
        devices: own,
        uniform: seeded(index + 1),
        haste: HASTE,
        ...(anHour === undefined ? {} : { everyMs: 3_600_000 / anHour }),
        onStep: (by, ms) => {
          if (by === 'scan') scan.push(ms);
          all.push(ms);
        },
      }),
  );
  const heaps: number[] = [];
  const from = performance.now();
  const { url } = server;
  const packed = () => packers.reduce((sum, { orders }) => sum + orders, 0);
  const seen = await server.while(async () => {
    const working = packers.map((packer) => packer.work(url));
    for (let part = 1; part <= 10; part++) {
      const until = from + (seconds * 1000 * part) / 10;
      const enough = (most * part) / 10;
      while (
        most === Infinity ? performance.now() < until : packed() < enough && performance.now() < from + seconds * 1000
      ) {
        await sleep(50);
      }
      heaps.push((await server?.heap()) ?? 0);
    }
    for (const packer of packers) packer.stop();
    await Promise.all(working);
  });
  const took = (performance.now() - from) / 1000;
  await server.stop();
  server = null;
  const after = counted(data.path);
  for (const own of devices) await own.stop();
  data.remove();
  removeConfigFolders();
  const parcels = Math.max(1, after.parcels - before.parcels);
  return {
    orders: packed(),
    inputs: after.inputs,
    seconds: took,
    scan,
    all,
    late: seen.delay.p99,
    bytesAParcel: (after.bytes - before.bytes) / parcels,
    heaps,
  };
}

/** A day's record taken from one store and played to another server, through the command's own code. */
async function replayed(): Promise<readonly Figure[]> {
  const recorded = temporaryFolder('day-recorded');
  const devices = [await startDevices(HASTE), await startDevices(HASTE)];
  const config = dayConfig(devices.map(({ ports }) => ports));
  await fillWithOrders(recorded.path, 60, Date.now());
  const server = await watchedServer(recorded.path, config);
  const packers = devices.map(
    (own, index) =>
      new Packer({ bench: `bench-${String(index + 1)}`, devices: own, uniform: seeded(index + 5), haste: HASTE }),
  );
  const working = packers.map((packer) => packer.work(server.url));
  while (packers.reduce((sum, { orders }) => sum + orders, 0) < 12) await sleep(50);
  for (const packer of packers) packer.stop();
  await Promise.all(working);
  await server.stop();
  for (const own of devices) await own.stop();
  const file = new SqliteDatabase(join(recorded.path, 'benchfold.db'), { readonly: true });
  const today = new Date().toLocaleDateString('sv-SE', { timeZone: 'America/Chicago' });
  const day = readDay(linesOf(recordDay(file, today, 'America/Chicago')));
  file.close();
  const target = temporaryFolder('day-target');
  const live = await watchedServer(target.path, dayConfig([null, null]));
  const played = await replayDay(day, { url: live.url, speed: null });
  await live.stop();
  recorded.remove();
  target.remove();
  removeConfigFolders();
  const against = `${String(played.acts)} acts of ${String(day.orders.length)} orders`;
  return [
    atLeast({
      bench: 'day',
      name: 'a recorded day played to another server: acts that fit',
      value: (100 * played.taken) / Math.max(1, played.acts),
      unit: '%',
      goal: 95,
      against,
    }),
  ];
}

/** A high-volume day: how many orders and inputs a second, how quick screens are under it, what it costs in memory and disk. */
export async function bench({ whole }: BenchOptions): Promise<readonly Figure[]> {
  const figures: Figure[] = [];
  for (const benches of [1, 5, 20, 50]) {
    const { orders, inputs, seconds, scan, all, late, bytesAParcel } = await run({ benches, seconds: whole ? 60 : 15 });
    const times = (orders / seconds / ((benches * ORDERS_AN_HOUR) / 3600)).toFixed(0);
    const against = `full speed: ${String(orders)} orders, ${times} times ${String(ORDERS_AN_HOUR)} an hour at each bench`;
    const name = `${String(benches)} ${benches === 1 ? 'bench' : 'benches'}: `;
    figures.push(
      plain({ bench: 'day', name: `${name}inputs stored`, value: inputs / seconds, unit: 'a second', against }),
      plain({ bench: 'day', name: `${name}scan to screen, p50`, value: share(scan, 0.5), unit: 'ms', against }),
      plain({ bench: 'day', name: `${name}scan to screen, p99`, value: share(scan, 0.99), unit: 'ms', against }),
      plain({ bench: 'day', name: `${name}any input to screen, p99`, value: share(all, 0.99), unit: 'ms', against }),
      plain({ bench: 'day', name: `${name}server's loop held up, p99`, value: late, unit: 'ms', against }),
      plain({ bench: 'day', name: `${name}store for each parcel`, value: bytesAParcel / 1024, unit: 'kB', against }),
    );
  }
  for (const times of [10, 100]) {
    const paced = await run({ benches: 20, seconds: whole ? 120 : 20, anHour: ORDERS_AN_HOUR * times });
    const reached = paced.orders / paced.seconds / ((20 * ORDERS_AN_HOUR) / 3600);
    const against = `20 benches, ${String(ORDERS_AN_HOUR)} orders an hour each, asked for ${String(times)} times as fast, reached ${reached.toFixed(0)}`;
    const name = `${String(times)} times real time: `;
    figures.push(
      plain({ bench: 'day', name: `${name}scan to screen, p50`, value: share(paced.scan, 0.5), unit: 'ms', against }),
      atMost({
        bench: 'day',
        name: `${name}scan to screen, p99`,
        value: share(paced.scan, 0.99),
        unit: 'ms',
        goal: 50,
        against,
      }),
    );
  }
  const hours = whole ? 10 : 1;
  const wanted = 20 * ORDERS_AN_HOUR * hours;
  const long = await run({ benches: 20, seconds: whole ? 7200 : 150, orders: wanted });
  const [early = 0, last = 0] = [long.heaps[1], long.heaps.at(-1)];
  const against = `${String(long.orders)} of ${String(wanted)} orders, ${String(hours)} hours of 20 benches, in ${long.seconds.toFixed(0)} s; heap after a collection`;
  figures.push(
    plain({ bench: 'day', name: 'heap after a fifth of the day', value: early, unit: 'MB', against }),
    plain({ bench: 'day', name: 'heap at its end', value: last, unit: 'MB', against }),
    ...(await replayed()),
  );
  return figures;
}
