import type { Length } from '#shared/units/length.ts';
import type { Mass } from '#shared/units/mass.ts';
import type { Dates } from './dates.ts';
import type { Measures } from './measures.ts';
import type { SideRounding } from './rounding.ts';
import { roundSide } from './rounding.ts';
import type { Volume } from './volume.ts';
import { cubesWithin } from './volume.ts';

/** A bound on what a service takes. `rounded` measures sides as the price rule rounds them. */
export type Limit = Dates &
  (
    | { readonly limit: 'largest-mass'; readonly most: Mass }
    | {
        readonly limit: 'longest-side' | 'second-side' | 'shortest-side' | 'length-and-girth' | 'sum-of-sides';
        readonly most: Length;
        readonly measured: 'raw' | 'rounded';
      }
    | { readonly limit: 'smallest-size'; readonly least: readonly Length[] }
    | { readonly limit: 'largest-volume'; readonly most: Volume }
  );

export type SizeLimit = Exclude<Limit, { readonly limit: 'largest-mass' }>;
export type SideLimit = Extract<Limit, { readonly measured: 'raw' | 'rounded' }>;

/** What the limit measures on a parcel, in base lengths. A roll's girth is taken as that of the box around it. */
export function measuredSide(limit: SideLimit, measures: Measures, rounding: SideRounding | null): number {
  const rounded = limit.measured === 'rounded' && rounding !== null;
  const a = rounded ? roundSide(measures.longest, rounding) : measures.longest;
  const b = rounded ? roundSide(measures.middle, rounding) : measures.middle;
  const c = rounded ? roundSide(measures.shortest, rounding) : measures.shortest;
  switch (limit.limit) {
    case 'longest-side':
      return a;
    case 'second-side':
      return b;
    case 'shortest-side':
      return c;
    case 'length-and-girth':
      return a + 2 * (b + c);
    case 'sum-of-sides':
      return a + b + c;
  }
}

/** The first of the parcel's sides, longest first, that is below the smallest size; -1 when none is. */
export function sideTooSmall(least: readonly Length[], measures: Measures): number {
  if (measures.longest < (least[0] ?? 0)) return 0;
  if (measures.middle < (least[1] ?? 0)) return 1;
  // A flat pack whose thickness nobody measured cannot be told to be too thin.
  if (measures.shortest !== 0 && measures.shortest < (least[2] ?? 0)) return 2;
  return -1;
}

/** Whether the parcel keeps the limit. Allocates nothing: pricing calls it for every offer. */
export function keepsLimit(limit: SizeLimit, measures: Measures, rounding: SideRounding | null): boolean {
  switch (limit.limit) {
    case 'smallest-size':
      return sideTooSmall(limit.least, measures) === -1;
    case 'largest-volume':
      return (
        BigInt(measures.longest) * BigInt(measures.middle) * BigInt(measures.shortest) <= cubesWithin(limit.most, 1)
      );
    default:
      return measuredSide(limit, measures, rounding) <= limit.most;
  }
}
