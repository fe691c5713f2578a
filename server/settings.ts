import { join, relative, resolve } from 'node:path';

/** What the environment decides. */
export interface Settings {
  /** what to listen on; null: as the shop's files say */
  readonly host: string | null;
  readonly port: number;
  readonly data: string;
  /** postgres://... of the shop's database; null for the store in the data folder */
  readonly database: string | null;
  /** the benches whose devices are at this server, of several that share a database; null for any */
  readonly benches?: readonly string[] | null;
  /** where the pages of this server are, as http://host:port; worked out where nothing is said */
  readonly address?: string | null;
  readonly config: string;
  readonly log: 'file' | 'stdout';
  /** further names under which this computer is asked for; null: as the shop's files say */
  readonly names?: readonly string[] | null;
  /** of the page that helps tablets to trust the certificate */
  readonly trustPort?: number;
}

/** The environment does not make sense. `message` is one line for the console. */
export class SettingsError extends Error {
  override readonly name = 'SettingsError';
}

/** A shop of one's own keeps what it packs in its own folder; those that come along with the product share one beside it. */
function usualData(config: string, root: string): string {
  return relative(root, config).startsWith('..') ? join(config, 'data') : join(root, 'data');
}

/** Where a shop's files and its store are. */
export interface Places {
  readonly config: string;
  readonly data: string;
  /** as DATABASE_URL has it; null for the store in the data folder */
  readonly database: string | null;
}

/**
 * Where the environment says that a shop is, for the server and the command line alike.
 * @param from against which folders are resolved
 */
export function readPlaces(environment: NodeJS.ProcessEnv, root: string, from = process.cwd()): Places {
  const config = resolve(from, given(environment['BENCHFOLD_CONFIG']) ?? join(root, 'config'));
  return {
    config,
    data: resolve(from, given(environment['BENCHFOLD_DATA']) ?? usualData(config, root)),
    database: given(environment['DATABASE_URL']),
  };
}

/** @throws SettingsError on a port that is none */
export function readSettings(environment: NodeJS.ProcessEnv, root: string, options: readonly string[] = []): Settings {
  const port = readPort(environment, 'PORT', 8080);
  const everywhere = options.includes('--lan') ? '0.0.0.0' : null;
  return {
    ...readPlaces(environment, root),
    host: given(environment['BENCHFOLD_HOST']) ?? everywhere,
    port,
    trustPort: readPort(environment, 'BENCHFOLD_TRUST_PORT', port === 0 || port === 65_535 ? 0 : port + 1),
    benches: listOf(environment['BENCHFOLD_BENCHES']),
    address: given(environment['BENCHFOLD_ADDRESS']),
    log: given(environment['BENCHFOLD_LOG']) === 'stdout' ? 'stdout' : 'file',
    names: listOf(environment['BENCHFOLD_NAMES']),
  };
}

/** An empty variable says nothing: on an empty host a server would listen everywhere, of an empty list serve no bench. */
function given(text: string | undefined): string | null {
  return text === undefined || text.trim() === '' ? null : text.trim();
}

function listOf(text: string | undefined): readonly string[] | null {
  const names = given(text)
    ?.split(/[\s,]+/)
    .filter((name) => name !== '');
  return names === undefined || names.length === 0 ? null : names;
}

function readPort(environment: NodeJS.ProcessEnv, name: string, otherwise: number): number {
  const text = given(environment[name]) ?? String(otherwise);
  const port = Number(text);
  if (!/^\d+$/.test(text) || port > 65_535) {
    throw new SettingsError(`${name}: expected a number from 0 to 65535, found "${text}"`);
  }
  return port;
}
