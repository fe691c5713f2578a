/** A document that cannot be put on this paper. `code` is for programs, `message` for people. */
export class PrintError extends Error {
  override readonly name = 'PrintError';
  readonly code: 'code-not-encodable' | 'unsafe-bytes' | 'bad-paper' | 'bad-picture';

  constructor(code: PrintError['code'], message: string) {
    super(message);
    this.code = code;
  }
}

export function isPrintError(error: unknown): error is PrintError {
  return error instanceof PrintError;
}
