import { readFileSync } from 'node:fs';
import { relative, resolve } from 'node:path';
import { badInput, wrongUsage } from './cli-error.ts';
import type { Command, Outcome, Surroundings } from './command.ts';
import { optional, required, type Options } from './options.ts';
import { configFolder, shopOption } from './shop-option.ts';
import { recorded } from './record.ts';
import { dataFolder } from './shop-store.ts';
import { table } from './table.ts';
import { ZONE_OPTIONS, zoneOptions } from './zone-options.ts';
import { formatProblems } from '#config/config-error.ts';
import { rateCardSchema } from '#config/schema/rate-card.ts';
import { parseSource } from '#config/source-file.ts';
import { validate } from '#config/validate.ts';
import { decodeText } from '#server/office/imports/decode.ts';
import { isImportError } from '#server/office/imports/import-error.ts';
import { importPriceList } from '#server/office/price-lists/import-price-list.ts';
import { TableError, tableRows } from '#server/office/price-lists/table-rows.ts';
import { writeNew } from '#server/office/rates/card-files.ts';
import { cardBefore, ID, isDay, type Former } from '#server/office/rates/draft.ts';
import { wholeCard } from '#server/office/rates/whole-card.ts';
import { chosenZones } from '#server/office/rates/zone-choice.ts';
import { daysLater } from '#shared/rating/day.ts';
import { cellName } from '#shared/rating/import/cell.ts';
import type { ChartProblem } from '#shared/rating/import/zone-chart.ts';
import type { GridProblem, PriceGrid } from '#shared/rating/import/price-grid.ts';
import { LENGTH_UNITS } from '#shared/units/length.ts';
import type { Day } from '#shared/rating/types.ts';
import { MASS_UNITS } from '#shared/units/mass.ts';
import type { ZoneChoice } from '#shared/wire/rates.ts';

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

const line = (file: string, problem: GridProblem | ChartProblem): string => {
  const { cell, expected, found } = problem;
  const warning = 'severity' in problem && problem.severity === 'warning' ? 'warning: ' : '';
  return `${file} ${cell}  ${warning}expected ${expected}; found "${found}"`;
};

/** The card that sells the service until the new one begins, where an option asks for something of it. */
function formerOption(options: Options, surroundings: Surroundings, service: string, from: Day): Former | null {
  const asking = ['zones-before', 'carry-over'].find((name) => options.flags.has(name));
  if (asking === undefined) return null;
  const folder = configFolder(optional(options, 'config'), surroundings);
  const day = daysLater(from, -1);
  return (
    cardBefore(folder, service, day, '') ?? badInput(`--${asking}: no card of ${folder} sells "${service}" on ${day}`)
  );
}

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

async function run(options: Options, surroundings: Surroundings): Promise<Outcome> {
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
  const mark = named('decimal');
  const decimal = mark === undefined ? {} : { decimal: oneOf('decimal', mark, ['.', ',']) };
  const names = (text: string) => ({ en: text, es: text });
  const text = textOf(file, surroundings);
  const former = formerOption(options, surroundings, service, from);
  const choice = zoneOptions(
    options,
    () => (shop ?? shopOption(options, surroundings)).from.country,
    (chart) => textOf(chart, surroundings),
  );
  const head = {
    carrier,
    name: former?.card.name ?? names(named('card-name') ?? carrier),
    service,
    serviceName: former?.service.name ?? names(named('service-name') ?? service),
    units: former?.card.units ?? { mass: unit ?? shop?.units.mass ?? 'oz', length: lengthUnit },
    from,
    ...(file === '-' ? {} : { source: file }),
  } as const;
  try {
    const accept = options.flags.has('accept-warnings');
    const { grid, yaml: bare } = importPriceList(
      text,
      { currency, ...decimal, ...(unit === undefined ? {} : { unit }) },
      head,
      accept,
    );
    const zones = chosenZones(choice);
    if (zones.wrong !== null) badInput(`${ZONE_OPTION[choice.by]}: this makes no sense: "${zones.wrong}"`);
    const yaml =
      bare === null || zones.chartProblems.length > 0
        ? null
        : wholeCard(bare, {
            former: former === null ? null : { ...former, day: daysLater(from, -1) },
            carryOver: options.flags.has('carry-over'),
            choice: choice.by,
            zones: zones.rules,
          });
    if (yaml !== null) checkCard(yaml);
    const chart = named('chart') ?? '';
    const problems = bare === null ? grid.problems : [];
    const out = named('out');
    const unrecorded = out === undefined || yaml === null ? [] : await writeOut(out, yaml, options, surroundings);
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
        chartProblems: zones.chartProblems,
        card: yaml,
        ...(out === undefined || yaml === null ? {} : { file: out }),
      },
      text: shown,
      complaints: [
        ...problems.map((problem) => line(file, problem)),
        ...zones.chartProblems.map((problem) => line(chart, problem)),
        ...unrecorded,
      ],
    };
  } catch (error) {
    if (!(error instanceof TableError)) throw error;
    badInput(`${file}: ${error.message}`);
  }
}

const ZONE_OPTION: Readonly<Record<ZoneChoice['by'], string>> = {
  flat: '--zone',
  distance: '--band',
  chart: '--country',
  'as-before': '--zones-before',
  'given-only': '--zone',
};

/** What came over from the card before may not fit the new prices. */
function checkCard(yaml: string): void {
  const read = parseSource('the card', yaml);
  const valid = read.ok ? validate(read.source, rateCardSchema) : read;
  if (!valid.ok) badInput(formatProblems(valid.problems));
}

/** A card that is written into the shop's own folder is a change of its prices, and in its record. */
async function writeOut(
  name: string,
  yaml: string,
  options: Options,
  surroundings: Surroundings,
): Promise<readonly string[]> {
  const path = resolve(surroundings.workingFolder, name);
  let isWritten: boolean;
  try {
    isWritten = writeNew(path, yaml);
  } catch (error) {
    badInput(`--out: ${error instanceof Error ? error.message : String(error)}`);
  }
  if (!isWritten) badInput(`--out: ${name} is there already; name a new file`);
  const about = relative(configFolder(optional(options, 'config'), surroundings), path);
  if (about.startsWith('..')) return [];
  const place =
    surroundings.database == null ? { data: dataFolder(options, surroundings) } : { database: surroundings.database };
  return recorded({ what: 'prices-imported', about }, surroundings, place);
}

/** A price list by weight and zone into a rate card. */
export const importRatesCommand: Command = {
  usage: `import-rates FILE|- --carrier ID --service ID --from YYYY-MM-DD [--currency USD]
    [--mass-unit oz|lb|g|kg] [--length-unit in|cm|mm] [--decimal .|,] [--card-name TEXT]
    [--service-name TEXT] [--accept-warnings] [--out FILE] [--config FOLDER]
    [--zone ZONE | --band "150 1" ... [--distance-unit mi|km] | --chart FILE [--origin POSTCODE] | --zones-before]
    [--country US] [--carry-over]`,
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
    ...ZONE_OPTIONS,
  ],
  repeatable: ['band'],
  flags: ['accept-warnings', 'zones-before', 'carry-over'],
  positionals: 1,
  run,
};
