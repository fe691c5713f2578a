import { dueOf, isBetweenOrders } from './here.ts';
import type { RunState } from './types.ts';
import type { ScanMeaning } from '#shared/codes/types.ts';

/** What the shop's orders say about one code. */
export interface OpenWork {
  /** an order that is still to be packed asks for this piece, or is the one that was read; a parcel with this label waits */
  readonly waits: boolean;
}

/**
 * Whether the open work knows a code. A camera sees whatever lies about: goods of other shops, old labels, a book. Such a
 * code is none of the bench's business, where a scanner's trigger would have asked for it.
 */
export function openWorkKnows(meaning: ScanMeaning, state: RunState, open: OpenWork): boolean {
  switch (meaning.means) {
    case 'command':
    case 'staff':
    case 'container':
    case 'sack':
      return true;
    case 'piece':
      return open.waits || (state.order !== null && dueOf(state.order, meaning.sku) > 0);
    case 'order':
      return open.waits || state.order?.id === meaning.order;
    case 'label':
      // Any long number reads as a label: it is one where a label is asked for, or between orders a parcel of ours.
      if (isBetweenOrders(state)) return open.waits;
      return state.step.at === 'label' || state.step.at === 'seal';
    case 'unknown':
      return false;
  }
}
