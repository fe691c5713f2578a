import { rasterLabel } from '#drivers/printer/raster-label.ts';
import { isPrintError } from '#drivers/printer/print-error.ts';
import type { BenchConfig } from '#shared/shop/shop.ts';
import type { LabelType } from '#shared/wire/label.ts';

/** The bytes that a bench's label printer, or the program that prints there, is to be given; null where neither can print it. */
export async function labelPaper(type: LabelType, bytes: Uint8Array, bench: BenchConfig): Promise<Uint8Array | null> {
  const { labelPrinter: printer, labelProgram: program } = bench;
  switch (type) {
    case 'escpos':
    case 'zpl':
      return printer?.speaks === type ? bytes : null;
    case 'pdf':
      return program === undefined ? null : bytes;
    case 'png':
      if (printer?.speaks === 'escpos') {
        try {
          return await rasterLabel(bytes, printer.dotsPerLine);
        } catch (error) {
          if (!isPrintError(error)) throw error;
        }
      }
      return program === undefined ? null : bytes;
  }
}

/** Documents and pictures go to the program, all else to the printer itself. */
export function isForProgram(bytes: Uint8Array): boolean {
  const head = Buffer.from(bytes.subarray(0, 8)).toString('latin1');
  return head.startsWith('%PDF-') || head.startsWith('\x89PNG');
}
