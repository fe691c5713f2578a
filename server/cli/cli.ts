import { apiCommand } from './api.ts';
import { backupCommand, restoreCommand } from './backup.ts';
import { checkCommand } from './check.ts';
import { compareRatesCommand } from './compare-rates.ts';
import { CliError } from './cli-error.ts';
import { codeCommand } from './code.ts';
import type { Command, Outcome, Surroundings } from './command.ts';
import { estimateCommand } from './estimate.ts';
import { readOptions } from './options.ts';
import { moveStoreCommand } from './move-store.ts';
import { importRatesCommand } from './import-rates.ts';
import { newShopCommand } from './new-shop.ts';
import { personalDataCommand } from './personal-data.ts';
import { planCommand } from './plan.ts';
import { quoteCommand } from './quote.ts';
import { replayCommand } from './replay.ts';
import { verdictCommand } from './verdict.ts';
import { systemErrorLine } from '#server/system-error-line.ts';

/** Every command, by its name. */
export const COMMANDS: Readonly<Record<string, Command>> = {
  quote: quoteCommand,
  plan: planCommand,
  estimate: estimateCommand,
  verdict: verdictCommand,
  check: checkCommand,
  'import-rates': importRatesCommand,
  'compare-rates': compareRatesCommand,
  api: apiCommand,
  'new-shop': newShopCommand,
};

/** Those that work on a disk or a server. */
export const LONG_COMMANDS: Readonly<Record<string, Command>> = {
  backup: backupCommand,
  restore: restoreCommand,
  'move-store': moveStoreCommand,
  replay: replayCommand,
  code: codeCommand,
  'personal-data': personalDataCommand,
};

/** What a run of the command line leaves behind. */
export interface CliResult {
  readonly exit: 0 | 1 | 2;
  readonly stdout: string;
  readonly stderr: string;
}

const USAGE = [
  'usage: npm run -s cli -- COMMAND [OPTIONS] [--json]',
  '',
  ...Object.values({ ...COMMANDS, ...LONG_COMMANDS }).map((command) => `  ${command.usage}`),
].join('\n');

const lines = (texts: readonly string[]) => texts.map((text) => `${text}\n`).join('');

type Described = Pick<Command, 'usage' | 'version'>;

/** A document with the version of its shape, which scripts may look at. */
function versioned(document: object, { version = 1 }: Described): object {
  return version === null ? document : { version, ...document };
}

/**
 * Runs one command. With --json stdout holds one JSON document and nothing else; everything that is wrong goes to stderr,
 * with exit 1 for bad input and 2 for wrong usage.
 */
export async function runCli(args: readonly string[], surroundings: Surroundings): Promise<CliResult> {
  const [name = '', ...rest] = args;
  if (name === 'help' || name === '--help') return { exit: 0, stdout: `${USAGE}\n`, stderr: '' };
  const all = { ...COMMANDS, ...LONG_COMMANDS };
  const command = Object.hasOwn(all, name) ? all[name] : undefined;
  if (command === undefined) {
    const found = name === '' ? 'expected a command, found none' : `expected a command, found "${name}"`;
    return { exit: 2, stdout: '', stderr: lines([found, USAGE]) };
  }
  try {
    const options = readOptions(rest, command);
    if (options.help) return helpOn(command);
    return resultOf(await command.run(options, surroundings), command, options.json);
  } catch (error) {
    return failureOf(error, command);
  }
}

function helpOn({ usage }: Pick<Command, 'usage'>): CliResult {
  return { exit: 0, stdout: lines([`usage: ${usage} [--json]`]), stderr: '' };
}

function resultOf({ document, text, complaints }: Outcome, command: Described, json: boolean): CliResult {
  const stdout = json
    ? lines([JSON.stringify(versioned(document, command), null, 2)])
    : lines(text === '' ? [] : [text]);
  return { exit: complaints.length === 0 ? 0 : 1, stdout, stderr: lines(complaints) };
}

function failureOf(error: unknown, command: Pick<Command, 'usage'>): CliResult {
  const refused = systemErrorLine(error);
  if (refused !== null) return { exit: 1, stdout: '', stderr: lines([refused]) };
  if (!(error instanceof CliError)) throw error;
  const usage = error.exit === 2 ? [`usage: ${command.usage} [--json]`] : [];
  return { exit: error.exit, stdout: '', stderr: lines([error.message, ...usage]) };
}
