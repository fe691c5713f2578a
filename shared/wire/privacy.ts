import type { OrderState } from '#shared/planning/types.ts';
import type { Localised } from '#shared/words/language.ts';

/** What is kept of people, where, what for, and how long. */
export interface PrivacyView {
  readonly kept: readonly {
    readonly table: string;
    readonly columns: readonly string[];
    readonly whose: 'buyer' | 'staff';
    readonly what: Localised;
    readonly until: Localised;
  }[];
  /** days after which buyers' data are removed by themselves; null where they are not */
  readonly buyersDays: number | null;
  readonly photoDays: number;
}

/** The orders of one buyer, by the name exactly as it came. */
export interface BuyerView {
  readonly buyer: string;
  readonly orders: readonly { readonly id: string; readonly state: OrderState }[];
}

/**
 * Whether bytes of what was taken out may still be in the store's file, until it is written anew: `later`, once no bench has
 * an order in hand; `refused`: it could not be, as on a full disk, and is tried again.
 */
export type BytesLeft = 'none' | 'later' | 'refused';

export interface BuyerPurged {
  readonly orders: readonly string[];
  readonly bytesLeft: BytesLeft;
}

/**
 * HTTP contract:
 * GET /api/privacy -> PrivacyView
 * GET /api/privacy/buyer?name= -> BuyerView; 404 unknown-buyer
 * GET /api/privacy/buyer.zip?name= -> everything of that buyer
 * POST /api/privacy/purge { buyer } -> BuyerPurged; 404 unknown-buyer, 409 still-open, still-printing or label-under-way
 */
