import { readFileSync, statSync } from 'node:fs';
import { resolve } from 'node:path';
import type { SecretPlace } from '#shared/labels/settings.ts';

/** Shorter ones can be guessed. */
const FEWEST_BYTES = 16;

/** The secret cannot be had. `message` says where it was looked for and never what was there. */
export class SecretError extends Error {
  override readonly name = 'SecretError';
}

/**
 * Reads the secret that requests are signed with, of the environment or of a file that nobody but its owner may read.
 * @param folder where a relative file name begins
 * @throws SecretError
 */
export function readSecret(
  place: SecretPlace,
  folder: string,
  environment: NodeJS.ProcessEnv = process.env,
): Uint8Array {
  const [text, where] =
    'variable' in place
      ? [environment[place.variable] ?? '', `environment variable ${place.variable}`]
      : [readPrivate(resolve(folder, place.file)), `file ${place.file}`];
  const secret = Buffer.from(text.trim(), 'utf8');
  if (secret.length === 0) throw new SecretError(`${where}: expected the secret, found nothing`);
  if (secret.length < FEWEST_BYTES) {
    throw new SecretError(
      `${where}: expected a secret of at least ${String(FEWEST_BYTES)} characters, found ${String(secret.length)}`,
    );
  }
  return secret;
}

function readPrivate(path: string): string {
  try {
    const { mode } = statSync(path);
    // Windows keeps its permissions elsewhere.
    if (process.platform !== 'win32' && (mode & 0o077) !== 0) {
      const found = (mode & 0o777).toString(8).padStart(4, '0');
      throw new SecretError(`file ${path}: expected permissions 0600, found ${found}: others can read it`);
    }
    return readFileSync(path, 'utf8');
  } catch (error) {
    if (error instanceof SecretError) throw error;
    throw new SecretError(
      `file ${path}: expected a file that can be read (${error instanceof Error ? error.message : ''})`,
    );
  }
}
