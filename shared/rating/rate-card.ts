import type { ContainerType } from '#shared/fitting/types.ts';
import type { Length, LengthUnit } from '#shared/units/length.ts';
import type { Mass, MassUnit } from '#shared/units/mass.ts';
import type { Localised } from '#shared/words/language.ts';
import type { Adjustment } from './adjustment.ts';
import type { Dates } from './dates.ts';
import type { Limit } from './limit.ts';
import type { PostcodeRange } from './postcodes.ts';
import type { SideRounding } from './rounding.ts';
import type { Day, Destination } from './types.ts';
import type { Volume } from './volume.ts';

/** Every rate card of the shop, and where postcodes lie. */
export interface RateBook {
  readonly cards: readonly RateCard[];
  /** the middle of a postcode's area, or null where it is not known */
  readonly places: (destination: Destination) => Place | null;
}

/** Degrees, north and east positive. */
export interface Place {
  readonly latitude: number;
  readonly longitude: number;
}

/** A carrier's price list with its dates. */
export interface RateCard extends Dates {
  readonly from: Day;
  readonly carrier: string;
  readonly name: Localised;
  readonly currency: string;
  /** in which explanations speak */
  readonly units: { readonly mass: MassUnit; readonly length: LengthUnit };
  /** tried in order; the first that knows the route decides */
  readonly zones: readonly ZoneRule[];
  readonly services: readonly Service[];
}

/** One product on a card. */
export interface Service extends Dates {
  readonly id: string;
  readonly name: Localised;
  /** delivery in days, least and most; by zone where it differs */
  readonly days?: readonly [least: number, most: number];
  readonly daysByZone?: Readonly<Record<string, readonly [least: number, most: number]>>;
  /** types of container that it takes; absent: all */
  readonly containerTypes?: readonly ContainerType[];
  /** the only containers that it takes, such as those that the carrier owns; absent: any */
  readonly containers?: readonly string[];
  /** destinations that it does not serve */
  readonly refuses: readonly DestinationSet[];
  readonly limits: readonly Limit[];
  /** exactly one is in force on a day */
  readonly prices: readonly PriceRule[];
  /** taken off first, in this order */
  readonly discounts: readonly Adjustment[];
  /** put on after the discounts, in this order */
  readonly surcharges: readonly Adjustment[];
}

export interface DestinationSet {
  /** ISO 3166 code, or absent for any country */
  readonly country?: string;
  /** absent: the whole country */
  readonly postcodes?: readonly PostcodeRange[];
}

/**
 * Minor units per zone, in the order of the rule's zones; one entry where the rule has no zones. NOT_SERVED in the brackets
 * above the heaviest that a zone takes.
 */
export type Prices = readonly number[];

/** Stands where a zone has no price: only in the last brackets of a zone. */
export const NOT_SERVED = -1;

interface Priced extends Dates {
  /** null: one price for every zone */
  readonly zones: readonly string[] | null;
}

export interface WeightBracketRule extends Priced {
  readonly rule: 'weight-bracket';
  readonly brackets: readonly { readonly upTo: Mass; readonly prices: Prices }[];
  /** at most one is in force on a day */
  readonly dimensional: readonly DimensionalRule[];
  /** the price may fall as the mass grows: the owner has looked at it */
  readonly fallingPrices: boolean;
}

export interface FlatFeeRule extends Priced {
  readonly rule: 'flat-fee';
  readonly fees: readonly { readonly container: string; readonly prices: Prices }[];
}

export interface CubicBoxRule extends Priced {
  readonly rule: 'cubic-box';
  readonly sides: SideRounding;
  readonly tiers: readonly { readonly tier: string; readonly upTo: Volume; readonly prices: Prices }[];
}

/** Tiers by length + width of the flat pack. */
export interface CubicSoftRule extends Priced {
  readonly rule: 'cubic-soft';
  readonly sides: SideRounding;
  readonly tiers: readonly { readonly tier: string; readonly upTo: Length; readonly prices: Prices }[];
}

export type PriceRule = WeightBracketRule | FlatFeeRule | CubicBoxRule | CubicSoftRule;

/** Billed mass is at least volume / divisor. */
export interface DimensionalRule extends Dates {
  /** cubes of `length` in one `mass`, such as 139 (cubic inches in a pound) */
  readonly divisor: number;
  readonly length: LengthUnit;
  readonly mass: MassUnit;
  readonly sides: SideRounding;
  /** only parcels of more than this */
  readonly above?: { readonly volume: Volume; readonly measured: 'raw' | 'rounded' };
  /** the result goes up to the next whole one of these */
  readonly roundUpTo: Mass;
  /** thousandths by which the volume of a soft pack or a roll counts, such as 785 */
  readonly nonRectangular?: number;
}

export type ZoneRule = Dates &
  (
    | { readonly by: 'flat'; readonly zone: string; readonly countries?: readonly string[] }
    | {
        readonly by: 'distance';
        readonly unit: 'mi' | 'km';
        readonly country: string;
        /** nearest first; the last has no `upTo` */
        readonly bands: readonly { readonly upTo?: number; readonly zone: string }[];
      }
    | {
        readonly by: 'chart';
        readonly country: string;
        readonly rows: readonly { readonly from: PostcodeRange; readonly to: PostcodeRange; readonly zone: string }[];
      }
  );
