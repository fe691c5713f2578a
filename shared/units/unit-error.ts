/** A quantity that could not be taken as written. `code` is for programs, `message` for people. */
export class UnitError extends Error {
  override readonly name = 'UnitError';
  readonly code: 'not-a-quantity' | 'unknown-unit' | 'too-fine' | 'too-large' | 'out-of-range';

  constructor(code: UnitError['code'], message: string) {
    super(message);
    this.code = code;
  }
}
