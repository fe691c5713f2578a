import { resolve } from 'node:path';
import { badInput } from './cli-error.ts';
import type { Surroundings } from './command.ts';
import { optional, type Options } from './options.ts';
import { ConfigError, formatProblems } from '#config/config-error.ts';
import { loadShop } from '#config/load.ts';
import { isRealDay, wallTimeAt } from '#server/office/local-time.ts';
import type { Day } from '#shared/rating/types.ts';
import type { Shop } from '#shared/shop/shop.ts';

/** The config folder: named, or the usual one. */
export function configFolder(named: string | undefined, { config, workingFolder }: Surroundings): string {
  return resolve(workingFolder, named ?? config);
}

/** @throws CliError with exit 1 and every problem of the folder */
export function shopOption(options: Options, surroundings: Surroundings): Shop {
  const folder = configFolder(optional(options, 'config'), surroundings);
  try {
    return loadShop(folder);
  } catch (error) {
    if (!(error instanceof ConfigError)) throw error;
    badInput(`${folder}:\n${formatProblems(error.problems)}`);
  }
}

/** The day that --on names, or today on the shop's clock. */
export function dayOption(options: Options, shop: Shop, { now }: Surroundings): Day {
  const text = optional(options, 'on');
  if (text === undefined) {
    const { year, month, day } = wallTimeAt(now, shop.timeZone);
    return `${year}-${String(month).padStart(2, '0')}-${String(day).padStart(2, '0')}`;
  }
  const [, year, month, day] = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text) ?? [];
  if (!isRealDay(Number(year), Number(month), Number(day))) {
    badInput(`--on: expected a day such as 2026-11-25, found "${text}"`);
  }
  return text;
}
