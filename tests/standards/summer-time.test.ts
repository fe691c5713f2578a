import { describe, expect, it } from 'vitest';
import { calendarDay } from '#server/calendar.ts';
import { instantOf, wallTimeAt, type WallTime } from '#server/office/local-time.ts';

const MINUTE = 60_000;
const HOUR = 60 * MINUTE;

/** What a clock on the wall shows, by the runtime's copy of the IANA time zone database, asked in another way than ours. */
function shown(at: number, timeZone: string): string {
  return new Date(at).toLocaleString('sv-SE', { timeZone }).slice(0, 16);
}
const written = ({ year, month, day, hour, minute }: WallTime) =>
  `${String(year)}-${[month, day].map((part) => String(part).padStart(2, '0')).join('-')} ${[hour, minute].map((part) => String(part).padStart(2, '0')).join(':')}`;

/**
 * Published changes of the clock. United States: second Sunday of March and first Sunday of November, 2:00 (Energy Policy Act
 * of 2005, 15 U.S.C. 260a). European Union: last Sundays of March and October, 01:00 UTC (Directive 2000/84/EC). Lord Howe
 * Island by half an hour, and Beirut at midnight: IANA time zone database.
 */
const CHANGES = [
  ['America/Chicago', '2026-03-08T08:00:00Z', 60],
  ['America/Chicago', '2026-11-01T07:00:00Z', -60],
  ['Europe/Madrid', '2026-03-29T01:00:00Z', 60],
  ['Europe/Madrid', '2026-10-25T01:00:00Z', -60],
  ['Australia/Lord_Howe', '2026-04-04T15:00:00Z', -30],
  ['Asia/Beirut', '2026-03-28T22:00:00Z', 60],
  ['Asia/Beirut', '2026-10-24T21:00:00Z', -60],
] as const;

describe.each(CHANGES)('%s on %s', (timeZone, iso, minutes) => {
  const change = Date.parse(iso);

  it('is when the clock changes, by so much', () => {
    const offset = (at: number) => Date.parse(`${shown(at, timeZone).replace(' ', 'T')}:00Z`) - at;
    expect((offset(change) - offset(change - MINUTE)) / MINUTE).toBe(minutes);
  });

  it('our wall clock shows what the database shows, every minute of six hours', () => {
    for (let at = change - 3 * HOUR; at < change + 3 * HOUR; at += MINUTE) {
      expect(written(wallTimeAt(at, timeZone))).toBe(shown(at, timeZone));
    }
  });

  it('a wall time is the first instant that shows it; a skipped one comes as long after the change', () => {
    const first = new Map<string, number>();
    for (let at = change - 8 * HOUR; at < change + 8 * HOUR; at += MINUTE) {
      const text = shown(at, timeZone);
      if (!first.has(text)) first.set(text, at);
    }
    for (const [text, at] of first) {
      if (Math.abs(at - change) > 5 * HOUR) continue;
      const [year = 0, month = 0, day = 0, hour = 0, minute = 0] = text.split(/\D/).map(Number);
      expect(instantOf({ year, month, day, hour, minute }, timeZone)).toBe(at);
    }
    if (minutes < 0) return;
    const before = wallTimeAt(change - MINUTE, timeZone);
    const skipped = { ...before, hour: before.hour, minute: before.minute };
    const wanted = Date.UTC(skipped.year, skipped.month - 1, skipped.day, skipped.hour, skipped.minute) + 11 * MINUTE;
    const wall = new Date(wanted);
    const inTheGap = {
      year: wall.getUTCFullYear(),
      month: wall.getUTCMonth() + 1,
      day: wall.getUTCDate(),
      hour: wall.getUTCHours(),
      minute: wall.getUTCMinutes(),
    };
    expect(instantOf(inTheGap, timeZone)).toBe(change + 10 * MINUTE);
  });

  it('the day changes where the database has it change, so that what is counted "today" is of that day', () => {
    for (let days = -2; days <= 2; days++) {
      const day = calendarDay(change + days * 24 * HOUR, timeZone);
      const [year = 0, month = 0, date = 0] = day.split('-').map(Number);
      const begins = instantOf({ year, month, day: date, hour: 0, minute: 0 }, timeZone);
      expect(calendarDay(begins, timeZone)).toBe(day);
      expect(calendarDay(begins - 1, timeZone)).not.toBe(day);
      expect(shown(begins, timeZone).slice(0, 10)).toBe(day);
    }
  });
});

it('a collection at 16:30 in Chicago is 22:30 UTC in winter and 21:30 UTC from the day of the change on', () => {
  const at = (month: number, day: number) =>
    new Date(instantOf({ year: 2026, month, day, hour: 16, minute: 30 }, 'America/Chicago')).toISOString();
  expect(at(3, 7)).toBe('2026-03-07T22:30:00.000Z');
  expect(at(3, 8)).toBe('2026-03-08T21:30:00.000Z');
  expect(at(10, 31)).toBe('2026-10-31T21:30:00.000Z');
  expect(at(11, 1)).toBe('2026-11-01T22:30:00.000Z');
});
