import type { CodeRead } from '#shared/codes/camera-reads.ts';

/** A picture from the camera: red, green, blue and opacity of each point, row by row, as a canvas gives them. */
export type Picture = ImageData;

/** Finds codes in a picture. */
export interface CodeDecoder {
  /** every code that is seen; none is an empty list. Rejects when the decoder itself fails. */
  readonly decode: (picture: Picture) => Promise<readonly CodeRead[]>;
}
