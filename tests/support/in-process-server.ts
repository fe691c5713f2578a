import { resolve } from 'node:path';
import { pino } from 'pino';
import { databaseFor } from './shared-cluster.ts';
import type { Clock } from '#server/clock.ts';
import { startServer, type Running } from '#server/server.ts';

const ROOT = resolve(import.meta.dirname, '../..');

/** The server in this process on a free port, on a config folder that the test may change. */
export async function serverOn(
  config: string,
  data: string,
  clock?: Clock,
): Promise<Running & { readonly url: string }> {
  const running = await startServer({
    settings: { host: '127.0.0.1', port: 0, data, database: await databaseFor(data), config, log: 'file' },
    pages: resolve(ROOT, 'build/ui'),
    templates: resolve(ROOT, 'config'),
    log: pino({ level: 'silent' }),
    ...(clock === undefined ? {} : { clock }),
  });
  return { ...running, url: `http://127.0.0.1:${String(running.port)}` };
}
