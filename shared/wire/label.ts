import type { Localised } from '#shared/words/language.ts';

/** The version of what is sent and answered; a change that a receiver must know of makes a new one. */
export const LABEL_VERSION = 1;

/** Headers of a request, beside its JSON body. */
export const LABEL_HEADERS = {
  /** seconds since 1970 when it was signed */
  timestamp: 'Benchfold-Timestamp',
  /** "v1=" and the HMAC-SHA256 of timestamp, "." and body, in hexadecimal digits */
  signature: 'Benchfold-Signature',
  /** the same for every delivery of the same request */
  key: 'Benchfold-Key',
  /** how often it was sent, this one included */
  attempt: 'Benchfold-Attempt',
} as const;

/** What a label comes as: bytes for a printer, or a picture or document. */
export const LABEL_TYPES = ['escpos', 'zpl', 'png', 'pdf'] as const;
export type LabelType = (typeof LABEL_TYPES)[number];

/** Why a delivery of a request came to no label. */
export type WhyNot =
  'timeout' | 'no-connection' | 'status' | 'redirect' | 'too-large' | 'not-json' | 'not-understood' | 'number-used';

/** A number in decimal digits with its unit beside it: exact, as a scale says it. */
export interface Amount {
  readonly amount: string;
  readonly unit: string;
}

/** An amount of money in the smallest unit of its currency (ISO 4217). */
export interface Price {
  readonly minor: number;
  readonly currency: string;
}

/** One piece as the customs are told of it; null where nobody has said it. */
export interface CustomsLine {
  readonly sku: string;
  /** what it is */
  readonly contents: string;
  readonly count: number;
  /** of all of them */
  readonly value: Price | null;
  readonly mass: Amount | null;
  /** where it was made: ISO 3166-1, two letters */
  readonly origin: string | null;
  /** tariff number of the Harmonized System */
  readonly hsCode: string | null;
}

export const CUSTOMS_FACTS = ['value', 'mass', 'origin'] as const;
export type CustomsFact = (typeof CUSTOMS_FACTS)[number];

/** What the customs must be told of a piece and nobody has said. */
export interface CustomsGap {
  readonly sku: string;
  readonly title: string;
  readonly missing: readonly CustomsFact[];
}

/** Sent by POST as JSON when a parcel's weight and service are settled and its label is due. */
export interface LabelRequest {
  readonly version: typeof LABEL_VERSION;
  /** names the parcel and nothing else: order, run and number; a request that replaces another ends in "/2", "/3" */
  readonly key: string;
  /** the request that this one takes the place of, because the parcel was weighed or rated anew: void its label */
  readonly replaces: string | null;
  readonly order: string;
  readonly parcel: { readonly number: number; readonly of: number };
  readonly bench: string;
  readonly from: { readonly address: readonly string[]; readonly postcode: string; readonly country: string };
  readonly to: {
    readonly name: string;
    readonly address: readonly string[];
    readonly postcode: string;
    readonly country: string;
  };
  readonly carrier: string;
  readonly service: string;
  readonly container: string;
  /** outside of the filled container, longest side first; null where it is not known */
  readonly size: { readonly sides: readonly string[]; readonly unit: string } | null;
  /** finished, with what comes on after the weighing */
  readonly mass: Amount;
  /** what the station expects it to cost */
  readonly postage: Price;
  /** null where the parcel stays in its country */
  readonly customs: readonly CustomsLine[] | null;
  /** what this bench can print, what it likes best first; what is not among them is shown on its screen */
  readonly accepts: readonly LabelType[];
}

/** What may be answered with a status of 200 to 299; every field may be left out, and so may the body. */
export interface LabelAnswer {
  readonly version?: typeof LABEL_VERSION;
  readonly trackingNumber?: string;
  readonly label?: { readonly type: LabelType; /** base64 */ readonly data: string };
}

/**
 * `held`: facts for the customs are missing; `waiting`: to be sent, or sent and not answered; `dead`: given up;
 * `withdrawn`: not needed any more; `unused`: bought, and not on any parcel
 */
export const LABEL_STATES = ['held', 'waiting', 'answered', 'dead', 'withdrawn', 'unused'] as const;
export type LabelState = (typeof LABEL_STATES)[number];

/** What became of a label on its way to paper. */
export type LabelPaper = 'none' | 'queued' | 'printed' | 'failed' | 'unknown';

/** What a bench shows of the label of the parcel at hand. */
export interface BenchLabel {
  readonly key: string;
  /** `late`: no answer yet, and it was waited for long enough */
  readonly state: 'coming' | 'late' | 'held' | 'given-up' | 'here' | 'passed-on';
  readonly number: string | null;
  readonly paper: LabelPaper;
  /** why it did not print */
  readonly paperWhy: string;
  /** something that is shown or printed from the screen */
  readonly document: LabelType | null;
  readonly missing: readonly CustomsGap[];
}

/** A request as the office lists it. */
export interface LabelRow {
  readonly key: string;
  readonly order: string;
  readonly number: number;
  readonly of: number;
  readonly bench: string;
  readonly carrier: string;
  readonly service: Localised;
  readonly state: LabelState;
  readonly attempts: number;
  readonly madeAt: number;
  readonly triedAt: number | null;
  readonly nextAt: number | null;
  readonly endedAt: number | null;
  /** a code, such as timeout or status */
  readonly why: string;
  /** the beginning of what was answered last, or what went wrong */
  readonly answer: string;
  readonly tracking: string | null;
  readonly label: LabelType | null;
  readonly paper: LabelPaper;
}

/** An open order that goes abroad with facts missing. */
export interface CustomsRow {
  readonly order: string;
  readonly country: string;
  readonly gaps: readonly CustomsGap[];
}

export interface LabelsView {
  readonly now: number;
  readonly timeZone: string;
  /** where requests go; `none`: nowhere, labels are made from the file */
  readonly to: 'none' | 'simulated' | 'receiver';
  readonly url: string | null;
  /** nothing can be sent: the secret cannot be read */
  readonly trouble: string | null;
  readonly counts: Readonly<Record<LabelState, number>>;
  /** what needs somebody first, then the newest */
  readonly rows: readonly LabelRow[];
  readonly customs: readonly CustomsRow[];
}

/** A file of numbers read back: all of it is stored, or nothing where a line is refused. */
export interface NumbersTaken {
  readonly stored: boolean;
  readonly numbers: number;
  readonly refused: readonly {
    readonly line: number;
    readonly column: string | null;
    readonly expected: string;
    readonly found: string;
  }[];
}
