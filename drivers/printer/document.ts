/** What goes on paper, as data. Text is plain: the encoder makes it safe and wraps it. */
export type TextSize = 'normal' | 'tall' | 'wide' | 'big';
export type Alignment = 'left' | 'center' | 'right';

export type Block =
  | {
      readonly kind: 'text';
      readonly text: string;
      readonly size: TextSize;
      readonly bold: boolean;
      readonly align: Alignment;
    }
  | { readonly kind: 'rule' }
  /** a heading in white on black */
  | { readonly kind: 'warning'; readonly text: string }
  /** two columns; the left one wraps, the right one keeps its width */
  | { readonly kind: 'row'; readonly left: string; readonly right: string; readonly bold: boolean }
  | { readonly kind: 'code128'; readonly text: string; readonly heightDots: number }
  | { readonly kind: 'feed'; readonly lines: number }
  /** words on a dashed line where the paper is to be torn */
  | { readonly kind: 'tear'; readonly words: string }
  /** cuts, or without a cutter feeds far enough to tear */
  | { readonly kind: 'cut' };

export interface PrintDocument {
  readonly title: string;
  readonly blocks: readonly Block[];
}

export function text(
  words: string,
  how: { readonly size?: TextSize; readonly bold?: boolean; readonly align?: Alignment } = {},
): Block {
  return { kind: 'text', text: words, size: how.size ?? 'normal', bold: how.bold ?? false, align: how.align ?? 'left' };
}
export function row(left: string, right: string, bold = false): Block {
  return { kind: 'row', left, right, bold };
}
export const rule: Block = { kind: 'rule' };
export const cut: Block = { kind: 'cut' };
export function feed(lines: number): Block {
  return { kind: 'feed', lines };
}
export function code128(words: string, heightDots = 80): Block {
  return { kind: 'code128', text: words, heightDots };
}
