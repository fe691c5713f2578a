/** The store could not be opened or kept, or lacks what it refers to. `message` is one line for the console. */
export class StoreError extends Error {
  override readonly name = 'StoreError';
  readonly code:
    | 'cannot-open'
    | 'damaged'
    | 'in-use'
    | 'not-kept'
    | 'not-serving'
    | 'newer-schema'
    | 'cannot-migrate'
    | 'missing-row';

  constructor(code: StoreError['code'], message: string, cause?: unknown) {
    super(message, { cause });
    this.code = code;
  }
}
