import { existsSync } from 'node:fs';
import { cpus, totalmem } from 'node:os';
import Table from 'cli-table3';
import type { Figure } from './figure.ts';

/** A module of this folder that measures something. */
interface Bench {
  readonly bench: () => Promise<readonly Figure[]>;
}

/** Every benchmark by its name, in the order in which they run; each has a module of that name. */
const NAMES = ['rating', 'planning', 'devices', 'voice', 'bench-ui', 'office', 'day'].filter((name) =>
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

async function main(args: readonly string[]): Promise<number> {
  const json = args.includes('--json');
  const names = args.filter((each) => each !== '--json');
  const unknown = names.find((name) => !NAMES.includes(name));
  if (unknown !== undefined) {
    console.error(`expected one of ${NAMES.join(', ')}; found "${unknown}"`);
    console.error('usage: npm run -s bench -- [NAME]... [--json]');
    return 2;
  }
  const figures: Figure[] = [];
  for (const name of NAMES) {
    if (names.length > 0 && !names.includes(name)) continue;
    const { bench } = (await import(`./${name}.ts`)) as Bench;
    figures.push(...(await bench()));
  }
  console.log(json ? JSON.stringify({ figures }, null, 2) : report(figures));
  return 0;
}

process.exitCode = await main(process.argv.slice(2));
