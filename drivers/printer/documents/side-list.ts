import type { Language } from '#shared/words/language.ts';
import { cut, feed, row, rule, text, type Block, type PrintDocument } from '../document.ts';
import { PAPER_WORDS } from '../words.ts';

/** Orders with where they lie: the set-aside shelf, or the baskets of what was folded ahead. All texts are ready to print. */
export interface SideListData {
  readonly language: Language;
  readonly what: 'aside' | 'folded-ahead';
  readonly shop: string;
  readonly when: string;
  readonly entries: readonly {
    /** "basket 3", "place 2" */
    readonly lies: string;
    readonly order: string;
    readonly lines: readonly string[];
  }[];
}

/** The list with a box to tick beside each order. */
export function sideListDocument({ language, what, shop, when, entries }: SideListData): PrintDocument {
  const words = PAPER_WORDS[language];
  const title = what === 'aside' ? words.setAsideShelf : words.foldedAhead;
  return {
    title: `${title} ${when}`,
    blocks: [
      text(title, { size: 'wide', bold: true, align: 'center' }),
      row(shop, when),
      rule,
      ...(entries.length === 0 ? [text(words.nothingLies)] : []),
      ...entries.flatMap((entry): readonly Block[] => [
        row(`[ ] ${words.order} ${entry.order}`, entry.lies, true),
        ...entry.lines.map((line) => text(`    ${line}`)),
      ]),
      feed(1),
      cut,
    ],
  };
}
