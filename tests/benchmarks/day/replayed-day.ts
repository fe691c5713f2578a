import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import SqliteDatabase from 'better-sqlite3';
import { atLeast, type Figure } from '../figure.ts';
import { watchedServer } from '../watching.ts';
import { crewOf } from './crew.ts';
import { removeConfigFolders } from '#tests/support/config-folder.ts';
import { dayConfig, fillWithOrders } from '#tests/support/day/day-shop.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';
import { linesOf, readDay, recordDay } from '#server/replay/recorded-day.ts';
import { replayDay } from '#server/replay/replay-day.ts';

const ZONE = 'America/Chicago';
const ORDERS = 12;

/** A day's record taken from one store and played to another server, through the command's own code. */
export async function replayedDay(): Promise<Figure> {
  const recorded = temporaryFolder('day-recorded');
  const crew = await crewOf({ benches: [1, 2], haste: 3, everyMs: 0 });
  await fillWithOrders(recorded.path, ORDERS * 4, Date.now());
  const server = await watchedServer(recorded.path, dayConfig(crew.ports));
  crew.work(server.url);
  while ((await crew.progress()).orders < ORDERS) await sleep(100);
  await crew.stop();
  await server.stop();
  const file = new SqliteDatabase(join(recorded.path, 'benchfold.db'), { readonly: true });
  const today = new Date().toLocaleDateString('sv-SE', { timeZone: ZONE });
  const day = readDay(linesOf(recordDay(file, today, ZONE)));
  file.close();
  const target = temporaryFolder('day-target');
  const live = await watchedServer(target.path, dayConfig([null, null]));
  const played = await replayDay(day, { url: live.url, speed: null });
  await live.stop();
  recorded.remove();
  target.remove();
  removeConfigFolders();
  return atLeast({
    bench: 'day',
    name: 'a recorded day played to another server: acts that fit',
    value: (100 * played.taken) / Math.max(1, played.acts),
    unit: '%',
    goal: 95,
    against: `${String(played.acts)} acts of ${String(day.orders.length)} orders`,
  });
}
