import type { Alignment } from './document.ts';

/** What stands on the paper after the printer took some bytes. */
export interface Paper {
  readonly columns: number;
  readonly dotsPerLine: number;
  readonly rows: readonly PaperRow[];
  /** a pulse went to the drawer connector */
  readonly drawerOpened: boolean;
  /** commands that were not understood, as hex; their bytes are not on the paper */
  readonly unknown: readonly string[];
  /** status and acknowledgement queries, in order */
  readonly queries: readonly ('printer' | 'offline' | 'error' | 'paper' | 'acknowledge')[];
}

export type PaperRow =
  | { readonly kind: 'text'; readonly align: Alignment; readonly runs: readonly PaperRun[] }
  | {
      readonly kind: 'code128';
      readonly align: Alignment;
      readonly text: string;
      readonly moduleDots: number;
      readonly heightDots: number;
    }
  /** dots, line by line, the leftmost in the highest bit; set is black */
  | {
      readonly kind: 'raster';
      readonly align: Alignment;
      readonly bytesPerLine: number;
      readonly data: Uint8Array;
    }
  | { readonly kind: 'feed'; readonly lines: number }
  | { readonly kind: 'cut'; readonly full: boolean };

export interface PaperRun {
  readonly text: string;
  readonly bold: boolean;
  readonly underline: boolean;
  readonly inverse: boolean;
  /** 1 to 8 times the normal width and height */
  readonly wide: number;
  readonly tall: number;
}

/** The words on the paper, a line for each row; a code stands as [its text], a cut as a row of dashes. */
export function plainText(paper: Paper): string {
  return paper.rows
    .map((each) => {
      switch (each.kind) {
        case 'text':
          return placed(each.runs.map((run) => run.text).join(''), each.align, each.runs[0]?.wide ?? 1, paper.columns);
        case 'code128':
          return `[${each.text}]`;
        case 'raster':
          return `[${String(each.bytesPerLine * 8)} x ${String(each.data.length / each.bytesPerLine)} dots]`;
        case 'feed':
          return '\n'.repeat(each.lines - 1);
        case 'cut':
          return '='.repeat(paper.columns);
      }
    })
    .join('\n');
}

function placed(line: string, align: Alignment, wide: number, columns: number): string {
  const room = Math.floor(columns / wide) - line.length;
  if (align === 'left' || room <= 0) return line.trimEnd();
  return (' '.repeat(align === 'right' ? room : Math.floor(room / 2)) + line).trimEnd();
}
