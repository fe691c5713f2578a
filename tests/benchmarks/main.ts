import { existsSync } from 'node:fs';
import { relative } from 'node:path';
import { parseArgs } from 'node:util';
import type { Figure } from './figure.ts';
import { circumstances, keep, KEPT, machine } from './kept-figures.ts';
import type { BenchOptions } from './options.ts';
import { figuresTable } from './table.ts';

/** A module of this folder that measures something. */
interface Bench {
  readonly bench: (options: BenchOptions) => Promise<readonly Figure[]>;
}

/** Every benchmark by its name, in the order in which they run; each has a module of that name. */
const NAMES = ['rating', 'planning', 'devices', 'bench-ui', 'office', 'day', 'faults', 'servers', 'voice'].filter(
  (name) => existsSync(new URL(`./${name}.ts`, import.meta.url)),
);

const USAGE =
  'usage: npm run -s bench -- [NAME]... [--json] [--whole | --short] [--set FOLDER] [--profiles FOLDER] [--only PART]...';

async function main(args: readonly string[]): Promise<number> {
  const read = optionsOf(args);
  if (read === null) return 2;
  const { names, json, options } = read;
  const unknown = names.find((name) => !NAMES.includes(name));
  if (unknown !== undefined) {
    console.error(`expected one of ${NAMES.join(', ')}; found "${unknown}"`);
    console.error(USAGE);
    return 2;
  }
  const figures: Figure[] = [];
  let failed = 0;
  for (const name of NAMES) {
    if (names.length > 0 && !names.includes(name)) continue;
    const before = circumstances();
    const began = performance.now();
    const { measured, failure } = await run(name, options);
    const seconds = Math.round((performance.now() - began) / 100) / 10;
    // A part would stand there as if it were all.
    if (options.only.length === 0 && !options.short)
      keep({ bench: name, ...before, seconds, figures: measured, failure });
    figures.push(...measured);
    if (failure !== null) {
      failed += 1;
      console.error(`${name} did not end: ${failure}`);
    } else if (!json) console.error(`${name}: ${String(seconds)} s`);
  }
  if (json) console.log(JSON.stringify({ figures }, null, 2));
  else {
    console.log(`${machine()}\n${figuresTable(figures)}`);
    console.log(`The last run of every benchmark is kept in ${relative(process.cwd(), KEPT)}.`);
  }
  return failed > 0 ? 1 : 0;
}

/** One that fails takes nothing from the others: theirs may have cost half an hour. */
async function run(name: string, options: BenchOptions) {
  try {
    const { bench } = (await import(`./${name}.ts`)) as Bench;
    return { measured: await bench(options), failure: null };
  } catch (error) {
    return { measured: [], failure: error instanceof Error ? (error.stack ?? error.message) : String(error) };
  }
}

function optionsOf(args: readonly string[]) {
  try {
    const { values, positionals } = parseArgs({
      args: [...args],
      options: {
        json: { type: 'boolean' },
        whole: { type: 'boolean' },
        short: { type: 'boolean' },
        profiles: { type: 'string' },
        set: { type: 'string' },
        only: { type: 'string', multiple: true },
      },
      allowPositionals: true,
    });
    const { json = false, whole = false, short = false, profiles, set = null, only = [] } = values;
    return { names: positionals, json, options: { whole, short, profiles, set, only } };
  } catch (error) {
    console.error(error instanceof Error ? error.message : String(error));
    console.error(USAGE);
    return null;
  }
}

process.exitCode = await main(process.argv.slice(2));
