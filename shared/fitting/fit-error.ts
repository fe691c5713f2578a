/** A stack or a container that cannot be reckoned with. `code` is for programs, `message` for people. */
export class FitError extends Error {
  override readonly name = 'FitError';
  readonly code: 'nothing-to-pack' | 'bad-measure' | 'missing-depth' | 'not-a-pouch';

  constructor(code: FitError['code'], message: string) {
    super(message);
    this.code = code;
  }
}

/** Narrows a caught value to a FitError, of the code when one is given. */
export function isFitError(error: unknown, code?: FitError['code']): error is FitError {
  return error instanceof FitError && (code === undefined || error.code === code);
}
