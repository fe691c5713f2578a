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
