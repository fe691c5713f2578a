import type { ConfigProblem } from '#shared/wire/rates.ts';

/** An answer other than success: status, a code for programs and a sentence for people. */
export class HttpError extends Error {
  override readonly name = 'HttpError';
  readonly status: number;
  readonly code: string;
  /** what is wrong in the shop's files, where that is why */
  readonly problems: readonly ConfigProblem[] | undefined;

  constructor(status: number, code: string, message: string, problems?: readonly ConfigProblem[]) {
    super(message);
    this.status = status;
    this.code = code;
    this.problems = problems;
  }

  /** Anything thrown as an answer; what was not meant for people keeps its words to the log. */
  static from(error: unknown): HttpError {
    if (error instanceof HttpError) return error;
    if (error instanceof Error && 'status' in error && typeof error.status === 'number' && error.status < 500) {
      if (error.status !== 413) return new HttpError(error.status, 'bad-request', unreadable(error));
      const most = 'limit' in error && typeof error.limit === 'number' ? error.limit : 0;
      const what = 'type' in error ? 'What was sent' : 'This file';
      return new HttpError(413, 'too-large', `${what} is larger than ${bytesText(most)}.`);
    }
    return new HttpError(500, 'failed', 'The server could not do this. Nothing was changed.');
  }
}

/** A limit, which is a whole number of one or the other. */
const bytesText = (bytes: number): string =>
  bytes % 2 ** 20 === 0 ? `${String(bytes / 2 ** 20)} MB` : `${String(Math.round(bytes / 1024))} kB`;

/** Why a body could not be read, for whoever sends it. */
function unreadable(error: Error): string {
  const of = (name: 'type' | 'code'): string =>
    String((error as { readonly type?: unknown; readonly code?: unknown })[name]);
  if (of('type') === 'entity.parse.failed') return `The body: expected JSON, found something else (${error.message}).`;
  if (of('code').startsWith('Z_'))
    return `The body: expected what Content-Encoding says, found other bytes (${error.message}).`;
  return error.message;
}
