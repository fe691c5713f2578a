/** A piece, a kind or a cloth that cannot be worked with. `code` is for programs, `message` for people. */
export class GarmentError extends Error {
  override readonly name = 'GarmentError';
  readonly code: 'unknown-kind' | 'unknown-cloth' | 'unknown-size' | 'bad-measure' | 'missing-measure' | 'bad-mass';

  constructor(code: GarmentError['code'], message: string) {
    super(message);
    this.code = code;
  }
}

/** Narrows a caught value to a GarmentError, of the code when one is given. */
export function isGarmentError(error: unknown, code?: GarmentError['code']): error is GarmentError {
  return error instanceof GarmentError && (code === undefined || error.code === code);
}
