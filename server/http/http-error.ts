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
      if (error.status !== 413) return new HttpError(error.status, 'bad-request', error.message);
      const most = 'limit' in error && typeof error.limit === 'number' ? error.limit : 0;
      return new HttpError(413, 'too-large', `This file is larger than ${String(most / 2 ** 20)} MB.`);
    }
    return new HttpError(500, 'failed', 'The server could not do this. Nothing was changed.');
  }
}
