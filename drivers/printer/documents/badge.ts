import { code128, cut, feed, text, type PrintDocument } from '../document.ts';

/** What a person scans at a bench. All texts are ready to print. */
export interface Badge {
  readonly code: string;
  readonly name: string;
  readonly shop: string;
}

/** A badge to be cut out and carried: the shop, the name large, and the code that a bench reads. */
export function badgeDocument(title: string, { code, name, shop }: Badge): PrintDocument {
  return {
    title,
    blocks: [
      text(shop, { align: 'center' }),
      text(name, { size: 'big', bold: true, align: 'center' }),
      feed(1),
      code128(code, 120),
      cut,
    ],
  };
}
