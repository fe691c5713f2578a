import type { Language } from '#shared/words/language.ts';
import { cut, feed, row, rule, text, type Block, type PrintDocument } from '../document.ts';
import { PAPER_WORDS } from '../words.ts';

/** What one carrier collects at one time. All texts are ready to print. */
export interface HandOverData {
  readonly language: Language;
  readonly shop: string;
  readonly carrier: string;
  readonly day: string;
  readonly collection: string;
  readonly parcels: readonly {
    readonly order: string;
    /** the parcel's number as on its label */
    readonly number: string;
    readonly service: string;
    readonly weight: string;
  }[];
  readonly totalWeight: string;
}

/** The sheet that goes with the parcels to the collection: every parcel, the count, and lines to sign on. */
export function handOverDocument(data: HandOverData): PrintDocument {
  const words = PAPER_WORDS[data.language];
  return {
    title: `${words.handOver} ${data.carrier} ${data.day}`,
    blocks: [
      text(words.handOver, { size: 'big', bold: true, align: 'center' }),
      text(data.shop, { align: 'center' }),
      row(data.carrier, `${data.day} ${data.collection}`, true),
      rule,
      ...data.parcels.flatMap((parcel): readonly Block[] => [
        row(`${parcel.order}  ${parcel.service}`, parcel.weight),
        text(`  ${parcel.number}`),
      ]),
      rule,
      row(words.parcels, String(data.parcels.length), true),
      row(words.totalWeight, data.totalWeight, true),
      feed(1),
      ...[words.handedOverBy, words.receivedBy].flatMap((who) => [text(`${who}:`), feed(2), rule]),
      feed(1),
      cut,
    ],
  };
}
