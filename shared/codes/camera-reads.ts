import { gtin14 } from './gtin.ts';

/** The symbols that a camera looks for. Interleaved 2 of 5 is left out: nearly every false read of a picture is one. */
export const CAMERA_SYMBOLS = ['code-128', 'code-39', 'ean-upc', 'qr', 'data-matrix'] as const;
export type CameraSymbol = (typeof CAMERA_SYMBOLS)[number];

/** A text that a decoder saw in one picture. */
export interface CodeRead {
  /** as a scanner would send it: FNC1 as the group separator, "]C1" and such before GS1 element strings */
  readonly text: string;
  readonly symbol: CameraSymbol;
}

/** What two reads of the same thing have in common: UPC-A may come as EAN-13 with a leading zero. */
export function sameThing(read: CodeRead): string {
  return read.symbol === 'ean-upc' ? (gtin14(read.text) ?? read.text) : read.text;
}
