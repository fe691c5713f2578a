/** Something that the command line says on stderr; `exit` is 1 for bad input and 2 for wrong usage. */
export class CliError extends Error {
  override readonly name = 'CliError';
  readonly exit: 1 | 2;

  constructor(exit: CliError['exit'], message: string) {
    super(message);
    this.exit = exit;
  }
}

/** @throws CliError with exit 2 */
export function wrongUsage(message: string): never {
  throw new CliError(2, message);
}

/** @throws CliError with exit 1 */
export function badInput(message: string): never {
  throw new CliError(1, message);
}
