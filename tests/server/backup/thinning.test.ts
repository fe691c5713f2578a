import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isDue } from '#server/backup/backup-desk.ts';
import { kept } from '#server/backup/thinning.ts';
import { BACKUP_DEFAULTS } from '#shared/shop/backups.ts';

const HOUR = 3_600_000;
const settings = { every: 12, newest: 2, days: 3, weeks: 2, folder: null };
const at = (iso: string) => ({ at: Date.parse(iso) });

describe('which backups are kept', () => {
  it('the newest, each day’s last, each week’s last, on the shop’s calendar', () => {
    const backups = [
      at('2026-11-25T18:00:00Z'), // Wednesday
      at('2026-11-25T17:00:00Z'),
      at('2026-11-25T16:00:00Z'),
      at('2026-11-25T03:00:00Z'), // still Tuesday evening in Chicago
      at('2026-11-24T18:00:00Z'),
      at('2026-11-23T18:00:00Z'),
      at('2026-11-22T18:00:00Z'), // Sunday, the week before
      at('2026-11-20T18:00:00Z'),
      at('2026-11-10T18:00:00Z'),
    ];
    const keep = kept(backups, settings, 'America/Chicago');
    expect(backups.map((backup) => keep.has(backup))).toEqual([
      true,
      true,
      false,
      true,
      false,
      true,
      true,
      false,
      false,
    ]);
  });

  it('never drops the newest, keeps no more than asked, and keeps the same when thinned again', () => {
    fc.assert(
      fc.property(
        fc.uniqueArray(fc.integer({ min: 0, max: 4000 }), { maxLength: 60 }),
        fc.record({
          newest: fc.integer({ min: 1, max: 5 }),
          days: fc.integer({ min: 0, max: 9 }),
          weeks: fc.integer({ min: 0, max: 9 }),
        }),
        (hours, keepers) => {
          const backups = hours.map((hour) => ({ at: 1_700_000_000_000 + hour * HOUR }));
          const rules = { ...settings, ...keepers };
          const keep = kept(backups, rules, 'Europe/Madrid');
          expect(keep.size).toBeLessThanOrEqual(keepers.newest + keepers.days + keepers.weeks);
          const last = [...backups].sort((one, other) => other.at - one.at)[0];
          if (last !== undefined) expect(keep.has(last)).toBe(true);
          expect(kept([...keep], rules, 'Europe/Madrid')).toEqual(keep);
        },
      ),
    );
  });
});

it('is due after its hours, also when the clock was set back, and waits an hour after one that failed', () => {
  const now = Date.UTC(2026, 10, 25);
  const due = (newest: number | null, failed: number | null) => isDue(newest, failed, BACKUP_DEFAULTS, now);
  expect(due(null, null)).toBe(true);
  expect(due(now - 11 * HOUR, null)).toBe(false);
  expect(due(now - 12 * HOUR, null)).toBe(true);
  expect(due(now + HOUR, null)).toBe(true);
  expect(due(null, now - HOUR / 2)).toBe(false);
  expect(due(null, now - HOUR)).toBe(true);
});
