import type { Container, Fit, Wrap } from '#shared/fitting/types.ts';
import type { Fold } from '#shared/folding/types.ts';
import type { Piece } from '#shared/garments/types.ts';
import type { Day, Destination, Offer, PriceSteps } from '#shared/rating/types.ts';
import type { Mass } from '#shared/units/mass.ts';
import type { Money } from '#shared/units/money.ts';

export const ORDER_STATES = ['open', 'packing', 'set-aside', 'packed', 'cancelled', 'combined'] as const;
export type OrderState = (typeof ORDER_STATES)[number];

/** One buyer's pieces to one address. */
export interface Order {
  readonly id: string;
  readonly pieces: readonly { readonly sku: string; readonly count: number }[];
  readonly buyer: string;
  readonly address: readonly string[];
  readonly to: Destination;
  /** ISO instant by which it must leave */
  readonly shipBy: string;
  /** service the buyer paid for, when the order names one */
  readonly service?: string;
  /** day by which it was promised to be there */
  readonly arriveBy?: Day;
  readonly paidPostage?: Money;
  readonly note?: string;
  /** the orders that became this one, by id */
  readonly combines?: readonly string[];
  /** what it was sent without; the same file imported again does not bring it back */
  readonly leftOut?: readonly LeftOut[];
  /** the order whose pieces these are that were not there */
  readonly restOf?: string;
}

/** A piece that an order goes without. */
export interface LeftOut {
  readonly sku: string;
  /** the order in which it follows; null where it does not come */
  readonly follows: string | null;
  /** staff id of who said so */
  readonly by: string | null;
  /** epoch ms */
  readonly at: number;
}

/** What a parcel is expected to cost, in minor units as floats except where a price is exact. */
export interface PlanCost {
  readonly currency: string;
  /** expected over the mass distribution */
  readonly postage: number;
  readonly materials: number;
  readonly labour: number;
  /** chance of not fitting x the cost of repacking */
  readonly risk: number;
  readonly total: number;
}

export interface PlannedPiece {
  readonly piece: Piece;
  readonly fold: Fold;
  /** expected grams and their spread */
  readonly mass: { readonly mean: number; readonly sd: number };
}

export interface ParcelPlan {
  readonly pieces: readonly PlannedPiece[];
  readonly container: Container;
  readonly wrap: Wrap;
  readonly fit: Fit;
  /** finished parcel, in grams */
  readonly mass: { readonly mean: number; readonly sd: number };
  /** put on after the weighing: label, tape, slip */
  readonly toCome: { readonly mass: Mass; readonly plusMinus: Mass };
  /** the offer at the expected mass */
  readonly offer: Offer;
  /** its price at every mass, for the weigh line and the verdict */
  readonly prices: PriceSteps;
  /** every other service that takes this parcel: what is dearer may be dearer elsewhere for less */
  readonly otherServices: readonly PriceSteps[];
  readonly cost: PlanCost;
}

/** Why a container, or a service in it, was not chosen; a code with its values, put into words by `explain.ts`. */
export interface PlanRejection {
  readonly container: string;
  readonly service?: string;
  /** a {@link RejectionCode}, or the code of a rating refusal */
  readonly code: string;
  readonly values: Readonly<Record<string, string>>;
}

export const REJECTION_CODES = [
  'left-out',
  'too-tight',
  'must-not-press',
  'no-service',
  'too-heavy',
  'too-light',
  'slower-than-paid',
  'later-than-promised',
  'out-of-stock',
  'wants-double-bag',
  'dearer',
  'no-cheaper',
] as const;
/** What planning itself can hold against a container or a service. */
export type RejectionCode = (typeof REJECTION_CODES)[number];

/** Alternatives and reasons are worked out when they are read. */
export interface OrderPlan {
  readonly order: string;
  /** one or more parcels, together the cheapest */
  readonly parcels: readonly ParcelPlan[];
  readonly cost: PlanCost;
  /** other single-parcel or split plans, cheapest first */
  readonly alternatives: readonly { readonly parcels: readonly ParcelPlan[]; readonly cost: PlanCost }[];
  readonly whyNot: readonly PlanRejection[];
  /** what the buyer was promised, and whether this plan keeps it; absent where nothing was */
  readonly promise?: { readonly service?: string; readonly arriveBy?: Day; readonly kept: boolean };
  /** false where the search was cut short, with a lower bound on the cost */
  readonly proven: boolean;
  /** no plan can be expected to cost less, in minor units; given where the plan is not proven */
  readonly lowerBound?: number;
}
