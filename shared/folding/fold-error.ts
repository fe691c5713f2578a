/** A recipe that cannot be carried out on a piece. `code` is for programs, `message` for people. */
export class FoldError extends Error {
  override readonly name = 'FoldError';
  readonly code: 'does-not-close' | 'no-such-part' | 'not-foldable' | 'unknown-recipe';

  constructor(code: FoldError['code'], message: string) {
    super(message);
    this.code = code;
  }
}

/** Narrows a caught value to a FoldError, of the code when one is given. */
export function isFoldError(error: unknown, code?: FoldError['code']): error is FoldError {
  return error instanceof FoldError && (code === undefined || error.code === code);
}
