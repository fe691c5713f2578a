import type { Day } from '#shared/rating/types.ts';

/** Making one costs a hundred times as much as using it. */
const formats = new Map<string, Intl.DateTimeFormat>();

/** The calendar day at an instant in an IANA time zone, "2026-11-25". */
export function calendarDay(at: number, timeZone: string): Day {
  let format = formats.get(timeZone);
  if (format === undefined) {
    format = new Intl.DateTimeFormat('en-CA', { timeZone, year: 'numeric', month: '2-digit', day: '2-digit' });
    formats.set(timeZone, format);
  }
  return format.format(at);
}
