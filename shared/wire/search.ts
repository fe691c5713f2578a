import type { Role } from '#shared/access/roles.ts';
import type { ChangePlace } from '#shared/audit/changes.ts';
import type { LeftOut, OrderState } from '#shared/planning/types.ts';
import type { Mass, MassUnit } from '#shared/units/mass.ts';
import type { Localised } from '#shared/words/language.ts';
import type { OrderRow } from './office.ts';

export const STORED_KINDS = ['order', 'parcel', 'piece', 'buyer'] as const;
/** What the store is searched for: an order, the number on a parcel's label, a piece, or who buys. */
export type StoredKind = (typeof STORED_KINDS)[number];
/** What a text was found in; `staff`: who works here, where whoever asks may see them. */
export type SearchKind = StoredKind | 'staff';

/** Somebody's orders are counted so far. */
export const MOST_COUNTED = 99;

/** One thing that was found, and the order that it leads to. */
export interface SearchHit {
  readonly kind: SearchKind;
  /** the code that was found; empty for a buyer, a staff id for who works here (never the code of a badge, which opens a bench) */
  readonly code: string;
  /** who, where to, or what it is */
  readonly words: string;
  /** null for a piece that nobody has bought, and for who works here */
  readonly order: string | null;
  readonly state: OrderState | null;
  /** how many orders a buyer has, {@link MOST_COUNTED} and one for all beyond; 1 for the rest */
  readonly orders: number;
  /** of who works here */
  readonly role?: Role;
  /** of an order, how many photos are kept */
  readonly photos?: number;
}

export interface SearchAnswer {
  /** what was asked, as it was understood */
  readonly text: string;
  /** by kind, the newest first */
  readonly groups: readonly {
    readonly kind: SearchKind;
    readonly hits: readonly SearchHit[];
    /** there are others that were not listed */
    readonly more: boolean;
  }[];
}

/** Where a finished parcel is. */
export type ParcelPlace =
  | { readonly at: 'waits' }
  | { readonly at: 'sack'; readonly collection: string }
  | { readonly at: 'left'; readonly when: number; readonly sheet: number | null }
  | { readonly at: 'stays'; readonly reason: string };

export interface OrderParcel {
  readonly id: number;
  readonly number: number;
  readonly of: number;
  readonly label: string | null;
  readonly pieces: readonly string[];
  readonly container: Localised;
  readonly carrier: Localised;
  readonly service: Localised;
  readonly reading: Mass;
  readonly verdict: string;
  readonly packer: string | null;
  readonly bench: string;
  readonly finishedAt: number;
  readonly place: ParcelPlace;
}

/** An order with everything that answers "where is it?". */
export interface OrderDetail extends OrderRow {
  readonly timeZone: string;
  readonly address: readonly string[];
  readonly postcode: string;
  readonly country: string;
  readonly arriveBy: string | null;
  readonly note: string | null;
  /** when it came in; null where that was not kept */
  readonly cameAt: number | null;
  /** of the set-aside shelf */
  readonly asidePlace: number | null;
  /** who stands at the bench that has it, or stood there last */
  readonly packer: string | null;
  readonly begunAt: number | null;
  readonly lines: readonly {
    readonly sku: string;
    readonly count: number;
    /** null where the piece was never entered */
    readonly title: string | null;
    readonly place: string | null;
  }[];
  readonly parcels: readonly OrderParcel[];
  /** who last gave it back to the queue, and when; null where nobody has */
  readonly released: { readonly at: number; readonly by: string | null; readonly from: ChangePlace } | null;
  /** what it goes without, with the name of who said so */
  readonly leftOut: readonly LeftOut[];
  /** the order whose rest this is */
  readonly restOf: string | null;
  /** in which unit and with how many decimals masses are shown */
  readonly unit: MassUnit;
  readonly places: number;
}

/**
 * HTTP contract:
 * GET /api/search?text= -> SearchAnswer; any text is answered, junk with nothing
 * GET /api/orders/:id -> OrderDetail
 */
