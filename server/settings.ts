import { resolve } from 'node:path';

/** What the environment decides. */
export interface Settings {
  readonly host: string;
  readonly port: number;
  readonly data: string;
  readonly config: string;
  readonly log: 'file' | 'stdout';
  /** further names under which this computer is asked for */
  readonly names?: readonly string[];
}

/** The environment does not make sense. `message` is one line for the console. */
export class SettingsError extends Error {
  override readonly name = 'SettingsError';
}

/** @throws SettingsError on a port that is none */
export function readSettings(environment: NodeJS.ProcessEnv, root: string): Settings {
  const portText = environment['PORT'] ?? '8080';
  const port = Number(portText);
  if (!/^\d+$/.test(portText) || port > 65_535) {
    throw new SettingsError(`PORT: expected a number from 0 to 65535, found "${portText}"`);
  }
  return {
    host: environment['BENCHFOLD_HOST'] ?? '127.0.0.1',
    port,
    data: resolve(environment['BENCHFOLD_DATA'] ?? `${root}/data`),
    config: resolve(environment['BENCHFOLD_CONFIG'] ?? `${root}/config`),
    log: environment['BENCHFOLD_LOG'] === 'stdout' ? 'stdout' : 'file',
    names: (environment['BENCHFOLD_NAMES'] ?? '').split(/[\s,]+/).filter((name) => name !== ''),
  };
}
