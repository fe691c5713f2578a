import { existsSync } from 'node:fs';
import { badInput } from './cli-error.ts';
import type { Command, Outcome, Surroundings } from './command.ts';
import { optional, type Options } from './options.ts';
import { configFolder } from './shop-option.ts';
import { formatProblems } from '#config/config-error.ts';
import { reportOn } from '#config/load.ts';

function run(options: Options, surroundings: Surroundings): Outcome {
  const folder = configFolder(options.positionals[0] ?? optional(options, 'config'), surroundings);
  if (!existsSync(folder)) badInput(`${folder}: expected a config folder, found nothing there`);
  const { problems, warnings } = reportOn(folder);
  return {
    document: { folder, valid: problems.length === 0, problems, warnings },
    text: [
      ...(problems.length === 0 ? [`${folder}: every file is in order`] : []),
      ...(warnings.length === 0 ? [] : ['to look at:', formatProblems(warnings)]),
    ].join('\n'),
    complaints: problems.length === 0 ? [] : [formatProblems(problems)],
  };
}

/** Every problem of a config folder. */
export const checkCommand: Command = {
  usage: 'check [FOLDER | --config FOLDER]',
  options: ['config'],
  positionals: 1,
  run,
};
