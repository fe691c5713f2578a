/** Why codes cannot be read by camera; the words that say how to mend it are the language files'. */
export const CAMERA_TROUBLES = [
  /** browsers give no camera to a page that came over http:// from another computer */
  'page-not-secure',
  'forbidden',
  'none-found',
  'in-use',
  'unplugged',
  'too-old',
  /** the program that reads codes could not be loaded, or broke */
  'decoder',
] as const;
export type CameraTrouble = (typeof CAMERA_TROUBLES)[number];

export class CameraError extends Error {
  override readonly name = 'CameraError';
  constructor(readonly code: CameraTrouble) {
    super(code);
  }
}
