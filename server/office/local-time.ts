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

const QUARTER_HOUR = 15 * 60_000;
const REMEMBERED = 10_000;
const offsets = new Map<string, number>();

/** Local time less UTC; remembered, since asking costs more than all else here. Zones change on quarters of an hour only. */
function offsetAt(instant: number, timeZone: string): number {
  const quarter = Math.floor(instant / QUARTER_HOUR) * QUARTER_HOUR;
  const key = `${timeZone} ${String(quarter)}`;
  let offset = offsets.get(key);
  if (offset === undefined) {
    if (offsets.size >= REMEMBERED) offsets.clear();
    offset = asUtc(wallTimeAt(quarter, timeZone)) - quarter;
    offsets.set(key, offset);
  }
  return offset;
}

const DAY = 24 * 3_600_000;

/**
 * The instant at which a zone's clock shows a wall time. A time that comes twice means the first of the two; a time that
 * the change to summer time skips means as long after the change.
 */
export function instantOf(wall: WallTime, timeZone: string): number {
  const wanted = asUtc(wall);
  const before = wanted - offsetAt(wanted - DAY, timeZone);
  const after = wanted - offsetAt(wanted + DAY, timeZone);
  for (const candidate of [before, after]) {
    if (candidate + offsetAt(candidate, timeZone) === wanted) return candidate;
  }
  return before;
}

/** Whether a calendar day exists: 30 February does not. */
export function isRealDay(year: number, month: number, day: number): boolean {
  const date = new Date(Date.UTC(year, month - 1, day));
  return date.getUTCFullYear() === year && date.getUTCMonth() === month - 1 && date.getUTCDate() === day;
}
