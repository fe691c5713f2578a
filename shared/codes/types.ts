import type { Command } from '#shared/run/commands.ts';

/** What a scanned text means to this shop. A half-read or unknown code is never a SKU. */
export type ScanMeaning =
  | { readonly means: 'piece'; readonly text: string; readonly sku: string }
  | { readonly means: 'container'; readonly text: string; readonly container: string }
  | { readonly means: 'order'; readonly text: string; readonly order: string }
  /** the card of the sack that a carrier takes */
  | { readonly means: 'sack'; readonly text: string; readonly carrier: string }
  | { readonly means: 'command'; readonly text: string; readonly command: Command }
  | { readonly means: 'staff'; readonly text: string; readonly staff: string }
  | {
      readonly means: 'label';
      readonly text: string;
      /** the parcel's number, in the normal form in which it is compared */
      readonly number: string;
      /** ship-to postcode, when the label carries GS1 (420) or (421) */
      readonly postcode: string | null;
    }
  | { readonly means: 'unknown'; readonly text: string; readonly why: 'not-known' | 'half-read' | 'bad-check-digit' };

/** What the decoder needs to know of the shop to tell what a text means. */
export interface KnownCodes {
  readonly isSku: (text: string) => boolean;
  readonly isContainer: (text: string) => boolean;
  readonly isOrder: (text: string) => boolean;
  readonly isCarrier?: (id: string) => boolean;
  readonly staffByBadge: (text: string) => string | null;
}
