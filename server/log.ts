import { pino, type DestinationStream, type Logger } from 'pino';
import { LogFiles } from './log-files.ts';
import type { Settings } from './settings.ts';
import { StoreError } from './store/store-error.ts';
import { loggedError } from './logged-error.ts';
import { KEEP_DEFAULTS } from '#shared/shop/keep.ts';
import { terminalText } from '#shared/words/terminal-text.ts';
import { makeFolder } from '#server/make-folder.ts';

/** The log, and its files where it is kept in any. */
export interface OpenLog {
  readonly log: Logger;
  readonly files: LogFiles | null;
}

/** Structured lines, in files of the data folder or on stdout. They carry ids, never names or addresses. */
export function openLog({ log, data }: Pick<Settings, 'log' | 'data'>): OpenLog {
  const options = { level: 'info', serializers: { error: loggedError, err: loggedError } };
  if (log === 'stdout') {
    return { log: pino(options, readable(pino.destination({ dest: 1, sync: true }))), files: null };
  }
  try {
    makeFolder(data, 0o700);
    const files = new LogFiles(data, KEEP_DEFAULTS.logMegabytes);
    return { log: pino(options, readable(files)), files };
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
  write: (line) => {
    destination.write(terminalText(line));
  },
});
