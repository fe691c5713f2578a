import { readdirSync, statSync } from 'node:fs';
import os from 'node:os';
import { join } from 'node:path';
import { strToU8, zipSync } from 'fflate';
import { sql } from 'kysely';
import { configFacts } from './config-facts.ts';
import { lastLogLines } from './log-lines.ts';
import { everyDevice } from '#server/devices/every-device.ts';
import type { AppParts } from '#server/http/app.ts';
import { pagesVersion } from '#server/http/app-manifest.ts';
import { API_VERSION } from '#server/api/version.ts';
import type { Station } from '#server/runs/station.ts';
import type { Store } from '#server/store/open.ts';

const ABOUT = [
  'What somebody who helps from far away needs to see of this station.',
  'There is no name, address, order, piece, label number, text of a slip, photo, token or PIN in it:',
  'each file is put together from figures, states and codes alone. Look through it before you send it.',
  '',
  'about.json    versions, computer, how long it has run',
  'config.json   the shop’s files as counts and choices',
  'devices.json  how each device is, and how much it sent',
  'health.json   what is not well, and why',
  'store.json    rows of each table, sizes of files',
  'metrics.txt   the figures, in the Prometheus text format',
  'log.jsonl     the last lines of the log, without what errors say',
].join('\n');

/** Everything that helps to find out what is wrong, as one file that may be sent to anybody. */
export async function diagnosticsZip(parts: AppParts): Promise<Uint8Array> {
  const { store, shops, stations, clock, pages, data, health, metrics } = parts;
  const files: Record<string, object | string> = {
    'about.txt': ABOUT,
    'about.json': {
      at: new Date(clock.now()).toISOString(),
      pages: pagesVersion(pages),
      api: API_VERSION,
      node: process.version,
      platform: process.platform,
      architecture: process.arch,
      system: os.release(),
      processors: os.cpus().length,
      memory: os.totalmem(),
      free: os.freemem(),
      resident: process.memoryUsage.rss(),
      upSeconds: Math.round(process.uptime()),
    },
    'config.json': configFacts(shops.current),
    'devices.json': [...stations.values()].map(deviceFacts),
    'health.json': await health.look(),
    'store.json': { tables: await tableFacts(store), files: fileFacts(data) },
    'metrics.txt': withBenchNumbers(await metrics.registry.metrics(), [...stations.keys()]),
    'log.jsonl': (await lastLogLines(data)).join('\n'),
  };
  return zipSync(
    Object.fromEntries(
      Object.entries(files).map(([name, file]) => [
        name,
        strToU8(typeof file === 'string' ? file : JSON.stringify(file, null, 2)),
      ]),
    ),
  );
}

/** A bench may be called after somebody: here each has a number. */
function withBenchNumbers(text: string, benches: readonly string[]): string {
  return benches.reduce(
    (told, bench, index) => told.replaceAll(`bench="${bench}"`, `bench="${String(index + 1)}"`),
    text,
  );
}

function deviceFacts(station: Station, index: number): object {
  return {
    bench: index + 1,
    step: station.run.state.step.at,
    devices: everyDevice(station).map(({ called: device, health: { state, trouble, since }, trace }) => {
      const { bytes, good, discarded, connections } = trace ?? { bytes: 0, good: 0, discarded: 0, connections: 0 };
      return { device, state, trouble, since, bytes, good, discarded, connections };
    }),
  };
}

async function tableFacts(store: Store): Promise<Readonly<Record<string, number>>> {
  const tables = await store.introspection.getTables();
  const counts: Record<string, number> = {};
  for (const { name } of tables) {
    const { rows } = await sql<{ count: number }>`select count(*) as count from ${sql.table(name)}`.execute(store);
    counts[name] = rows[0]?.count ?? 0;
  }
  return counts;
}

/** Only what the program itself calls so. */
function fileFacts(folder: string): Readonly<Record<string, number>> {
  const known = readdirSync(folder).filter((name) =>
    /^(benchfold\.db(-wal|-shm)?|server\.log(\.\d{8}T\d{6}Z(-\d+)?)?)$/.test(name),
  );
  return Object.fromEntries(known.map((name) => [name, statSync(join(folder, name)).size]));
}
