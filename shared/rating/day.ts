import type { Day } from './types.ts';

const DAY_MILLISECONDS = 86_400_000;

/** The day so many days later (earlier when negative). */
export function daysLater(day: Day, count: number): Day {
  return new Date(Date.parse(`${day}T00:00:00Z`) + count * DAY_MILLISECONDS).toISOString().slice(0, 10);
}
