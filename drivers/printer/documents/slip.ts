import type { Language } from '#shared/words/language.ts';
import { code128, cut, feed, row, rule, text, type Block, type PrintDocument } from '../document.ts';
import { PAPER_WORDS } from '../words.ts';
import { marginWarningBlocks, type MarginWarning } from './margin-warning.ts';

/** What a packing slip says. All texts are ready to print. */
export interface SlipData {
  readonly language: Language;
  readonly shop: { readonly name: string; readonly address: readonly string[] };
  readonly order: string;
  /** text of the Code 128, such as BFO-1047 */
  readonly orderCode: string;
  readonly buyer: readonly string[];
  readonly pieces: readonly { readonly sku: string; readonly title: string }[];
  /** a line for each piece of the order that is not in it */
  readonly missing?: readonly string[];
  readonly container: string;
  readonly service: string;
  readonly reading: string;
  readonly margin: string;
  readonly thanks: string;
  readonly returns: string;
  readonly warning?: MarginWarning;
}

/** The slip that goes into the parcel; a warning, when there is one, comes first and is torn off. */
export function slipDocument(data: SlipData): PrintDocument {
  const words = PAPER_WORDS[data.language];
  const warning: readonly Block[] =
    data.warning === undefined
      ? []
      : [
          ...marginWarningBlocks(data.warning, data.language),
          row(words.order, data.order),
          { kind: 'tear', words: words.tearOff },
        ];
  return {
    title: `${words.packingSlip} ${data.order}`,
    blocks: [
      ...warning,
      text(data.shop.name, { size: 'big', bold: true, align: 'center' }),
      ...data.shop.address.map((line) => text(line, { align: 'center' })),
      rule,
      text(`${words.packingSlip} · ${words.order} ${data.order}`, { bold: true }),
      text(`${words.shipTo}:`),
      ...data.buyer.map((line) => text(line)),
      rule,
      row(words.pieces, String(data.pieces.length), true),
      ...data.pieces.map((piece) => row(piece.title, piece.sku)),
      ...(data.missing ?? []).map((line) => text(line, { bold: true })),
      rule,
      row(words.container, data.container),
      row(words.service, data.service),
      row(words.weight, data.reading),
      row(words.margin, data.margin),
      rule,
      text(data.thanks),
      text(data.returns),
      feed(1),
      code128(data.orderCode),
      text(data.orderCode, { align: 'center' }),
      feed(1),
      cut,
    ],
  };
}
