import { calendarDay } from '#server/calendar.ts';
import { daysLater } from '#shared/rating/day.ts';
import { WEEKDAYS, weekdayOf } from '#shared/hand-over/collections.ts';
import type { BackupSettings } from '#shared/shop/backups.ts';

/**
 * Which backups are kept: the newest ones, each of the last days' last one, each of the last weeks' last one. Days and weeks
 * count where there are backups, so that a shop that was shut for a month loses none by it; weeks begin on Monday.
 */
export function kept<Made extends { readonly at: number }>(
  backups: readonly Made[],
  { newest, days, weeks }: Pick<BackupSettings, 'newest' | 'days' | 'weeks'>,
  timeZone: string,
): ReadonlySet<Made> {
  const sorted = [...backups].sort((one, other) => other.at - one.at);
  const keep = new Set(sorted.slice(0, Math.max(1, newest)));
  const lastOfEach = (most: number, nameOf: (at: number) => string) => {
    const seen = new Set<string>();
    for (const backup of sorted) {
      const name = nameOf(backup.at);
      if (seen.has(name)) continue;
      if (seen.size === most) return;
      seen.add(name);
      keep.add(backup);
    }
  };
  lastOfEach(days, (at) => calendarDay(at, timeZone));
  lastOfEach(weeks, (at) => {
    const day = calendarDay(at, timeZone);
    return daysLater(day, -WEEKDAYS.indexOf(weekdayOf(day)));
  });
  return keep;
}
