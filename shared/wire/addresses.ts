import type { AddressDoubt } from '#shared/addresses/types.ts';
import type { OrderState } from '#shared/planning/types.ts';

/**
 * An order that is not packed yet and whose address should be asked about.
 * GET  /api/addresses -> DoubtfulAddress[]
 * POST /api/addresses/:order/right { key } -> DoubtfulAddress[]; 409 when the address is another by now
 */
export interface DoubtfulAddress {
  readonly order: string;
  readonly buyer: string;
  readonly state: OrderState;
  readonly lines: readonly string[];
  readonly postcode: string;
  readonly country: string;
  readonly doubts: readonly AddressDoubt[];
  /** tells this address of the order from any other */
  readonly key: string;
}

/** What a form of an address holds, in the order in which it is filled in. */
export const ADDRESS_FIELDS = ['name', 'lines', 'postcode', 'country'] as const;
export type AddressField = (typeof ADDRESS_FIELDS)[number];

/** POST /api/orders/:id/address GivenAddress -> AddressStored; 409 while the order does not wait */
export interface GivenAddress {
  readonly name: string;
  /** as they stand on the label, the town among them */
  readonly lines: readonly string[];
  readonly postcode: string;
  /** two letters (ISO 3166-1), or a name */
  readonly country: string;
}

/** What became of it: stored, or what was expected instead of what is there. */
export interface AddressStored {
  readonly order: string;
  readonly stored: boolean;
  readonly refused: readonly { readonly field: AddressField; readonly expected: string; readonly found: string }[];
  /** of what is stored */
  readonly doubts: readonly AddressDoubt[];
}
