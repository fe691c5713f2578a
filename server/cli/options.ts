import { parseArgs, type ParseArgsConfig } from 'node:util';
import { badInput, wrongUsage } from './cli-error.ts';
import { UnitError } from '#shared/units/unit-error.ts';

type OptionsConfig = NonNullable<ParseArgsConfig['options']>;

/** What every command takes. */
const COMMON = { json: { type: 'boolean' }, help: { type: 'boolean' } } as const;

/** Options as written: text by name; an option that may be repeated holds every text. */
export interface Options {
  readonly json: boolean;
  readonly help: boolean;
  /** options without a text that were given */
  readonly flags: ReadonlySet<string>;
  readonly texts: ReadonlyMap<string, readonly string[]>;
  readonly positionals: readonly string[];
}

/** Which options a command takes: those with a text, those of them that may come more than once, and those without. */
export interface Taken {
  readonly options: readonly string[];
  readonly repeatable?: readonly string[];
  readonly flags?: readonly string[];
  readonly positionals?: number;
}

/**
 * Reads a command's options.
 * @throws CliError with exit 2 on an unknown option, a missing value or an argument too many
 */
export function readOptions(
  args: readonly string[],
  { options: names, repeatable = [], flags = [], positionals = 0 }: Taken,
): Options {
  const options: OptionsConfig = { ...COMMON };
  for (const name of names) options[name] = { type: 'string', multiple: true };
  for (const name of flags) options[name] = { type: 'boolean' };
  let parsed: ReturnType<typeof parseArgs>;
  try {
    parsed = parseArgs({ args: [...args], options, allowPositionals: true, strict: true });
  } catch (error) {
    if (!(error instanceof TypeError)) throw error;
    wrongUsage(error.message.split('. ')[0] ?? error.message);
  }
  if (parsed.positionals.length > positionals) {
    wrongUsage(`expected no argument, found "${parsed.positionals[positionals] ?? ''}"`);
  }
  const texts = new Map<string, readonly string[]>();
  for (const name of names) {
    const value = parsed.values[name];
    if (!Array.isArray(value)) continue;
    if (value.length > 1 && !repeatable.includes(name))
      wrongUsage(`--${name}: expected once, found ${value.length} times`);
    texts.set(name, value.map(String));
  }
  return {
    json: parsed.values.json === true,
    help: parsed.values.help === true,
    flags: new Set(flags.filter((name) => parsed.values[name] === true)),
    texts,
    positionals: parsed.positionals,
  };
}

export function optional(options: Options, name: string): string | undefined {
  return options.texts.get(name)?.[0];
}

/** @throws CliError with exit 2 when it is missing */
export function required(options: Options, name: string): string {
  return optional(options, name) ?? wrongUsage(`--${name}: expected, not given`);
}

/**
 * A text turned into a quantity, the option's name in front of what is wrong with it.
 * @throws CliError with exit 1
 */
export function quantity<Quantity>(name: string, text: string, parse: (text: string) => Quantity): Quantity {
  try {
    return parse(text);
  } catch (error) {
    if (!(error instanceof UnitError)) throw error;
    badInput(`--${name}: ${error.message}`);
  }
}
