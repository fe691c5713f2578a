import { statSync } from 'node:fs';
import { loadavg } from 'node:os';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import SqliteDatabase from 'better-sqlite3';
import { crewOf, type Crew } from './crew.ts';
import { watchedServer } from '../watching.ts';
import { removeConfigFolders } from '#tests/support/config-folder.ts';
import { dayConfig, fillWithOrders } from '#tests/support/day/day-shop.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';

export const ORDERS_AN_HOUR = 60;
/** Hands as quick as it goes, on scales that come to rest in 20 ms; their frames come as often as a quick real one's. */
const HASTE = 20;
/** One process of packers for so many benches. */
const BENCHES_A_CREW = 25;
const WARM_AFTER_S = 20;

export interface DayWish {
  readonly benches: number;
  /** ends after so many orders */
  readonly orders: number;
  /** so many wait at the beginning; a few more than are packed without it */
  readonly waiting?: number;
  /** and after so long at the latest */
  readonly seconds: number;
  /** so many times real time at most; as fast as it goes without it */
  readonly times?: number;
  /** each order with a collection of its own, as the most different ones, or all with one; `each` without it */
  readonly leaving?: 'each' | 'together';
  /** memory is looked at after so many equal parts of the orders, or of the time where that is over sooner */
  readonly looks?: number;
  /** hears each look at the memory at once: what is known stays known, whatever becomes of the rest */
  readonly onLook?: (look: MemoryLook) => void;
  /** a folder for a profile of the server's processor time */
  readonly profiles?: string | undefined;
}

/** The server's memory after some orders, in MB. */
export interface MemoryLook {
  readonly orders: number;
  /** since the beginning */
  readonly seconds: number;
  readonly heap: number;
  readonly resident: number;
}

export interface DayRun {
  readonly orders: number;
  readonly inputs: number;
  readonly seconds: number;
  readonly scans: readonly number[];
  /** of these the ones that came once the server had been at it for a while: the first are slow, for its code is cold */
  readonly warmScans: readonly number[];
  readonly steps: readonly number[];
  /** how much later than wanted the server's loop came round, p99 in ms */
  readonly late: number;
  /** the same of the slowest crew of packers */
  readonly packersLate: number;
  readonly bytesAParcel: number;
  readonly memory: readonly MemoryLook[];
  /** cores that the server and the packers took */
  readonly serverCores: number;
  readonly packerCores: number;
  /** processor time for each input, in ms: of the whole server, and of the thread alone that serves the benches */
  readonly processorAnInput: { readonly server: number; readonly loop: number | null };
  /** processes that wanted a core, in the mean of the minute before the end */
  readonly load: number;
}

/** So many times real time. */
export function timesReal({ orders, seconds }: DayRun, benches: number): number {
  return orders / seconds / ((benches * ORDERS_AN_HOUR) / 3600);
}

/** Bytes of the store, with what its log holds beyond. */
function counted(data: string): { readonly bytes: number; readonly parcels: number; readonly inputs: number } {
  const file = new SqliteDatabase(join(data, 'benchfold.db'));
  file.pragma('wal_checkpoint(TRUNCATE)');
  const count = (table: string) => file.prepare(`select count(*) from ${table}`).pluck().get() as number;
  const found = { parcels: count('parcel'), inputs: count('input') };
  file.close();
  return { bytes: statSync(join(data, 'benchfold.db')).size, ...found };
}

async function crewsFor(benches: number, everyMs: number): Promise<readonly Crew[]> {
  const names = Array.from({ length: benches }, (_, index) => index + 1);
  const crews: Crew[] = [];
  for (let at = 0; at < benches; at += BENCHES_A_CREW) {
    crews.push(await crewOf({ benches: names.slice(at, at + BENCHES_A_CREW), haste: HASTE, everyMs }));
  }
  return crews;
}

/** A day packed at so many benches: the server in one process, packers with their devices in others. */
export async function runDay(wish: DayWish): Promise<DayRun> {
  const { benches, orders: most, seconds, times, looks = 1, leaving, onLook, profiles } = wish;
  const { waiting = most + 2 * benches } = wish;
  const data = temporaryFolder('day');
  const crews = await crewsFor(benches, times === undefined ? 0 : 3_600_000 / ORDERS_AN_HOUR / times);
  const config = dayConfig(
    crews.flatMap(({ ports }) => ports),
    { shelfTimes: 100 },
  );
  await fillWithOrders(data.path, waiting, Date.now(), leaving);
  const before = counted(data.path);
  const server = await watchedServer(data.path, config, profiles);
  const scans: number[] = [];
  const warmScans: number[] = [];
  const steps: number[] = [];
  const memory: MemoryLook[] = [];
  const packed = crews.map(() => 0);
  const packers = crews.map(() => 0);
  const packersLate = crews.map(() => 0);
  const sum = (numbers: readonly number[]) => numbers.reduce((total, each) => total + each, 0);
  let begun: number | null = null;
  const seen = async (stop = false) => {
    for (const [index, crew] of crews.entries()) {
      const told = stop ? await crew.stop() : await crew.progress();
      packed[index] = told.orders;
      packers[index] = told.processor;
      packersLate[index] = told.late;
      const isWarm = begun !== null && performance.now() - begun > WARM_AFTER_S * 1000;
      for (const ms of told.scans) {
        scans.push(ms);
        if (isWarm) warmScans.push(ms);
      }
      for (const ms of told.steps) steps.push(ms);
    }
  };
  await seen();
  const packersBefore = sum(packers);
  const first = await server.held();
  const from = (begun = performance.now());
  const watched = await server.while(async () => {
    for (const crew of crews) crew.work(server.url);
    const over = () => (performance.now() - from) / 1000 / seconds;
    for (let part = 1; part <= looks; part++) {
      while (sum(packed) < (most * part) / looks && over() < part / looks) {
        await sleep(100);
        await seen();
      }
      const { heap, resident } = await server.held();
      const look = { orders: sum(packed), seconds: (performance.now() - from) / 1000, heap, resident };
      memory.push(look);
      onLook?.(look);
      if (sum(packed) >= most) break;
    }
    await seen(true);
  });
  const took = (performance.now() - from) / 1000;
  const last = await server.held();
  const load = loadavg()[0] ?? 0;
  await server.stop();
  const after = counted(data.path);
  data.remove();
  removeConfigFolders();
  const inputs = after.inputs - before.inputs;
  const anInput = (seconds: number) => (1000 * seconds) / Math.max(1, inputs);
  return {
    orders: sum(packed),
    inputs,
    seconds: took,
    scans,
    warmScans,
    steps,
    late: watched.delay.p99,
    packersLate: Math.max(...packersLate),
    bytesAParcel: (after.bytes - before.bytes) / Math.max(1, after.parcels - before.parcels),
    memory,
    serverCores: (last.processor - first.processor) / took,
    packerCores: (sum(packers) - packersBefore) / took,
    processorAnInput: {
      server: anInput(last.processor - first.processor),
      loop: last.loop === null || first.loop === null ? null : anInput(last.loop - first.loop),
    },
    load,
  };
}
