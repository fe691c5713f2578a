import type { Length } from '#shared/units/length.ts';
import type { Mass } from '#shared/units/mass.ts';
import type { Dates } from './dates.ts';
import type { Measures } from './measures.ts';
import type { SideRounding } from './rounding.ts';
import { roundSide } from './rounding.ts';
import type { Volume } from './volume.ts';
import { cubesWithin } from './volume.ts';
import type { Form } from './types.ts';

/** A bound on what a service takes. `rounded` measures sides as the price rule rounds them. */
export type Limit = Dates &
  (
    | { readonly limit: 'largest-mass'; readonly most: Mass }
    | { readonly limit: 'smallest-mass'; readonly least: Mass }
    | (OfForms & {
        readonly limit:
          | 'longest-side'
          | 'second-side'
          | 'shortest-side'
          | 'length-and-girth'
          | 'sum-of-sides'
          // of rolls alone
          | 'length-and-two-diameters';
        readonly most: Length;
        readonly measured: 'raw' | 'rounded';
      })
    | (OfForms & { readonly limit: 'smallest-size'; readonly least: readonly Length[] })
    | (OfForms & { readonly limit: 'largest-volume'; readonly most: Volume })
  );

interface OfForms {
  /** shapes that it bounds; absent: all */
  readonly forms?: readonly Form[];
}

export type SizeLimit = Exclude<Limit, { readonly limit: 'largest-mass' | 'smallest-mass' }>;
export type SideLimit = Extract<Limit, { readonly measured: 'raw' | 'rounded' }>;

/** What the limit measures on a parcel, in base lengths. A roll's girth is taken as that of the box around it. */
export function measuredSide(limit: SideLimit, measures: Measures, rounding: SideRounding | null): number {
  const rounded = limit.measured === 'rounded' && rounding !== null;
  const a = rounded ? roundSide(measures.longest, rounding) : measures.longest;
  const b = rounded ? roundSide(measures.middle, rounding) : measures.middle;
  const c = rounded ? roundSide(measures.shortest, rounding) : measures.shortest;
  switch (limit.limit) {
    case 'length-and-two-diameters':
      return (
        ofRoll(measures.flatLength, rounded ? rounding : null) +
        2 * ofRoll(measures.flatWidth, rounded ? rounding : null)
      );
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

const ofRoll = (side: Length, rounding: SideRounding | null): number =>
  rounding === null ? side : roundSide(side, rounding);

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
  if (limit.forms !== undefined && !limit.forms.includes(measures.form)) return true;
  switch (limit.limit) {
    case 'length-and-two-diameters':
      return measures.form !== 'roll' || measuredSide(limit, measures, rounding) <= limit.most;
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
