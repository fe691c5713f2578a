import { existsSync } from 'node:fs';
import { cpus, totalmem } from 'node:os';
import Table from 'cli-table3';
import { parseArgs } from 'node:util';
import type { Figure } from './figure.ts';
import type { BenchOptions } from './options.ts';

/** A module of this folder that measures something. */
interface Bench {
  readonly bench: (options: BenchOptions) => Promise<readonly Figure[]>;
}

/** Every benchmark by its name, in the order in which they run; each has a module of that name. */
const NAMES = ['rating', 'planning', 'devices', 'voice', 'bench-ui', 'office', 'faults', 'day'].filter((name) =>
  existsSync(new URL(`./${name}.ts`, import.meta.url)),
);

function shown(value: number): string {
  if (value >= 1000) return Math.round(value).toLocaleString('en');
  return Number(value.toPrecision(3)).toString();
}

function report(figures: readonly Figure[]): string {
  const drawn = new Table({
    head: ['bench', 'what', 'value', 'unit', 'goal', '', 'against'],
    style: { head: [], border: [], compact: true },
  });
  for (const { bench, name, value, unit, goal, met, against } of figures) {
    drawn.push([
      bench,
      name,
      shown(value),
      unit,
      goal === null ? '' : shown(goal),
      met === null ? '' : met ? 'met' : 'not met',
      against,
    ]);
  }
  const [processor] = cpus();
  const machine = `${processor?.model ?? 'unknown processor'}, ${String(cpus().length)} cores, ${String(Math.round(totalmem() / 2 ** 30))} GB, Node ${process.version}`;
  return `${machine}\n${drawn.toString()}`;
}

const USAGE = 'usage: npm run -s bench -- [NAME]... [--json] [--whole] [--set FOLDER]';

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
  for (const name of NAMES) {
    if (names.length > 0 && !names.includes(name)) continue;
    const { bench } = (await import(`./${name}.ts`)) as Bench;
    figures.push(...(await bench(options)));
  }
  console.log(json ? JSON.stringify({ figures }, null, 2) : report(figures));
  return 0;
}

function optionsOf(args: readonly string[]) {
  try {
    const { values, positionals } = parseArgs({
      args: [...args],
      options: { json: { type: 'boolean' }, whole: { type: 'boolean' }, set: { type: 'string' } },
      allowPositionals: true,
    });
    const { json = false, whole = false, set = null } = values;
    return { names: positionals, json, options: { whole, set } };
  } catch (error) {
    console.error(error instanceof Error ? error.message : String(error));
    console.error(USAGE);
    return null;
  }
}

process.exitCode = await main(process.argv.slice(2));
