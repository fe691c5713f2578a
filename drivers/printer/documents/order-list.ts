import type { Language } from '#shared/words/language.ts';
import { cut, feed, row, rule, text, type Block, type PrintDocument } from '../document.ts';
import { PAPER_WORDS } from '../words.ts';

/** What the shop has to buy. All texts are ready to print. */
export interface OrderListData {
  readonly language: Language;
  readonly shop: string;
  readonly day: string;
  readonly lines: readonly {
    readonly name: string;
    /** "3 × 100" */
    readonly packs: string;
    readonly cost: string;
    /** what is left and for how long */
    readonly left: string;
  }[];
  readonly total: string;
}

/** The list to order from, with a box to tick beside each line. */
export function orderListDocument(data: OrderListData): PrintDocument {
  const words = PAPER_WORDS[data.language];
  return {
    title: `${words.orderList} ${data.day}`,
    blocks: [
      text(words.orderList, { size: 'big', bold: true, align: 'center' }),
      row(data.shop, data.day),
      rule,
      ...(data.lines.length === 0 ? [text(words.nothingToOrder)] : []),
      ...data.lines.flatMap((line): readonly Block[] => [
        row(`[ ] ${line.name}`, line.packs, true),
        row(`    ${line.left}`, line.cost),
      ]),
      rule,
      row(words.total, data.total, true),
      feed(1),
      cut,
    ],
  };
}
