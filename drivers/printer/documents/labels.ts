import { code128, cut, text, type Block, type PrintDocument } from '../document.ts';

/** A bin of containers, a shelf, or one piece. All texts are ready to print. */
export interface ThingLabel {
  readonly code: string;
  readonly name: string;
  /** sizes, place on the shelf, what belongs here */
  readonly lines: readonly string[];
}

/** The label of a bin: its name readable from across the room, then its code. */
export function binLabelDocument(label: ThingLabel): PrintDocument {
  return { title: label.name, blocks: labelBlocks(label, 'big') };
}

/** Labels of pieces, one after the other: the code first, because it is what is looked for. */
export function pieceLabelsDocument(title: string, labels: readonly ThingLabel[]): PrintDocument {
  return { title, blocks: labels.flatMap((label) => labelBlocks(label, 'normal')) };
}

function labelBlocks(label: ThingLabel, size: 'big' | 'normal'): readonly Block[] {
  return [
    text(label.name, { size, bold: true, align: 'center' }),
    ...label.lines.map((line) => text(line, { align: 'center' })),
    { kind: 'feed', lines: 1 },
    code128(label.code, size === 'big' ? 120 : 60),
    text(label.code, { size: 'tall', align: 'center' }),
    cut,
  ];
}
