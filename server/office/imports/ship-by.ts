import { instantOf, isRealDay, wallTimeAt } from '../local-time.ts';
import type { Cell } from './quantities.ts';

export interface ShipByRules {
  readonly timeZone: string;
  /** MM/DD/YYYY and such, tried in turn */
  readonly days: readonly string[];
  /** "16:30", for a day without a time */
  readonly time: string;
  /** milliseconds since the epoch, which relative times count from */
  readonly now: number;
}

export interface ShipBy {
  /** ISO instant */
  readonly instant: string;
  /** the cell counts from the import, so that it reads differently every time */
  readonly relative: boolean;
}

/**
 * A ship-by cell: "+4h", "+90m", "+2d", "+1d 16:30" from now; an ISO day or date and time, with or without its offset;
 * or a day in one of the config's formats, with or without a time.
 */
export function shipByCell(text: string, rules: ShipByRules): Cell<ShipBy> {
  const trimmed = text.trim();
  const expected = `a ship-by time such as 2026-11-25 16:30${rules.days.map((each) => `, ${each}`).join('')} or +1d 16:30`;
  const instant = trimmed.startsWith('+') ? relative(trimmed, rules) : absolute(trimmed, rules);
  if (instant === null) return { ok: false, expected };
  return { ok: true, value: { instant: new Date(instant).toISOString(), relative: trimmed.startsWith('+') } };
}

const UNIT_MILLISECONDS: Readonly<Record<string, number>> = { m: 60_000, h: 3_600_000 };

function relative(text: string, rules: ShipByRules): number | null {
  const match = /^\+\s*(\d{1,4})\s*([mhd])(?:\s+(\d{1,2}:\d{2}))?$/i.exec(text);
  if (match === null) return null;
  const count = Number(match[1]);
  const unit = (match[2] ?? '').toLowerCase();
  if (unit !== 'd') {
    const each = UNIT_MILLISECONDS[unit];
    return match[3] === undefined && each !== undefined ? toMinute(rules.now + count * each) : null;
  }
  const today = wallTimeAt(rules.now, rules.timeZone);
  const time = match[3] === undefined ? { hour: today.hour, minute: today.minute } : clock(match[3]);
  if (time === null) return null;
  const day = new Date(Date.UTC(today.year, today.month - 1, today.day + count));
  return instantOf(
    { year: day.getUTCFullYear(), month: day.getUTCMonth() + 1, day: day.getUTCDate(), ...time },
    rules.timeZone,
  );
}

const toMinute = (instant: number): number => Math.floor(instant / 60_000) * 60_000;

function absolute(text: string, rules: ShipByRules): number | null {
  const iso = /^(\d{4})-(\d{2})-(\d{2})(?:[T ]+(\d{1,2}:\d{2})(?::\d{2}(?:\.\d+)?)?\s*(Z|[+-]\d{2}:?\d{2})?)?$/i.exec(
    text,
  );
  if (iso !== null) return moment([iso[1], iso[2], iso[3]], iso[4], iso[5], rules);
  const local = /^(\d{1,4})[./ -](\d{1,2})[./ -](\d{1,4})(?:[, ]+(.+))?$/.exec(text);
  if (local === null) return null;
  for (const format of rules.days) {
    const order = format.split(/[./ -]/);
    const separator = /[./ -]/.exec(format)?.[0] ?? '';
    const parts = (text.split(/[, ]+\d{1,2}:/)[0] ?? '').trim().split(separator);
    if (parts.length !== 3 || order.length !== 3) continue;
    const of = (letter: string): string | undefined => parts[order.findIndex((part) => part.startsWith(letter))];
    const year = of('Y') ?? '';
    const full = year.length === 2 ? `20${year}` : year;
    const instant = moment([full, of('M'), of('D')], local[4], undefined, rules);
    if (instant !== null) return instant;
  }
  return null;
}

type Parts = readonly [string | undefined, string | undefined, string | undefined];

function moment(day: Parts, time: string | undefined, offset: string | undefined, rules: ShipByRules): number | null {
  const [year, month, date] = day.map((part) => (/^\d+$/.test(part ?? '') ? Number(part) : NaN)) as [
    number,
    number,
    number,
  ];
  const at = clock(time ?? rules.time);
  if (!isRealDay(year, month, date) || year < 1970 || at === null) return null;
  if (offset === undefined) return instantOf({ year, month, day: date, ...at }, rules.timeZone);
  const utc = Date.UTC(year, month - 1, date, at.hour, at.minute);
  if (offset.toUpperCase() === 'Z') return utc;
  const [, sign, hours, minutes] = /^([+-])(\d{2}):?(\d{2})$/.exec(offset) ?? [];
  const shift = (Number(hours) * 60 + Number(minutes)) * 60_000;
  return sign === '-' ? utc + shift : utc - shift;
}

/** "16:30", "4:30 PM" */
function clock(text: string): { readonly hour: number; readonly minute: number } | null {
  const match = /^(\d{1,2}):(\d{2})(?::\d{2})?\s*([ap])?\.?m?\.?$/i.exec(text.trim());
  if (match === null) return null;
  const half = match[3]?.toLowerCase();
  const given = Number(match[1]);
  const minute = Number(match[2]);
  if (half !== undefined && (given < 1 || given > 12)) return null;
  const hour = half === undefined ? given : (given % 12) + (half === 'p' ? 12 : 0);
  return hour < 24 && minute < 60 ? { hour, minute } : null;
}
