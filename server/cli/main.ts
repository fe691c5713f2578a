import { readFileSync, writeSync } from 'node:fs';
import { userInfo } from 'node:os';
import { dirname, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { runCli } from './cli.ts';
import { readPlaces } from '#server/settings.ts';
import { terminalText } from '#shared/words/terminal-text.ts';

/** The repository, from server/cli/ as from the build. */
const ROOT = resolve(dirname(fileURLToPath(import.meta.url)), '../..');

/** Writes all of a text: a pipe takes a long document in parts, and exiting would lose the rest. */
function write(descriptor: 1 | 2, text: string): void {
  const bytes = Buffer.from(text);
  for (let written = 0; written < bytes.length;) {
    try {
      written += writeSync(descriptor, bytes, written);
    } catch (error) {
      const code = error instanceof Error && 'code' in error ? error.code : '';
      // A reader that is slow (try again) or gone (nobody to write to).
      if (code === 'EPIPE') return;
      if (code !== 'EAGAIN') throw error;
    }
  }
}

/** In a container a user may have no name. */
function systemUser(): string {
  try {
    return userInfo().username;
  } catch {
    return `uid ${String(process.getuid?.() ?? '?')}`;
  }
}

// npm runs scripts in the package's folder; file names are meant from where the command was given.
const workingFolder = process.env.INIT_CWD ?? process.cwd();
const { exit, stdout, stderr } = await runCli(process.argv.slice(2), {
  now: Date.now(),
  ...readPlaces(process.env, ROOT, workingFolder),
  user: systemUser(),
  stdin: () => readFileSync(0),
  templates: resolve(ROOT, 'config'),
  wire: resolve(ROOT, 'build/api/wire.json'),
  workingFolder,
});
write(2, terminalText(stderr));
write(1, terminalText(stdout));
process.exitCode = exit;
