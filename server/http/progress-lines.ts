import type { Request, Response } from 'express';
import { HttpError } from './http-error.ts';
import type { ProgressLine } from '#shared/wire/office.ts';

const LINES = 'application/x-ndjson';
const EVERY_MS = 150;

/**
 * Answers a request that takes long: with how far it is, a line at a time, where the asker takes such lines; otherwise
 * with the answer alone.
 */
export async function answerWithProgress<Answer>(
  request: Request,
  response: Response,
  work: (progress: (done: number, of: number) => void) => Promise<Answer>,
): Promise<void> {
  if (request.header('accept') !== LINES) {
    response.json(await work(() => undefined));
    return;
  }
  const say = (line: ProgressLine<Answer>): void => {
    response.write(`${JSON.stringify(line)}\n`);
  };
  response.type(LINES);
  response.setHeader('Cache-Control', 'no-store');
  let saidAt = -Infinity;
  try {
    const answer = await work((done, of) => {
      const now = performance.now();
      if (now - saidAt < EVERY_MS) return;
      saidAt = now;
      say({ progress: { done, of } });
    });
    say({ answer });
  } catch (error) {
    const { code, message } = HttpError.from(error);
    say({ failed: { error: code, message } });
  }
  response.end();
}
