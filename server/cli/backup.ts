import { existsSync, renameSync, rmSync } from 'node:fs';
import { basename, dirname, resolve } from 'node:path';
import { badInput } from './cli-error.ts';
import type { Command } from './command.ts';
import { optional, required } from './options.ts';
import { recorded } from './record.ts';
import { dataFolder } from './shop-store.ts';
import { loadShop } from '#config/load.ts';
import { ConfigError, formatProblems } from '#config/config-error.ts';
import { backUp, copyStore } from '#server/backup/back-up.ts';
import { backupFolder } from '#server/backup/backup-desk.ts';
import { BackupError } from '#server/backup/manifest.ts';
import { restore } from '#server/backup/restore.ts';
import { StoreError } from '#server/store/store-error.ts';
import { makeFolder } from '#server/make-folder.ts';

async function orBadInput<Result>(work: () => Result | Promise<Result>): Promise<Result> {
  try {
    return await work();
  } catch (error) {
    if (error instanceof BackupError || error instanceof StoreError) badInput(error.message);
    if (error instanceof ConfigError) badInput(formatProblems(error.problems));
    throw error;
  }
}

const rowsOf = (tables: Readonly<Record<string, { readonly rows: number }>>) =>
  Object.values(tables).reduce((sum, { rows }) => sum + rows, 0);

/** Backs up a shop, also while its server runs. */
export const backupCommand: Command = {
  usage: 'backup [--data DIR] [--config DIR] [--to DIR|FILE.db]',
  options: ['data', 'config', 'to'],
  async run(options, surroundings) {
    const { workingFolder, now } = surroundings;
    const data = dataFolder(options, surroundings);
    const config = resolve(workingFolder, optional(options, 'config') ?? surroundings.config);
    const named = optional(options, 'to');
    return orBadInput(async () => {
      if (named?.endsWith('.db') === true) {
        const alone = await storeAlone(data, resolve(workingFolder, named));
        const taken = { what: 'data-taken-out', about: basename(named) } as const;
        return { ...alone, complaints: await recorded(taken, surroundings, { data }) };
      }
      const to = named === undefined ? backupFolder(data, loadShop(config)) : resolve(workingFolder, named);
      const { path, manifest } = await backUp({ data, config, to, now });
      const rows = rowsOf(manifest.tables);
      const files = Object.keys(manifest.files).length;
      const made = { what: 'backup-made', about: basename(path) } as const;
      return {
        document: {
          backup: path,
          at: new Date(now).toISOString(),
          schema: manifest.schema,
          tables: manifest.tables,
          files,
        },
        text: `${path}: ${String(rows)} rows of ${String(Object.keys(manifest.tables).length)} tables and ${String(files)} files, restored for trial and found the same`,
        complaints: await recorded(made, surroundings, { data }),
      };
    });
  },
};

/** The store as one file, for other programs to read. */
async function storeAlone(data: string, to: string) {
  if (existsSync(to)) throw new BackupError(`${to}: expected no such file, found one`);
  makeFolder(dirname(to));
  const making = `${to}.making-${String(process.pid)}`;
  try {
    const { tables, schema } = await copyStore(`${data}/benchfold.db`, making);
    renameSync(making, to);
    return {
      document: { backup: to, schema, tables, files: 0 },
      text: `${to}: ${String(rowsOf(tables))} rows; the store alone, without files and config`,
    };
  } catch (error) {
    rmSync(making, { force: true });
    const why = error instanceof Error ? error.message : String(error);
    throw new BackupError(`${to}: no backup of ${data} was made (${why})`, { cause: error });
  }
}

/** Makes a data folder of a backup. */
export const restoreCommand: Command = {
  usage: 'restore --from BACKUP [--to DIR] [--config-to DIR] [--replace]',
  options: ['from', 'to', 'config-to'],
  flags: ['replace'],
  async run(options, surroundings) {
    const { workingFolder, now, data } = surroundings;
    const from = resolve(workingFolder, required(options, 'from'));
    const to = resolve(workingFolder, optional(options, 'to') ?? data ?? 'data');
    const configTo = optional(options, 'config-to');
    const replace = options.flags.has('replace');
    const wish = { from, to, replace, now };
    const { manifest, aside } = await orBadInput(() =>
      restore(configTo === undefined ? wish : { ...wish, configTo: resolve(workingFolder, configTo) }),
    );
    const rows = rowsOf(manifest.tables);
    const done = {
      what: 'store-restored',
      about: basename(from),
      details: { at: new Date(manifest.at).toISOString() },
    } as const;
    return {
      document: { restored: to, at: new Date(manifest.at).toISOString(), tables: manifest.tables, aside },
      text: [
        `${to}: as it was on ${new Date(manifest.at).toISOString()}, ${String(rows)} rows`,
        ...aside.map((path) => `what lay there before is now ${path}`),
      ].join('\n'),
      complaints: await recorded(done, surroundings, { data: to }),
    };
  },
};
