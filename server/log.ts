import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { pino, type DestinationStream, type Logger } from 'pino';
import type { Settings } from './settings.ts';
import { StoreError } from './store/store-error.ts';
import { loggedError } from './logged-error.ts';
import { terminalText } from '#shared/words/terminal-text.ts';

/** Structured lines, in a file of the data folder or on stdout. They carry ids, never names or addresses. */
export function openLog({ log, data }: Settings): Logger {
  const options = { level: 'info', serializers: { error: loggedError, err: loggedError } };
  if (log === 'stdout') return pino(options, readable(pino.destination({ dest: 1, sync: true })));
  try {
    mkdirSync(data, { recursive: true, mode: 0o700 });
    return pino(options, readable(pino.destination({ dest: join(data, 'server.log'), sync: true })));
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    throw new StoreError(
      'cannot-open',
      `data folder ${data}: expected a folder that can be written to (${why})`,
      error,
    );
  }
}

/** JSON leaves DEL, C1 and direction marks as they are; whoever reads the log in a terminal must be safe from them. */
const readable = (destination: DestinationStream): DestinationStream => ({
  write: (line) => destination.write(terminalText(line)),
});
