import type { ContainerType } from '#shared/fitting/types.ts';
import type { Money } from '#shared/units/money.ts';
import type { Localised } from '#shared/words/language.ts';

/** How a supply is counted: in whole pieces, or by its length in base units of {@link Length}. */
export type SupplyUnit = 'piece' | 'length';

/** What a parcel takes of a supply. Every limit that is given must hold. */
export interface SupplyUse {
  /** once a parcel, or once for each piece in it */
  readonly each: 'parcel' | 'piece';
  /** in the supply's unit */
  readonly amount: number;
  readonly types?: readonly ContainerType[];
  readonly containers?: readonly string[];
  readonly wraps?: readonly string[];
}

/** Something that the shop must not run out of. All amounts are whole numbers of its unit. */
export interface Supply {
  readonly id: string;
  readonly name: Localised;
  readonly unit: SupplyUnit;
  /** the container that it is; each parcel in one takes one, without a use that says so */
  readonly container?: string;
  /** how much comes in a pack */
  readonly pack: number;
  readonly packCost?: Money;
  /** from ordering to having it, in days, and its standard deviation */
  readonly leadTime: { readonly mean: number; readonly sd: number };
  /** the owner's guess of what a day takes, until the parcels have told */
  readonly perDay: number;
  readonly uses: readonly SupplyUse[];
}

/** How carefully the shop keeps its shelf. */
export interface StockRules {
  /** the chance of not running out while an order is on its way, above 0 and below 1 */
  readonly serviceLevel: number;
  /** over how many days demand is measured */
  readonly demandDays: number;
  /** for how many days an order should last */
  readonly coverDays: number;
}

/** A daily demand in the supply's unit: mean and standard deviation, floats. */
export interface Demand {
  readonly mean: number;
  readonly sd: number;
}

export const STOCK_STATES = ['not-counted', 'out', 'low', 'enough'] as const;
export type StockState = (typeof STOCK_STATES)[number];
