import type { Dates } from './dates.ts';
import { daysLater } from './day.ts';
import type { Day } from './types.ts';

/** A run of days, both ends counted in; null is open. */
export interface Span {
  readonly from: Day | null;
  readonly until: Day | null;
}

export interface Coverage {
  /** days on which more than one of the ranges is in force */
  readonly overlaps: readonly { readonly first: number; readonly second: number; readonly span: Span }[];
  /** days of the window on which none is */
  readonly gaps: readonly Span[];
}

// Days compare as text, so these stand before and after every one of them.
const EVER = '';
const NEVER_ENDS = '~';
const startOf = (dates: Dates): string => dates.from ?? EVER;
const endOf = (dates: Dates): string => dates.until ?? NEVER_ENDS;
const spanOf = (from: string, until: string): Span => ({
  from: from === EVER ? null : from,
  until: until === NEVER_ENDS ? null : until,
});

/** Where ranges of days overlap, and which days of the window they leave out. */
export function coverage(ranges: readonly Dates[], window: Dates): Coverage {
  const overlaps: Coverage['overlaps'][number][] = [];
  for (const [second, range] of ranges.entries()) {
    for (const [first, other] of ranges.slice(0, second).entries()) {
      const from = startOf(range) > startOf(other) ? startOf(range) : startOf(other);
      const until = endOf(range) < endOf(other) ? endOf(range) : endOf(other);
      if (from <= until) overlaps.push({ first, second, span: spanOf(from, until) });
    }
  }
  return { overlaps, gaps: gapsOf(ranges, window) };
}

/** Days between the first and the last of the ranges on which none is in force. */
export function innerGaps(ranges: readonly Dates[]): readonly Span[] {
  if (ranges.length < 2) return [];
  const from = ranges.map(startOf).sort()[0] ?? EVER;
  const until = ranges.map(endOf).sort().at(-1) ?? NEVER_ENDS;
  const window = { ...(from === EVER ? {} : { from }), ...(until === NEVER_ENDS ? {} : { until }) };
  return gapsOf(ranges, window);
}

function gapsOf(ranges: readonly Dates[], window: Dates): readonly Span[] {
  const gaps: Span[] = [];
  const ordered = [...ranges].sort((a, b) => (startOf(a) < startOf(b) ? -1 : 1));
  let next = startOf(window);
  for (const range of ordered) {
    if (endOf(range) < next) continue;
    if (startOf(range) > endOf(window)) break;
    if (startOf(range) > next) gaps.push(spanOf(next, daysLater(startOf(range), -1)));
    if (range.until === undefined) return gaps;
    next = daysLater(range.until, 1);
  }
  if (next <= endOf(window)) gaps.push(spanOf(next, endOf(window)));
  return gaps;
}
