import type { Day } from '#shared/rating/types.ts';

/** The calendar day at an instant in an IANA time zone, "2026-11-25". */
export function calendarDay(at: number, timeZone: string): Day {
  return new Intl.DateTimeFormat('en-CA', { timeZone, year: 'numeric', month: '2-digit', day: '2-digit' }).format(at);
}
