import { resolve } from 'node:path';
import { badInput, wrongUsage } from './cli-error.ts';
import type { Command, Outcome, Surroundings } from './command.ts';
import { optional, type Options } from './options.ts';
import { beginShop, NotEmpty } from '#server/first-run/new-shop.ts';
import { MEASURES } from '#shared/wire/first-run.ts';

function run(options: Options, { templates, workingFolder }: Surroundings): Outcome {
  const [named] = options.positionals;
  if (named === undefined) wrongUsage('expected a folder that is empty or not there yet');
  const asked = optional(options, 'measures') ?? 'inches';
  const measures =
    MEASURES.find((each) => each === asked) ??
    badInput(`--measures: expected ${MEASURES.join(' or ')}, found "${asked}"`);
  const folder = resolve(workingFolder, named);
  try {
    beginShop(folder, templates, measures);
  } catch (error) {
    if (!(error instanceof NotEmpty)) throw error;
    badInput(error.message);
  }
  return {
    document: { folder, measures },
    text: [
      `${folder} holds a shop: its prices are stand-ins, its devices simulated.`,
      'Start it, and open the office on its guide:',
      `  BENCHFOLD_CONFIG=${folder} npm start`,
      'What is packed is kept in its folder data, unless BENCHFOLD_DATA names another.',
    ].join('\n'),
    complaints: [],
  };
}

/** Begins a shop of one's own, with valid files to be filled in. */
export const newShopCommand: Command = {
  usage: 'new-shop FOLDER [--measures inches|centimetres]',
  options: ['measures'],
  positionals: 1,
  run,
};
