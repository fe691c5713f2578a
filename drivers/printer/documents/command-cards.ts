import { code128, cut, row, rule, text, type Block, type PrintDocument } from '../document.ts';

/** A command that the packer can give by scanning. All texts are ready to print. */
export interface CommandCard {
  /** what the Code 128 says */
  readonly code: string;
  /** what the command is called, as the screen calls it */
  readonly name: string;
  /** when it is used, in a few words */
  readonly use?: string;
}

/** Cards to hang at the bench: each with its name large, its code, and a cut (or a place to tear) after it. */
export function commandCardsDocument(title: string, cards: readonly CommandCard[]): PrintDocument {
  return {
    title,
    blocks: cards.flatMap((card): readonly Block[] => [
      text(card.name, { size: 'big', bold: true, align: 'center' }),
      ...(card.use === undefined ? [] : [text(card.use, { align: 'center' })]),
      { kind: 'feed', lines: 1 },
      code128(card.code, 120),
      text(card.code, { align: 'center' }),
      cut,
    ]),
  };
}

/** All commands on one strip, for a bench with little room. */
export function commandStripDocument(title: string, cards: readonly CommandCard[]): PrintDocument {
  return {
    title,
    blocks: [
      text(title, { bold: true, align: 'center' }),
      ...cards.flatMap((card): readonly Block[] => [
        rule,
        row(card.name, '', true),
        // Codes that stand close together are read by mistake: an empty line parts them.
        { kind: 'feed', lines: 1 },
        code128(card.code, 60),
        { kind: 'feed', lines: 1 },
      ]),
      cut,
    ],
  };
}
