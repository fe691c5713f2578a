import { code128, cut, feed, text, type Block, type PrintDocument } from '../document.ts';

/** The card that hangs on a carrier's sack. All texts are ready to print. */
export interface SackCard {
  readonly code: string;
  readonly carrier: string;
  /** "16:30, 18:00" */
  readonly times: string;
}

/** A card for each sack: scanned at a bench, its parcels go into it. */
export function sackCardsDocument(title: string, cards: readonly SackCard[]): PrintDocument {
  return {
    title,
    blocks: cards.flatMap((card): readonly Block[] => [
      text(card.carrier, { size: 'big', bold: true, align: 'center' }),
      text(card.times, { size: 'tall', align: 'center' }),
      feed(1),
      code128(card.code, 120),
      text(card.code, { align: 'center' }),
      cut,
    ]),
  };
}
