/** A moment on the wall clock of a time zone. */
export interface WallTime {
  readonly year: number;
  /** 1 to 12 */
  readonly month: number;
  readonly day: number;
  readonly hour: number;
  readonly minute: number;
}

const formats = new Map<string, Intl.DateTimeFormat>();

function formatFor(timeZone: string): Intl.DateTimeFormat {
  let format = formats.get(timeZone);
  if (format === undefined) {
    format = new Intl.DateTimeFormat('en-US', {
      timeZone,
      calendar: 'iso8601',
      numberingSystem: 'latn',
      hourCycle: 'h23',
      year: 'numeric',
      month: 'numeric',
      day: 'numeric',
      hour: 'numeric',
      minute: 'numeric',
      second: 'numeric',
    });
    formats.set(timeZone, format);
  }
  return format;
}

/** What the wall clock of a zone shows at an instant (milliseconds since the epoch). */
export function wallTimeAt(instant: number, timeZone: string): WallTime {
  const parts: Record<string, number> = {};
  for (const { type, value } of formatFor(timeZone).formatToParts(instant)) parts[type] = Number(value);
  const { year = 0, month = 0, day = 0, hour = 0, minute = 0 } = parts;
  return { year, month, day, hour, minute };
}

function asUtc({ year, month, day, hour, minute }: WallTime): number {
  return Date.UTC(year, month - 1, day, hour, minute);
}

/**
 * The instant at which a zone's clock shows a wall time. A time that comes twice means the first of the two; a time that
 * the change to summer time skips means as long after the change.
 */
export function instantOf(wall: WallTime, timeZone: string): number {
  const wanted = asUtc(wall);
  const offsetAt = (instant: number): number =>
    asUtc(wallTimeAt(instant, timeZone)) - Math.floor(instant / 60_000) * 60_000;
  const day = 24 * 3_600_000;
  const before = wanted - offsetAt(wanted - day);
  const after = wanted - offsetAt(wanted + day);
  for (const candidate of [before, after]) {
    if (asUtc(wallTimeAt(candidate, timeZone)) === wanted) return candidate;
  }
  return before;
}

/** Whether a calendar day exists: 30 February does not. */
export function isRealDay(year: number, month: number, day: number): boolean {
  const date = new Date(Date.UTC(year, month - 1, day));
  return date.getUTCFullYear() === year && date.getUTCMonth() === month - 1 && date.getUTCDate() === day;
}
