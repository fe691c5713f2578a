import barcodes from 'bwip-js/node';

/** A printed symbol as modules: where it is dark. The quiet zone around it is part of its size. */
export interface PrintedSymbol {
  readonly width: number;
  readonly height: number;
  readonly isDark: (x: number, y: number) => boolean;
}

/** Quiet zones in modules: ISO/IEC 15417 and 16388 ask for 10, 15420 for up to 11, 18004 for 4; 16022 for 1, here 4. */
const QUIET_BARS = 11;
const QUIET_SQUARE = 4;
const BAR_HEIGHT = 45;

/** Draws a code by a general-purpose library; `kind` is that library's name of the symbology, such as "code128". */
export function printedSymbol(kind: string, text: string): PrintedSymbol {
  const [drawn] = barcodes.raw({ bcid: kind, text }) as readonly (
    | { readonly sbs: readonly number[] }
    | { readonly pixs: readonly number[]; readonly pixx: number; readonly pixy: number }
  )[];
  if (drawn === undefined) throw new Error(`nothing was drawn for ${kind} "${text}"`);
  return 'sbs' in drawn ? bars(drawn.sbs) : square(drawn.pixs, drawn.pixx, drawn.pixy);
}

function bars(widths: readonly number[]): PrintedSymbol {
  const dark: boolean[] = [];
  for (const [index, width] of widths.entries()) for (let each = 0; each < width; each++) dark.push(index % 2 === 0);
  return {
    width: dark.length + 2 * QUIET_BARS,
    height: BAR_HEIGHT + 2 * QUIET_BARS,
    isDark: (x, y) => y >= QUIET_BARS && y < QUIET_BARS + BAR_HEIGHT && dark[x - QUIET_BARS] === true,
  };
}

function square(pixels: readonly number[], columns: number, rows: number): PrintedSymbol {
  return {
    width: columns + 2 * QUIET_SQUARE,
    height: rows + 2 * QUIET_SQUARE,
    isDark: (x, y) => {
      const [column, row] = [x - QUIET_SQUARE, y - QUIET_SQUARE];
      return column >= 0 && column < columns && row >= 0 && row < rows && pixels[row * columns + column] === 1;
    },
  };
}
