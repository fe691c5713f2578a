import type { Language } from '#shared/words/language.ts';
import { row, type PrintDocument } from '../document.ts';
import { PAPER_WORDS } from '../words.ts';

/** What stands above a document that came out before. All texts are ready to print. */
export interface CopyMark {
  readonly language: Language;
  /** what is copied, for the queue */
  readonly of: string;
  /** when it was printed first */
  readonly when: string;
}

/** A head that nobody overlooks: a second slip must never be taken for another parcel's. */
export function copyMarkDocument({ language, of, when }: CopyMark): PrintDocument {
  const words = PAPER_WORDS[language];
  return {
    title: `${words.copy}: ${of}`,
    blocks: [{ kind: 'warning', text: words.copy }, row(words.firstPrinted, when)],
  };
}
