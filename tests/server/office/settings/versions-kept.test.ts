import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import { EarlierVersions } from '#server/office/settings/earlier.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';

const folder = temporaryFolder('versions');
afterAll(() => {
  folder.remove();
});

const DAY_MS = 86_400_000;
/** A Wednesday. */
const NOW = Date.parse('2026-11-25T18:00:00Z');
const ago = (days: number) => NOW - days * DAY_MS;

it('every version of the last days is kept, then the last one of each week, up to so many weeks', () => {
  const earlier = new EarlierVersions(folder.path);
  for (let days = 0; days < 400; days += 1) {
    earlier.keep('shop.yaml', `name: ${String(days)}\n`, { until: ago(days), why: 'changed', by: null });
  }
  earlier.keep('rate-cards/gone.yaml', 'carrier: gone\n', { until: ago(390), why: 'removed', by: 'maren' });
  expect(earlier.thin({ days: 30, weeks: 20 }, NOW, 'America/Chicago')).toBeGreaterThan(300);
  const left = earlier.list('shop.yaml').map(({ until }) => Math.round((NOW - until) / DAY_MS));
  expect(left.slice(0, 31)).toEqual(Array.from({ length: 31 }, (_, days) => days));
  // Weeks begin on Monday: what is left of one is its Sunday, 10 days ago and so on; the first week is cut by the 30 days.
  const weekly = left.slice(31);
  expect(weekly).toEqual(Array.from({ length: 20 }, (_, week) => (week === 0 ? 31 : 31 + week * 7)));
  expect(new Set(weekly.map((days) => new Date(ago(days)).getUTCDay())).size).toBe(1);
  // The only version of a file that is gone is how it comes back.
  expect(earlier.list('rate-cards/gone.yaml')).toHaveLength(1);
  expect(earlier.files()).toEqual(expect.arrayContaining(['shop.yaml', 'rate-cards/gone.yaml']));
  const there = readdirSync(join(folder.path, '.earlier', 'shop.yaml'));
  expect(there.filter((name) => name.endsWith('.json'))).toHaveLength(left.length);
  expect(existsSync(join(folder.path, '.earlier', 'shop.yaml', there[0] ?? ''))).toBe(true);
  expect(earlier.thin({ days: 30, weeks: 20 }, NOW, 'America/Chicago')).toBe(0);
});
