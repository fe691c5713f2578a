import type { Language } from '#shared/words/language.ts';
import { code128, cut, feed, row, rule, text, type PrintDocument } from '../document.ts';
import { PAPER_WORDS } from '../words.ts';

export interface TestPageData {
  readonly language: Language;
  readonly shop: string;
  readonly bench: string;
  readonly when: string;
  readonly columns: number;
  /** text of a Code 128 that the bench's scanner can then be tried on */
  readonly code: string;
}

/** A page that shows whether a printer does all that the station asks of it: letters, sizes, width, a code, the cut. */
export function testPageDocument(data: TestPageData): PrintDocument {
  const words = PAPER_WORDS[data.language];
  const digits = '1234567890'.repeat(Math.ceil(data.columns / 10)).slice(0, data.columns);
  return {
    title: `${words.testPage} ${data.when}`,
    blocks: [
      text(words.testPage, { size: 'big', bold: true, align: 'center' }),
      row(`${data.shop} · ${data.bench}`, data.when),
      rule,
      text(words.everyLetter),
      text('ABCDEFGHIJKLMNOPQRSTUVWXYZ abcdefghijklmnopqrstuvwxyz 0123456789'),
      text('áéíóúüñ ÁÉÍÓÚÜÑ ¿¡ äöß àèç € £ ½ ¼ × ± °'),
      text(words.fullWidth),
      text(digits),
      { kind: 'warning', text: words.close },
      feed(1),
      code128(data.code),
      text(data.code, { align: 'center' }),
      feed(1),
      cut,
    ],
  };
}
