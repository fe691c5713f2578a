import { mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pino } from 'pino';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { lastLogLines } from '#server/diagnostics/log-lines.ts';
import { earlierLogs, LOG_FILE, LogFiles } from '#server/log-files.ts';
import { logRetention } from '#server/retention/log-retention.ts';
import type { ShopHolder } from '#server/shop-holder.ts';
import { newestChanges } from '#server/store/changes.ts';
import { KEEP_DEFAULTS, type KeepSettings } from '#shared/shop/keep.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';
import { openTestStore } from '#tests/support/test-store.ts';

const DAY_MS = 86_400_000;
const NOW = Date.parse('2026-11-25T18:00:00Z');
let data: ReturnType<typeof temporaryFolder>;
let now = NOW;
beforeEach(() => {
  data = temporaryFolder('log');
  mkdirSync(data.path, { recursive: true });
  now = NOW;
});
afterEach(() => data.remove());

const clock = () => now;
const names = () => readdirSync(data.path).sort();
const earlier = (days: number) => {
  const stamp = new Date(NOW - days * DAY_MS).toISOString().replace(/[-:]|\.\d+/g, '');
  return `${LOG_FILE}.${stamp}`;
};
const holder = (keep: () => Partial<KeepSettings>) => {
  let tell = (): void => undefined;
  const shops = {
    get current() {
      return { keep: keep() };
    },
    onChange: (told: () => void) => (tell = told),
  } as unknown as ShopHolder;
  return { shops, changed: () => tell() };
};

describe('the log', () => {
  it('is begun anew when it has grown large, with every line in one part or the other, and never takes more than it may', async () => {
    const files = new LogFiles(data.path, 0.05, clock, 10_000);
    const log = pino({}, files);
    for (let line = 0; line < 2000; line++) {
      now += 60_000;
      log.info({ line }, 'a line like any other');
      if (line % 100 === 0) await new Promise(setImmediate);
    }
    const parts = names().map((name) => statSync(join(data.path, name)).size);
    expect(parts.length).toBeGreaterThan(3);
    expect(parts.reduce((sum, bytes) => sum + bytes, 0)).toBeLessThanOrEqual(50_000);
    expect(Math.max(...parts)).toBeLessThanOrEqual(10_000);
    // What is left is the newest, whole and in a row.
    const left = [...earlierLogs(data.path).map(({ path }) => path), join(data.path, LOG_FILE)]
      .flatMap((path) => readFileSync(path, 'utf8').trim().split('\n'))
      .map((text) => (JSON.parse(text) as { line: number }).line);
    expect(left.at(-1)).toBe(1999);
    expect(left).toEqual(Array.from({ length: left.length }, (_, at) => 2000 - left.length + at));
  });

  it('never writes over an earlier part, also where the clock stands still or was set back', () => {
    const files = new LogFiles(data.path, 100, clock);
    for (const [line, at] of [NOW, NOW, NOW, NOW - 3 * DAY_MS].entries()) {
      now = at;
      files.write(`{"line":${String(line)}}\n`);
      files.begin();
    }
    files.begin();
    expect(earlierLogs(data.path).map(({ path }) => readFileSync(path, 'utf8'))).toEqual(
      [3, 0, 1, 2].map((line) => `{"line":${String(line)}}\n`),
    );
  });

  it('goes on in its file where it was, and leaves alone what only looks like an earlier part', () => {
    writeFileSync(join(data.path, LOG_FILE), '{"before":1}\n');
    writeFileSync(join(data.path, `${LOG_FILE}.mine`), 'x');
    writeFileSync(join(data.path, `${LOG_FILE}.99999999T999999Z`), 'x');
    const files = new LogFiles(data.path, 0, clock);
    files.write('{"after":1}\n');
    expect(readFileSync(join(data.path, LOG_FILE), 'utf8')).toBe('{"before":1}\n{"after":1}\n');
    expect(files.removeBefore(Infinity)).toBe(0);
    expect(names()).toEqual([LOG_FILE, `${LOG_FILE}.99999999T999999Z`, `${LOG_FILE}.mine`]);
  });

  it('tells a helper far away also what was written just before it was begun anew', async () => {
    const files = new LogFiles(data.path, 100, clock);
    pino({}, files).info('before');
    files.begin();
    expect(await lastLogLines(data.path)).toHaveLength(1);
    pino({}, files).info('after');
    const told = (await lastLogLines(data.path)).map((line) => (JSON.parse(line) as { msg: string }).msg);
    expect(told).toEqual(['before', 'after']);
  });
});

describe('what is kept of the log', () => {
  it('is as many days as the shop says, and that is in the record of changes', async () => {
    const store = await openTestStore(join(data.path, 'store'));
    for (const days of [200, 91, 89, 8, 6]) writeFileSync(join(data.path, earlier(days)), `${String(days)}\n`);
    let keep: Partial<KeepSettings> = {};
    const files = new LogFiles(data.path, KEEP_DEFAULTS.logMegabytes, clock);
    files.write('{"today":1}\n');
    const kept = logRetention({ store, files, shops: holder(() => keep).shops });
    expect(await kept.remove(NOW)).toBe(2);
    expect(names().filter((name) => name !== 'store')).toEqual(
      [earlier(89), earlier(8), earlier(6), earlier(0), LOG_FILE].sort(),
    );
    keep = { logDays: 7 };
    expect(await kept.remove(NOW)).toBe(2);
    expect(earlierLogs(data.path).map(({ path }) => path)).toEqual(
      [earlier(6), earlier(0)].map((name) => join(data.path, name)),
    );
    expect((await newestChanges(store, null)).map(({ what, about, details }) => [what, about, details])).toEqual([
      ['kept-time-over', 'logDays', { removed: '2', days: '7' }],
      ['kept-time-over', 'logDays', { removed: '2', days: '90' }],
    ]);
    await store.destroy();
  });

  it('is no more than the shop gives it, from the moment that it says so', async () => {
    const store = await openTestStore(join(data.path, 'store'));
    for (const days of [3, 2, 1]) writeFileSync(join(data.path, earlier(days)), 'x'.repeat(4_000_000));
    let keep: Partial<KeepSettings> = {};
    const { shops, changed } = holder(() => keep);
    logRetention({ store, files: new LogFiles(data.path, KEEP_DEFAULTS.logMegabytes, clock), shops });
    expect(earlierLogs(data.path)).toHaveLength(3);
    keep = { logMegabytes: 10 };
    changed();
    // What is written may grow to five beside it.
    expect(earlierLogs(data.path).map(({ path }) => path)).toEqual([join(data.path, earlier(1))]);
    await store.destroy();
  });
});
