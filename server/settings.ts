import { join, relative, resolve } from 'node:path';

/** What the environment decides. */
export interface Settings {
  readonly host: string;
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
  /** further names under which this computer is asked for */
  readonly names?: readonly string[];
}

/** The environment does not make sense. `message` is one line for the console. */
export class SettingsError extends Error {
  override readonly name = 'SettingsError';
}

/** A shop of one's own keeps what it packs in its own folder; those that come along with the product share one beside it. */
function usualData(config: string, root: string): string {
  return relative(root, config).startsWith('..') ? join(config, 'data') : join(root, 'data');
}

/** @throws SettingsError on a port that is none */
export function readSettings(environment: NodeJS.ProcessEnv, root: string): Settings {
  const portText = environment['PORT'] ?? '8080';
  const port = Number(portText);
  if (!/^\d+$/.test(portText) || port > 65_535) {
    throw new SettingsError(`PORT: expected a number from 0 to 65535, found "${portText}"`);
  }
  const config = resolve(environment['BENCHFOLD_CONFIG'] ?? join(root, 'config'));
  return {
    host: environment['BENCHFOLD_HOST'] ?? '127.0.0.1',
    port,
    data: resolve(environment['BENCHFOLD_DATA'] ?? usualData(config, root)),
    database: environment['DATABASE_URL'] ?? null,
    benches: environment['BENCHFOLD_BENCHES']?.split(/[\s,]+/).filter((id) => id !== '') ?? null,
    address: environment['BENCHFOLD_ADDRESS'] ?? null,
    config,
    log: environment['BENCHFOLD_LOG'] === 'stdout' ? 'stdout' : 'file',
    names: (environment['BENCHFOLD_NAMES'] ?? '').split(/[\s,]+/).filter((name) => name !== ''),
  };
}
