import { wallTimeAt } from '../local-time.ts';
import type { Cell } from './quantities.ts';
import { shipByCell, type ShipByRules } from './ship-by.ts';
import type { Day } from '#shared/rating/types.ts';

export interface ArriveBy {
  readonly day: Day;
  /** the cell counts from the import, so that it reads differently every time */
  readonly relative: boolean;
}

/** A promised day has no time: carriers state whole days. */
const NOON = '12:00';

/** An arrive-by cell: "+3d" from now, an ISO day, or a day in one of the config's formats. */
export function arriveByCell(text: string, rules: Omit<ShipByRules, 'time'>): Cell<ArriveBy> {
  const refused: Cell<ArriveBy> = {
    ok: false,
    expected: `a day without a time, such as 2026-11-28${rules.days.map((each) => `, ${each}`).join('')} or +3d`,
  };
  const trimmed = text.trim();
  if (trimmed.includes(':') || (trimmed.startsWith('+') && !/^\+\s*\d+\s*d$/i.test(trimmed))) return refused;
  const cell = shipByCell(trimmed.startsWith('+') ? `${trimmed} ${NOON}` : trimmed, { ...rules, time: NOON });
  if (!cell.ok) return refused;
  return { ok: true, value: { day: localDay(cell.value.instant, rules.timeZone), relative: cell.value.relative } };
}

/** The calendar day of an ISO instant on the clock of a zone. */
export function localDay(instant: string, timeZone: string): Day {
  const { year, month, day } = wallTimeAt(Date.parse(instant), timeZone);
  return `${String(year)}-${String(month).padStart(2, '0')}-${String(day).padStart(2, '0')}`;
}
