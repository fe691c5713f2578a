/** A device setting that cannot work. `code` is for programs, `message` for people. */
export class DriverError extends Error {
  override readonly name = 'DriverError';
  readonly code: 'bad-pattern';

  constructor(code: DriverError['code'], message: string) {
    super(message);
    this.code = code;
  }
}
