import type { ContainerType } from '#shared/fitting/types.ts';
import type { Length } from '#shared/units/length.ts';
import type { Mass } from '#shared/units/mass.ts';
import type { Money } from '#shared/units/money.ts';
import type { Localised } from '#shared/words/language.ts';

/** A day of the calendar, "2026-11-25", in the shop's time zone. */
export type Day = string;

/** What a carrier tells apart by shape. */
export const FORMS = ['box', 'soft', 'roll'] as const;
export type Form = (typeof FORMS)[number];

/** A parcel as a carrier sees it. `soft` carries length and width of the flat pack, `box` three sides, `roll` a tube. */
export interface RatedParcel {
  readonly shape:
    | { readonly form: 'box'; readonly sides: readonly [Length, Length, Length] }
    | { readonly form: 'soft'; readonly length: Length; readonly width: Length; readonly thickness: Length }
    | { readonly form: 'roll'; readonly length: Length; readonly diameter: Length };
  readonly containerType?: ContainerType;
  /** the shop's container id, for services valid only in a certain container */
  readonly container?: string;
  /** carrier id that owns the container, if one does */
  readonly containerOwner?: string;
}

export interface Destination {
  readonly postcode: string;
  readonly country: string;
  /** a dwelling; absent where nobody said */
  readonly residential?: boolean;
}

/** Where a parcel goes from and to; or a zone known already. */
export type Route = { readonly zone: string } | { readonly from: Destination; readonly to: Destination };

export type RuleKind = 'weight-bracket' | 'flat-fee' | 'cubic-box' | 'cubic-soft' | 'dimensional';

/** One line of an explanation: a code with its values, put into words by the screen or the CLI. */
export interface Reason {
  readonly code: string;
  readonly values: Readonly<Record<string, string>>;
}

/**
 * A service's price as a step function of mass for one parcel shape, route and day: a mass up to and including `ceiling`
 * (and above the one before) costs `price`. Above the last ceiling, and below `least` where it has one, the service refuses.
 */
export interface PriceSteps {
  readonly service: string;
  readonly carrier: string;
  readonly rule: RuleKind;
  readonly zone: string;
  readonly cardFrom: Day;
  readonly steps: readonly { readonly ceiling: Mass; readonly price: Money }[];
  /** the smallest mass that it takes, where the card has one */
  readonly least?: Mass;
  readonly days?: readonly [least: number, most: number];
}

export interface Offer {
  readonly service: string;
  readonly carrier: string;
  readonly price: Money;
  readonly rule: RuleKind;
  readonly zone: string;
  readonly billedMass: Mass;
  /** the highest mass that still pays this price; null where mass plays no part below the service's largest mass */
  readonly bracketCeiling: Mass | null;
  readonly nextPrice: Money | null;
  readonly cubicTier: string | null;
  /** what was put on (or, negative, taken off) the price of the rule; `name` is its id on the card */
  readonly surcharges: readonly { readonly name: string; readonly label: Localised; readonly price: Money }[];
  readonly reasons: readonly Reason[];
  readonly days?: readonly [least: number, most: number];
}

export interface Refusal {
  readonly service: string;
  readonly carrier: string;
  readonly why: Reason;
}

export interface Quote {
  /** cheapest first */
  readonly offers: readonly Offer[];
  readonly refused: readonly Refusal[];
}
