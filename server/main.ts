import { existsSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { failureLine } from './failure-line.ts';
import { openLog } from './log.ts';
import { startServer } from './server.ts';
import { readSettings } from './settings.ts';
import { welcomeLines } from './welcome-lines.ts';
import { ConfigError } from '#config/config-error.ts';
import { checkFolder } from '#config/load.ts';
import { terminalText } from '#shared/words/terminal-text.ts';

/** Built, this file is build/server/main.js; as a source it is server/main.ts. */
const here = dirname(fileURLToPath(import.meta.url));
const root = here.endsWith('/build/server') ? resolve(here, '../..') : resolve(here, '..');

/** How long a stop may take before it is forced. */
const STOP_WITHIN_MS = 5000;

async function main(): Promise<void> {
  const settings = readSettings(process.env, root, process.argv.slice(2));
  // The log may lie in the shop's own folder, which it must not make: its name is then a mistake.
  if (!existsSync(settings.config)) throw new ConfigError(checkFolder(settings.config));
  const { log, files } = openLog(settings);
  // What SQLite puts by lies on the store's own disk, which health looks at: that of the system's temporary files may be too
  // small to store a long file, or to write the store anew. It reads this once, before the first file.
  process.env['SQLITE_TMPDIR'] ??= settings.data;
  const running = await startServer({
    settings,
    pages: resolve(root, 'build/ui'),
    templates: resolve(root, 'config'),
    log,
    ...(files === null ? {} : { logFiles: files }),
  });
  let stopping = false;
  const stop = (signal: string) => {
    if (stopping) return;
    stopping = true;
    log.info({ signal }, 'stopping');
    setTimeout(() => process.exit(1), STOP_WITHIN_MS).unref();
    running.stop().then(
      () => process.exit(0),
      (error: unknown) => {
        log.error({ error }, 'could not stop cleanly');
        process.exit(1);
      },
    );
  };
  process.on('SIGINT', () => stop('SIGINT'));
  process.on('SIGTERM', () => stop('SIGTERM'));
  // Only now: whoever reads the addresses may stop the server at once.
  for (const line of await welcomeLines(running, settings)) console.log(terminalText(line));
  console.log('Ctrl-C stops it.');
}

main().catch((error: unknown) => {
  console.error(terminalText(failureLine(error)));
  process.exit(1);
});
