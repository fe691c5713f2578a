import barcodes from 'bwip-js/node';

/** Widths of bars and spaces in modules, a bar first, in code set B as the printer is told to print it. */
export function code128Bars(words: string): readonly number[] {
  const [symbol] = barcodes.raw({ bcid: 'code128', text: words, newencoder: true, suppressc: true } as Parameters<
    typeof barcodes.raw
  >[0]);
  if (symbol === undefined || !('sbs' in symbol)) throw new TypeError('no bars came out for the Code 128');
  return [...symbol.sbs];
}

/** Empty modules before and after the bars (ISO/IEC 15417). */
const QUIET_MODULES = 10;

/** The code turned by a quarter: one entry for each line of dots down the paper, true where it is black. */
export function turnedLines(words: string, moduleDots: number): readonly boolean[] {
  const quiet = Array.from({ length: QUIET_MODULES * moduleDots }, () => false);
  const bars = code128Bars(words).flatMap((modules, index) =>
    Array.from({ length: modules * moduleDots }, () => index % 2 === 0),
  );
  return [...quiet, ...bars, ...quiet];
}
