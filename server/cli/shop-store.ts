import { existsSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { badInput } from './cli-error.ts';
import type { Surroundings } from './command.ts';
import { optional, type Options } from './options.ts';
import { openShopStore, type Store } from '#server/store/open.ts';
import { StoreError } from '#server/store/store-error.ts';

/** The data folder that a command is about. */
export function dataFolder(options: Options, { workingFolder, data }: Surroundings): string {
  return resolve(workingFolder, optional(options, 'data') ?? data ?? 'data');
}

/**
 * Works on the shop's store, which a server may have open: that of DATABASE_URL as the server has it, or of
 * the data folder where there is none.
 * @throws CliError with exit 1 when there is no store
 */
export async function withShopStore<Result>(
  options: Options,
  surroundings: Surroundings,
  work: (store: Store, data: string) => Promise<Result>,
): Promise<Result> {
  const data = dataFolder(options, surroundings);
  const database = surroundings.database ?? null;
  if (database === null && !existsSync(join(data, 'benchfold.db'))) {
    badInput(`data folder ${data}: expected a store, found none`);
  }
  let store: Store;
  try {
    store = await openShopStore({ data, database });
  } catch (error) {
    if (error instanceof StoreError) badInput(error.message);
    throw error;
  }
  try {
    return await work(store, data);
  } finally {
    await store.destroy();
  }
}
