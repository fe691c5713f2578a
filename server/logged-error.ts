/** What the log keeps of an error. */
export interface LoggedError {
  readonly type: string;
  readonly code?: string;
  readonly message?: string;
  /** where in the program, without what the error says */
  readonly stack?: string;
  readonly cause?: LoggedError;
}

const DEEPEST = 3;

/**
 * An error for the log: its kind, code and place, and its sentence without what stands in it in quotation marks. That, and the
 * further fields of a database's error (the row that did not fit, the values of a key), may be somebody's name or address.
 */
export function loggedError(error: unknown, depth = 0): LoggedError | string {
  if (!(error instanceof Error)) return typeof error;
  const { name, message, stack = '', cause } = error;
  const code = 'code' in error && typeof error.code === 'string' ? error.code : undefined;
  const frames = stack.split('\n').filter((line) => /^\s+at \S/.test(line));
  const inner = cause instanceof Error && depth < DEEPEST ? loggedError(cause, depth + 1) : undefined;
  return {
    type: name,
    ...(code === undefined ? {} : { code }),
    // What cannot be read is quoted without marks.
    ...(error instanceof SyntaxError ? {} : { message: 'syscall' in error ? message : withoutQuoted(message) }),
    stack: frames.join('\n'),
    ...(typeof inner === 'object' ? { cause: inner } : {}),
  };
}

/** From the first quotation mark to the last, since what is quoted may hold some. */
const withoutQuoted = (message: string): string => message.replace(/["'`“‘«].*["'`”’»]/s, '"..."');
