import { open } from 'node:fs/promises';
import { join } from 'node:path';
import { earlierLogs, LOG_FILE } from '#server/log-files.ts';

const LAST_BYTES = 400_000;
const MOST_LINES = 2000;

interface LoggedError {
  readonly type?: unknown;
  readonly code?: unknown;
  readonly stack?: unknown;
}

/**
 * The last lines of the log, each with what is known to be no person's: its time, level and sentence, and of an error its
 * type, code and where in the program it was thrown. What an error says may hold a name, and stays behind.
 */
export async function lastLogLines(folder: string): Promise<readonly string[]> {
  // The log may just have been begun anew.
  const before = earlierLogs(folder).at(-1);
  const text = (before === undefined ? '' : await endOf(before.path)) + (await endOf(join(folder, LOG_FILE)));
  return text
    .split('\n')
    .slice(-MOST_LINES)
    .flatMap((line) => {
      const told = toldLine(line);
      return told === null ? [] : [JSON.stringify(told)];
    });
}

function toldLine(line: string): object | null {
  let logged: Readonly<Record<string, unknown>>;
  try {
    logged = JSON.parse(line) as Readonly<Record<string, unknown>>;
  } catch {
    // The first one may be cut off.
    return null;
  }
  const { time, level, msg } = logged;
  const error = (logged['error'] ?? logged['err']) as LoggedError | undefined;
  // A sentence of the program itself holds no figure and no quoted thing; what else there is was put together.
  const sentence =
    typeof msg === 'string' && /^[a-z ,;:'’-]{1,160}$/i.test(msg) ? msg : 'not a sentence of the program';
  return { time, level, msg: sentence, ...(error === undefined ? {} : { error: toldError(error) }) };
}

function toldError({ type, code, stack }: LoggedError): object {
  const frames =
    typeof stack === 'string' ? stack.split('\n').filter((line) => /^\s+at .*:\d+:\d+\)?$/.test(line)) : [];
  return {
    type: plain(type),
    code: plain(code),
    at: frames.map((frame) => /[\w.-]+:\d+:\d+/.exec(frame)?.[0] ?? '').filter((place) => place !== ''),
  };
}

const plain = (value: unknown): string | null =>
  typeof value === 'string' && /^[\w-]{1,60}$/.test(value) ? value : null;

async function endOf(path: string): Promise<string> {
  const file = await open(path, 'r').catch(() => null);
  if (file === null) return '';
  try {
    const { size } = await file.stat();
    const from = Math.max(0, size - LAST_BYTES);
    const bytes = Buffer.alloc(size - from);
    const { bytesRead } = await file.read(bytes, 0, bytes.length, from);
    return bytes.subarray(0, bytesRead).toString('utf8');
  } finally {
    await file.close();
  }
}
