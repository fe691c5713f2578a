import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { createServer, type AddressInfo } from 'node:net';
import { dayConfig, fillWithOrders } from './day-shop.ts';
import { Invariants, type Looked } from './invariants.ts';
import { Packer, startDevices, type Acknowledged, type Devices } from './packer.ts';
import { seeded } from '#tests/support/seeded.ts';
import { spawnServer, startProcess, temporaryFolder, type Launch } from '#tests/support/server-process.ts';
import { loadShop } from '#config/load.ts';

export interface FaultyDay {
  readonly kills: number;
  readonly benches: number;
  readonly seed: number;
  /** a server is killed when it has acknowledged so many inputs at most, or after {@link LONGEST_LIFE_MS} */
  readonly livesFor: number;
  readonly onKill?: (kill: number, looked: Looked) => void;
}

export interface DayEnd extends Looked {
  readonly acknowledged: number;
  readonly restarts: readonly number[];
}

async function freePort(): Promise<number> {
  const server = createServer();
  await new Promise<void>((listening) => server.listen(0, '127.0.0.1', listening));
  const { port } = server.address() as AddressInfo;
  await new Promise((closed) => server.close(closed));
  return port;
}

const LONGEST_LIFE_MS = 4000;

async function livedFor(acknowledged: readonly unknown[], inputs: number): Promise<void> {
  const end = performance.now() + LONGEST_LIFE_MS;
  const enough = acknowledged.length + inputs;
  while (acknowledged.length < enough && performance.now() < end) await sleep(5);
}

/** What the servers themselves took for a fault: a kill at any moment gives no reason for one. */
function faultsLogged(folder: string): readonly string[] {
  const lines = readFileSync(join(folder, 'server.log'), 'utf8').split('\n');
  return lines.filter((line) => /^\{"level":[56]0,/.test(line)).map((line) => `in the log: ${line.slice(0, 600)}`);
}

const KILLED_WHILE_STARTING = 0.1;

async function killedWhileStarting(launch: Launch, afterMs: number): Promise<void> {
  const child = spawnServer(launch);
  const ended = new Promise((done) => child.once('exit', done));
  await sleep(afterMs);
  child.kill('SIGKILL');
  await ended;
}

/**
 * A day at several benches whose server is killed at random moments, in the middle of whatever it does, also while it starts.
 * After each kill everything that must hold is looked at, and what was wrong is told.
 */
export async function faultyDay({ kills, benches, seed, livesFor, onKill }: FaultyDay): Promise<DayEnd> {
  const data = temporaryFolder('faulty-day');
  const uniform = seeded(seed);
  const devices: Devices[] = [];
  for (let index = 0; index < benches; index++) devices.push(await startDevices());
  const config = dayConfig(
    devices.map(({ ports }) => ports),
    { labels: true },
  );
  const port = await freePort();
  const url = `http://127.0.0.1:${String(port)}`;
  await fillWithOrders(data.path, Math.max(60, kills * benches), Date.now());
  const acknowledged: Acknowledged[] = [];
  const packers = devices.map(
    (own, index) =>
      new Packer({
        bench: `bench-${String(index + 1)}`,
        devices: own,
        uniform: seeded(seed + index + 1),
        wayward: true,
        onAcknowledged: (each) => acknowledged.push(each),
      }),
  );
  const invariants = new Invariants(loadShop(config));
  const broken: string[] = [];
  const restarts: number[] = [];
  const working = packers.map((packer) => packer.work(url));
  let looked: Looked = { broken: [], inputs: 0, parcels: 0, printJobs: 0, unknownPrints: 0 };
  try {
    for (let kill = 1; kill <= kills; kill++) {
      if (uniform() < KILLED_WHILE_STARTING) {
        await killedWhileStarting({ data: data.path, config, port }, uniform() * 600);
      } else {
        const from = performance.now();
        const server = await startProcess({ data: data.path, config, port });
        restarts.push(performance.now() - from);
        await livedFor(acknowledged, Math.floor(uniform() * livesFor));
        await sleep(uniform() * 40);
        await server.kill();
      }
      // What the printers have read, they print; what was acknowledged on the way, arrives.
      await sleep(60);
      const printed = new Map(packers.map(({ bench }, index) => [bench, devices[index]?.printer.jobs() ?? []]));
      looked = await invariants.look(data.path, { acknowledged, printed });
      for (const each of looked.broken) broken.push(`after kill ${String(kill)}: ${each}`);
      onKill?.(kill, looked);
    }
    broken.push(...faultsLogged(data.path));
  } finally {
    for (const packer of packers) packer.stop();
    await Promise.all(working);
    for (const own of devices) await own.stop();
    data.remove();
  }
  return { ...looked, broken, acknowledged: acknowledged.length, restarts };
}
