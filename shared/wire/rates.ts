import type { ContainerType } from '#shared/fitting/types.ts';
import type { WrittenBand } from '#shared/rating/import/bands.ts';
import type { ChartProblem } from '#shared/rating/import/zone-chart.ts';
import type { DecimalMark } from '#shared/rating/import/price-cell.ts';
import type { GridProblem, UnderstoodCell } from '#shared/rating/import/price-grid.ts';
import type { NextEdge } from '#shared/rating/next-edges.ts';
import type { Day, RuleKind } from '#shared/rating/types.ts';
import type { LengthUnit } from '#shared/units/length.ts';
import type { MassUnit } from '#shared/units/mass.ts';
import type { Money } from '#shared/units/money.ts';
import type { Language, Localised } from '#shared/words/language.ts';

/**
 * HTTP contract of the prices:
 * GET  /api/rates/cards?day=2026-11-25 -> RatesOverview
 * GET  /api/rates/table?service=ID&day=2026-11-25 -> PriceTable
 * GET  /api/rates/difference?service=ID&before=2026-11-25&after=2027-01-17 -> PriceDifference
 * POST /api/rates/what-if       WhatIfRequest -> WhatIf
 * POST /api/rates/imports/preview  RateImport -> RatePreview
 * POST /api/rates/imports/apply    RateImport -> RateApplied
 * POST /api/rates/reload -> { services }: the config folder is read again
 * Failures answer 4xx/5xx with OfficeError; of 422 `error` is `bad-FIELD` where a field of the request is wrong.
 */

/** How a card or a service stands to a day. */
export type Standing = 'in-force' | 'to-come' | 'ended';

export interface ServiceRow {
  readonly id: string;
  readonly name: Localised;
  readonly standing: Standing;
  /** null where no price is in force on the day */
  readonly rule: RuleKind | null;
  readonly until: Day | null;
}

export interface CardRow {
  /** relative to the config folder */
  readonly file: string;
  readonly carrier: string;
  readonly name: Localised;
  readonly currency: string;
  readonly from: Day;
  readonly until: Day | null;
  readonly standing: Standing;
  readonly services: readonly ServiceRow[];
}

/** Every rate card and how it stands on a day, with what the forms of the page offer. */
export interface RatesOverview {
  readonly day: Day;
  readonly today: Day;
  readonly currency: string;
  readonly units: { readonly mass: MassUnit; readonly length: LengthUnit };
  readonly from: { readonly postcode: string; readonly country: string };
  readonly cards: readonly CardRow[];
  readonly containers: readonly { readonly id: string; readonly name: Localised; readonly type: ContainerType }[];
}

/** The prices of a service on a day: rows are brackets, tiers or containers; minor units, null where there is none. */
export interface PriceTable {
  readonly service: string;
  readonly name: Localised;
  readonly carrier: string;
  readonly day: Day;
  readonly rule: RuleKind;
  readonly currency: string;
  /** null: one price for every zone */
  readonly zones: readonly string[] | null;
  readonly rows: readonly { readonly label: string; readonly prices: readonly (number | null)[] }[];
  readonly volumeCounts: boolean;
  readonly surcharges: readonly Localised[];
  readonly discounts: readonly Localised[];
}

/** A parcel as somebody types it; quantities are texts with their units ("15.9 oz", "10 x 8 x 2 in"). */
export interface WhatIfRequest {
  readonly day: Day;
  readonly mass: string;
  /** exactly one of the four */
  readonly container?: string;
  readonly size?: string;
  readonly soft?: string;
  /** length and diameter */
  readonly roll?: string;
  /** of a filled container, where it is known */
  readonly thickness?: string;
  /** either of the two */
  readonly zone?: string;
  readonly to?: { readonly postcode: string; readonly country: string; readonly residential?: boolean };
  readonly language: Language;
}

export interface OfferRow {
  readonly service: string;
  readonly name: string;
  readonly carrier: string;
  readonly price: Money;
  readonly rule: RuleKind;
  readonly zone: string;
  readonly billed: string;
  readonly ceiling: string | null;
  readonly days: readonly [least: number, most: number] | null;
  readonly reasons: readonly string[];
  readonly edges: readonly {
    readonly leads: NextEdge['leads'];
    readonly along: NextEdge['along'];
    readonly words: string;
  }[];
}

export interface RefusalRow {
  readonly service: string;
  readonly name: string;
  readonly carrier: string;
  readonly code: string;
  readonly why: string;
}

/** A service's price over mass: up to and including `upTo` it is `minor`. */
export interface PriceCurve {
  readonly service: string;
  readonly name: string;
  /** the smallest mass that it takes */
  readonly least: { readonly mass: number; readonly label: string } | null;
  readonly steps: readonly { readonly upTo: number; readonly label: string; readonly minor: number }[];
}

export interface WhatIf {
  readonly day: Day;
  readonly currency: string;
  readonly massUnit: MassUnit;
  /** the parcel's mass in that unit */
  readonly mass: number;
  readonly offers: readonly OfferRow[];
  readonly refused: readonly RefusalRow[];
  readonly curves: readonly PriceCurve[];
}

/** How the new card finds the zone of a postcode. */
export type ZoneChoice =
  | { readonly by: 'as-before' }
  | { readonly by: 'given-only' }
  | { readonly by: 'flat'; readonly zone: string }
  | {
      readonly by: 'distance';
      readonly unit: 'mi' | 'km';
      readonly country: string;
      /** nearest first; the last without a limit takes the rest */
      readonly bands: readonly WrittenBand[];
    }
  | { readonly by: 'chart'; readonly text: string; readonly country: string; readonly origin: string | null };

/** A price list with what it does not say about itself. */
export interface RateImport {
  /** pasted from a spreadsheet */
  readonly text?: string;
  /** or a file's bytes */
  readonly file?: { readonly name: string; readonly base64: string };
  readonly carrier: string;
  readonly cardName: string;
  readonly service: string;
  readonly serviceName: string;
  readonly from: Day;
  readonly massUnit: MassUnit | null;
  /** null: as the table itself shows */
  readonly decimal: DecimalMark | null;
  readonly zones: ZoneChoice;
  /** limits, surcharges and the rest of the service come from the card that has it now */
  readonly carryOver: boolean;
  /** prices that fall and zones that end at a lower mass are meant */
  readonly acceptWarnings: boolean;
  /** a card of this service and day is there already and gives way; it is kept beside the new one */
  readonly replace: boolean;
}

export interface PreviewCell {
  readonly text: string;
  readonly as: UnderstoodCell['as'] | 'unused';
  /** places in `problems` */
  readonly problems: readonly number[];
}

/** What a change of prices does. */
export interface PriceDifference {
  readonly before: Day;
  readonly after: Day;
  /** another way of pricing: rows cannot be held side by side */
  readonly otherRule: boolean;
  readonly changes: readonly {
    readonly row: string;
    readonly zone: string | null;
    readonly before: number | null;
    readonly after: number | null;
  }[];
  readonly unchanged: number;
  /** the parcels finished in the last 30 days that went by this service, at both prices */
  readonly sent: {
    readonly parcels: number;
    readonly before: number;
    readonly after: number;
    /** each by the cheapest service */
    readonly cheapestBefore: number;
    readonly cheapestAfter: number;
    /** not taken by the service before or after */
    readonly left: number;
  };
}

export interface ConfigProblem {
  readonly file: string;
  readonly path: string;
  readonly line: number | null;
  readonly expected: string;
  readonly found: string;
}

/** What a price list was understood as and what using it would do. Nothing is stored. */
export interface RatePreview {
  readonly cells: readonly (readonly PreviewCell[])[];
  readonly zones: readonly string[];
  readonly rows: number;
  readonly problems: readonly GridProblem[];
  readonly chartProblems: readonly ChartProblem[];
  /** what is wrong with the form itself */
  readonly formProblems: readonly {
    readonly field: keyof RateImport;
    readonly code: FormProblemCode;
    readonly found: string;
  }[];
  readonly yaml: string | null;
  /** name that the card would get */
  readonly file: string | null;
  /** such a card is there already */
  readonly exists: boolean;
  /** the service ends on these cards the day before */
  readonly ends: readonly { readonly file: string; readonly service: string; readonly until: Day }[];
  /** what keeps the shop from loading with the new card */
  readonly configProblems: readonly ConfigProblem[];
  readonly configWarnings: readonly ConfigProblem[];
  readonly difference: PriceDifference | null;
  /** it can be applied as it is */
  readonly ready: boolean;
}

export const FORM_PROBLEM_CODES = ['bad-id', 'bad-day', 'bad-zones', 'no-card-before', 'exists'] as const;
export type FormProblemCode = (typeof FORM_PROBLEM_CODES)[number];

export interface RateApplied {
  readonly file: string;
  /** cards as they were before, kept beside */
  readonly kept: readonly string[];
  readonly services: number;
}
