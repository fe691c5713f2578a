/** A file that cannot be imported at all. `code` is for programs, `message` for people. */
export class ImportError extends Error {
  override readonly name = 'ImportError';
  readonly code:
    'empty' | 'header-only' | 'not-a-table' | 'columns-missing' | 'columns-twice' | 'header-lower' | 'quote-not-closed';
  /** line of the file, where there is one to point at */
  readonly line: number | null;

  constructor(code: ImportError['code'], message: string, line: number | null = null) {
    super(message);
    this.code = code;
    this.line = line;
  }
}

export function isImportError(error: unknown): error is ImportError {
  return error instanceof ImportError;
}
