import { resolve } from 'node:path';
import { badInput } from './cli-error.ts';
import type { Surroundings } from './command.ts';
import { optional, type Options } from './options.ts';
import { LearnedShop } from '#server/learning/learned-shop.ts';
import { readBeliefs } from '#server/store/read-beliefs.ts';
import { readSources } from '#server/store/read-sources.ts';
import { StoreError } from '#server/store/store-error.ts';
import type { ImportSource } from '#shared/imports/source.ts';
import type { Shop } from '#shared/shop/shop.ts';

/**
 * The shop with what the parcels of the data folder that --data names have taught; without it as its files say it.
 * @throws CliError with exit 1 when the folder has no store
 */
export function learnedShop(options: Options, shop: Shop, { workingFolder }: Surroundings): Shop {
  return fromStore(options, workingFolder, (folder) => new LearnedShop(shop).with(readBeliefs(folder))) ?? shop;
}

/**
 * How the files of each source are read, as it was said in the office of the data folder that --data names.
 * @throws CliError with exit 1 when the folder has no store
 */
export function knownSources(options: Options, { workingFolder }: Surroundings): readonly ImportSource[] {
  return fromStore(options, workingFolder, readSources) ?? [];
}

function fromStore<Read>(options: Options, workingFolder: string, read: (folder: string) => Read): Read | null {
  const folder = optional(options, 'data');
  if (folder === undefined) return null;
  try {
    return read(resolve(workingFolder, folder));
  } catch (error) {
    if (!(error instanceof StoreError)) throw error;
    badInput(`--data: ${error.message}`);
  }
}
