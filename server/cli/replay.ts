import { readFileSync, writeFileSync } from 'node:fs';
import { basename, join, resolve } from 'node:path';
import SqliteDatabase from 'better-sqlite3';
import { badInput, wrongUsage } from './cli-error.ts';
import type { Command } from './command.ts';
import { optional } from './options.ts';
import { recorded } from './record.ts';
import { loadShop } from '#config/load.ts';
import { calendarDay } from '#server/calendar.ts';
import { linesOf, readDay, recordDay, RecordedDayError } from '#server/replay/recorded-day.ts';
import { replayDay, ReplayError } from '#server/replay/replay-day.ts';

/** Records a day of a data folder without personal data, or plays one to a live server with simulated devices. */
export const replayCommand: Command = {
  usage:
    'replay --record FILE.jsonl [--data DIR] [--day YYYY-MM-DD] [--config DIR] | --play FILE.jsonl --server URL [--speed N]',
  options: ['record', 'data', 'day', 'config', 'play', 'server', 'speed'],
  async run(options, surroundings) {
    const { workingFolder, now } = surroundings;
    const file = optional(options, 'play');
    const record = optional(options, 'record');
    if ((file === undefined) === (record === undefined)) wrongUsage('expected either --record or --play');
    if (file === undefined) {
      const shop = loadShop(resolve(workingFolder, optional(options, 'config') ?? surroundings.config));
      const day = optional(options, 'day') ?? calendarDay(now, shop.timeZone);
      if (!/^\d{4}-\d\d-\d\d$/.test(day)) badInput(`--day: expected a day such as 2026-11-25, found "${day}"`);
      const data = resolve(workingFolder, optional(options, 'data') ?? surroundings.data ?? 'data');
      const taken = recordedDay(join(data, 'benchfold.db'), day, shop.timeZone);
      const to = resolve(workingFolder, record ?? '');
      // A slip of the keyboard must not cost a file that is there.
      writeFileSync(to, linesOf(taken), { flag: 'wx' });
      const { acts, orders, pieces } = taken;
      return {
        document: { file: to, day, acts: acts.length, orders: orders.length, pieces: pieces.length },
        text: `${to}: ${String(acts.length)} acts on ${String(orders.length)} orders of ${day}, without names, streets, notes and label numbers`,
        complaints: await recorded({ what: 'data-taken-out', about: basename(to) }, surroundings, { data }),
      };
    }
    const url = optional(options, 'server') ?? wrongUsage('--server: expected, not given');
    const speed = optional(options, 'speed');
    if (speed !== undefined && !(Number(speed) > 0)) badInput(`--speed: expected a number above 0, found "${speed}"`);
    try {
      const day = readDay(readFileSync(resolve(workingFolder, file), 'utf8'));
      const played = await replayDay(day, { url, speed: speed === undefined ? null : Number(speed) });
      const { acts, taken, skipped, orders, seconds, p50, p99 } = played;
      return {
        document: played,
        text: `${String(taken)} of ${String(acts)} acts taken, ${String(skipped)} did not fit; ${String(orders)} orders in ${seconds.toFixed(1)} s; to the next view p50 ${p50.toFixed(1)} ms, p99 ${p99.toFixed(1)} ms`,
        complaints: [],
      };
    } catch (error) {
      if (error instanceof RecordedDayError) badInput(`${file}: ${error.message}`);
      if (error instanceof ReplayError) badInput(error.message);
      if (error instanceof Error && 'code' in error) badInput(`${file}: ${error.message}`);
      throw error;
    }
  },
};

function recordedDay(path: string, day: string, timeZone: string) {
  let file: SqliteDatabase.Database;
  try {
    file = new SqliteDatabase(path, { readonly: true, fileMustExist: true });
  } catch (error) {
    badInput(`${path}: expected a shop's store (${error instanceof Error ? error.message : String(error)})`);
  }
  try {
    return recordDay(file, day, timeZone);
  } catch (error) {
    if (!(error instanceof SqliteDatabase.SqliteError)) throw error;
    badInput(`${path}: expected a shop's store (${error.message})`);
  } finally {
    file.close();
  }
}
