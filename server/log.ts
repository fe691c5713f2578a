import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { pino, type Logger } from 'pino';
import type { Settings } from './settings.ts';
import { StoreError } from './store/store-error.ts';

/** Structured lines, in a file of the data folder or on stdout. They carry ids, never names or addresses. */
export function openLog({ log, data }: Settings): Logger {
  const options = { level: 'info', serializers: { error: pino.stdSerializers.err } };
  if (log === 'stdout') return pino(options);
  try {
    mkdirSync(data, { recursive: true, mode: 0o700 });
    return pino(options, pino.destination({ dest: join(data, 'server.log'), sync: true }));
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    throw new StoreError(
      'cannot-open',
      `data folder ${data}: expected a folder that can be written to (${why})`,
      error,
    );
  }
}
