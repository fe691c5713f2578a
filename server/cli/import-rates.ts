import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { badInput, wrongUsage } from './cli-error.ts';
import type { Command, Outcome, Surroundings } from './command.ts';
import { optional, required, type Options } from './options.ts';
import { shopOption } from './shop-option.ts';
import { table } from './table.ts';
import { decodeText } from '#server/office/imports/decode.ts';
import { isImportError } from '#server/office/imports/import-error.ts';
import { importPriceList } from '#server/office/price-lists/import-price-list.ts';
import { TableError, tableRows } from '#server/office/price-lists/table-rows.ts';
import { writeNew } from '#server/office/rates/card-files.ts';
import { ID, isDay } from '#server/office/rates/draft.ts';
import { cellName } from '#shared/rating/import/cell.ts';
import type { GridProblem, PriceGrid } from '#shared/rating/import/price-grid.ts';
import { LENGTH_UNITS } from '#shared/units/length.ts';
import { MASS_UNITS } from '#shared/units/mass.ts';

function oneOf<Choice extends string>(name: string, text: string, choices: readonly Choice[]): Choice {
  const found = choices.find((each) => each === text);
  return found ?? badInput(`--${name}: expected one of ${choices.join(', ')}; found "${text}"`);
}

function textOf(path: string, { workingFolder, stdin }: Surroundings): string {
  try {
    return decodeText(path === '-' ? stdin() : readFileSync(resolve(workingFolder, path))).text;
  } catch (error) {
    if (isImportError(error)) badInput(`${path}: ${error.message}`);
    badInput(`${path}: ${error instanceof Error ? error.message : String(error)}`);
  }
}

function idOption(options: Options, name: string): string {
  const text = required(options, name);
  return ID.test(text) ? text : badInput(`--${name}: expected lower-case letters, digits and hyphens, found "${text}"`);
}

function dayOf(options: Options): string {
  const day = required(options, 'from');
  return isDay(day) ? day : badInput(`--from: expected a day such as 2026-11-25, found "${day}"`);
}

const line = (file: string, { cell, severity, expected, found }: GridProblem): string =>
  `${file} ${cell}  ${severity === 'warning' ? 'warning: ' : ''}expected ${expected}; found "${found}"`;

const MARKS: Readonly<Record<GridProblem['severity'], string>> = { error: ' <-- wrong', warning: ' <-- look' };

/** The list as a table of cells, each wrong one marked. */
function understood(text: string, grid: PriceGrid): string {
  const rows = tableRows(text);
  const width = Math.max(...rows.map((row) => row.length));
  const head = ['', ...Array.from({ length: width }, (_, column) => cellName(0, column).replace(/\d+$/, ''))];
  const marked = rows.map((row, index) => [
    String(index + 1),
    ...Array.from({ length: width }, (_, column) => {
      const problem = grid.problems.find(({ cell }) => cell === cellName(index, column));
      return `${(row[column] ?? '').trim()}${problem === undefined ? '' : MARKS[problem.severity]}`;
    }),
  ]);
  return table(head, marked);
}

function run(options: Options, surroundings: Surroundings): Outcome {
  const file = options.positionals[0] ?? wrongUsage('expected a file, or - for what comes in');
  const carrier = idOption(options, 'carrier');
  const service = idOption(options, 'service');
  const from = dayOf(options);
  // The shop is asked only for what the options leave out.
  const named = (name: string) => optional(options, name);
  const shop =
    named('currency') === undefined || named('length-unit') === undefined ? shopOption(options, surroundings) : null;
  const currency = named('currency') ?? shop?.currency ?? '';
  if (!/^[A-Z]{3}$/.test(currency)) badInput(`--currency: expected three letters such as USD, found "${currency}"`);
  const massUnit = named('mass-unit');
  const unit = massUnit === undefined ? undefined : oneOf('mass-unit', massUnit, MASS_UNITS);
  const lengthUnit = oneOf('length-unit', named('length-unit') ?? shop?.units.length ?? '', LENGTH_UNITS);
  const decimal = oneOf('decimal', named('decimal') ?? '.', ['.', ',']);
  const names = (text: string) => ({ en: text, es: text });
  const text = textOf(file, surroundings);
  const head = {
    carrier,
    name: names(named('card-name') ?? carrier),
    service,
    serviceName: names(named('service-name') ?? service),
    units: { mass: unit ?? shop?.units.mass ?? 'oz', length: lengthUnit },
    from,
    ...(file === '-' ? {} : { source: file }),
  } as const;
  try {
    const accept = options.flags.has('accept-warnings');
    const { grid, yaml } = importPriceList(
      text,
      { currency, decimal, ...(unit === undefined ? {} : { unit }) },
      head,
      accept,
    );
    const problems = yaml === null ? grid.problems : [];
    const out = named('out');
    if (out !== undefined && yaml !== null) writeOut(resolve(surroundings.workingFolder, out), out, yaml);
    const counted = `${grid.rows.length} brackets x ${grid.zones.length} zones`;
    const shown = yaml === null ? understood(text, grid) : out === undefined ? yaml.trimEnd() : `${out}: ${counted}`;
    return {
      document: {
        carrier,
        service,
        from,
        currency,
        zones: grid.zones.map(({ zone }) => zone),
        cells: grid.cells,
        problems: grid.problems,
        card: yaml,
        ...(out === undefined || yaml === null ? {} : { file: out }),
      },
      text: shown,
      complaints: problems.map((problem) => line(file, problem)),
    };
  } catch (error) {
    if (!(error instanceof TableError)) throw error;
    badInput(`${file}: ${error.message}`);
  }
}

function writeOut(path: string, name: string, yaml: string): void {
  try {
    if (writeNew(path, yaml)) return;
  } catch (error) {
    badInput(`--out: ${error instanceof Error ? error.message : String(error)}`);
  }
  badInput(`--out: ${name} is there already; name a new file`);
}

/** A price list by weight and zone into a rate card. */
export const importRatesCommand: Command = {
  usage: `import-rates FILE|- --carrier ID --service ID --from YYYY-MM-DD [--currency USD]
    [--mass-unit oz|lb|g|kg] [--length-unit in|cm|mm] [--decimal .|,] [--card-name TEXT]
    [--service-name TEXT] [--accept-warnings] [--out FILE] [--config FOLDER]`,
  options: [
    'carrier',
    'service',
    'from',
    'currency',
    'mass-unit',
    'length-unit',
    'decimal',
    'card-name',
    'service-name',
    'out',
    'config',
  ],
  flags: ['accept-warnings'],
  positionals: 1,
  run,
};
