import type { Mass, MassUnit } from '#shared/units/mass.ts';
import { cellName, tidy } from './cell.ts';
import { checkGrid, endsOfZones } from './check-grid.ts';
import { readMassLabel, unitNamed } from './mass-label.ts';
import type { DecimalMark } from './price-cell.ts';
import { decimalIn, readPriceCell } from './price-cell.ts';
import { zonesNamed } from './zone-heading.ts';

/** How a cell was understood. */
export interface UnderstoodCell {
  /** "C7" */
  readonly cell: string;
  readonly text: string;
  readonly as: 'heading' | 'unit' | 'zone' | 'mass' | 'price' | 'blank' | 'wrong';
}

export interface GridProblem {
  readonly cell: string;
  /** a warning can be accepted; an error cannot */
  readonly severity: 'error' | 'warning';
  readonly code:
    | 'no-grid'
    | 'no-unit'
    | 'bad-mass'
    | 'bad-price'
    | 'gap'
    /** the zone has no price from here on: it ends at a lower mass */
    | 'zone-ends'
    | 'repeated-row'
    | 'not-rising'
    | 'falling-price'
    | 'repeated-zone'
    /** more cells than the row of headings has: perhaps decimal commas that were taken for what parts the cells */
    | 'beyond-headings';
  readonly expected: string;
  readonly found: string;
}

export interface GridRow {
  readonly upTo: Mass;
  readonly label: string;
  /** of the table that was read, from 0 */
  readonly row: number;
  /** minor units by zone; null where the cell is blank or wrong */
  readonly prices: readonly (number | null)[];
}

/** A price list by weight and zone, as it was understood. It is a price list only when no problem is an error. */
export interface PriceGrid {
  readonly currency: string;
  readonly zones: readonly { readonly zone: string; readonly column: number }[];
  readonly rows: readonly GridRow[];
  readonly cells: readonly UnderstoodCell[];
  readonly problems: readonly GridProblem[];
}

export interface GridOptions {
  readonly currency: string;
  /** of rows whose label and headings name no unit */
  readonly unit?: MassUnit;
  /** as the table itself shows where it is not said */
  readonly decimal?: DecimalMark;
}

/**
 * Understands a table of cells, as pasted from a spreadsheet or read from CSV: headings, then one row per highest mass with
 * one price per zone. Rows between may name the unit of those below ("Pounds"). Nothing is guessed: what does not make sense
 * is a problem with its cell.
 */
export function readPriceGrid(table: readonly (readonly string[])[], asked: GridOptions): PriceGrid {
  const mark = asked.decimal ?? decimalIn(table, asked.currency);
  const options = { ...asked, decimal: mark };
  const cells: UnderstoodCell[] = [];
  const problems: GridProblem[] = [];
  const top = table.findIndex((row) => isPriceRow(row, options.currency, mark));
  if (top === -1) {
    const found = tidy(table[0]?.join(' ') ?? '').slice(0, 60);
    const expected = 'a row that begins with a mass such as "up to 8 oz" and goes on with prices';
    problems.push({ cell: 'A1', severity: 'error', code: 'no-grid', expected, found });
    return { currency: options.currency, zones: [], rows: [], cells, problems };
  }
  const labelWidth = unitColumn(table, top) ? 2 : 1;
  const { zones, heading } = readHeadings(table.slice(0, top), table.slice(top), labelWidth, cells);
  let unit: MassUnit | null = options.unit ?? null;
  for (const row of table.slice(0, top)) unit = unitNamed(row.slice(0, labelWidth).join(' ')) ?? unit;
  const rows: GridRow[] = [];
  for (const [index, row] of table.entries()) {
    if (index < top || row.every((cell) => tidy(cell) === '')) continue;
    const label = tidy(row.slice(0, labelWidth).join(' '));
    const rest = row.slice(labelWidth);
    const meaning = readMassLabel(label, unit, mark);
    const cell = cellName(index, 0);
    const note = (as: UnderstoodCell['as']): number => cells.push({ cell, text: label, as });
    if (meaning.is === 'other' && rest.every((each) => tidy(each) === '')) {
      unit = unitNamed(label) ?? unit;
      note(unitNamed(label) === null ? 'heading' : 'unit');
      continue;
    }
    if (meaning.is !== 'mass') {
      note('wrong');
      problems.push(labelProblem(cell, label, meaning));
      continue;
    }
    note('mass');
    problems.push(...beyondHeadings(row, index, zones));
    rows.push({
      upTo: meaning.mass,
      label,
      row: index,
      prices: readPrices(row, index, zones, options, cells, problems),
    });
  }
  const grid = { currency: options.currency, zones, rows, cells };
  return { ...grid, problems: [...endsOfZones(problems, zones, rows), ...checkGrid(zones, heading, rows)] };
}

function labelProblem(
  cell: string,
  found: string,
  meaning: Exclude<ReturnType<typeof readMassLabel>, { readonly is: 'mass' }>,
): GridProblem {
  if (meaning.is === 'no-unit') {
    return { cell, severity: 'error', code: 'no-unit', expected: 'a unit of mass, here or in a heading above', found };
  }
  const expected = meaning.is === 'wrong' ? meaning.message : 'a mass such as "up to 8 oz"';
  return { cell, severity: 'error', code: 'bad-mass', expected, found };
}

/** A mass (with or without its unit), then something that is a price or was meant to be one, or "n/a" throughout. */
function isPriceRow(row: readonly string[], currency: string, mark: DecimalMark): boolean {
  const meaning = readMassLabel(row[0] ?? '', 'g', mark);
  if (meaning.is !== 'mass') return false;
  const rest = row.slice(1).filter((cell) => tidy(cell) !== '' && unitOnly(cell) === null);
  // A row of headings may begin with a number as well; whole numbers counting up are zones, not prices.
  const zones = rest.every((cell) => /^(?:zones? ?|zonas? ?)?\d{1,2}$/i.test(tidy(cell)));
  const isNone = (cell: string) => readPriceCell(cell, currency, mark).is === 'blank';
  if (rest.length > 0 && rest.every(isNone)) return true;
  return (
    rest.some((cell) => /\d/.test(cell)) &&
    !(zones && rest.length > 1 && countsUp(rest) && unitNamed(row[0] ?? '') === null)
  );
}

function countsUp(cells: readonly string[]): boolean {
  return cells.every((cell, index) => index === 0 || numberIn(cell) === numberIn(cells[index - 1] ?? '') + 1);
}
const numberIn = (text: string): number => Number(/\d+/.exec(text)?.[0] ?? Number.NaN);

function unitOnly(text: string): MassUnit | null {
  return /^[a-z]+\.?$/i.test(tidy(text)) ? unitNamed(tidy(text)) : null;
}

/** Whether the unit stands in a column of its own, beside the number. */
function unitColumn(table: readonly (readonly string[])[], top: number): boolean {
  return unitOnly(table[top]?.[1] ?? '') !== null;
}

/** Zones from the last heading row that names any, and which row that is; one zone for every column where none does. */
function readHeadings(
  above: readonly (readonly string[])[],
  below: readonly (readonly string[])[],
  labelWidth: number,
  cells: UnderstoodCell[],
): { readonly zones: PriceGrid['zones']; readonly heading: number } {
  const width = Math.max(0, ...below.map((row) => row.length));
  const used = Array.from({ length: width }, (_, column) => column).filter(
    (column) => column >= labelWidth && below.some((row) => tidy(row[column] ?? '') !== ''),
  );
  // A merged title leaves one filled cell and blanks beside it; the row of zones is the lowest with every column filled.
  const full = above.findLastIndex((row) => used.every((column) => zonesNamed(row[column] ?? '').length > 0));
  // Where no row names them all, one that names the first of them says which cells are too many.
  const named = full === -1 ? above.findLastIndex((row) => namesFirst(row, used)) : full;
  // A zone that is named but has no prices is a gap, not a column to leave out.
  const row = above[named] ?? [];
  const columns = [...row.keys()].filter((column) => column >= labelWidth && tidy(row[column] ?? '') !== '');
  if (named === -1) columns.push(...used);
  for (const [index, cellsOfRow] of above.entries()) {
    for (const [column, text] of cellsOfRow.entries()) {
      if (tidy(text) === '') continue;
      const as = index === named && columns.includes(column) ? 'zone' : unitNamed(text) === null ? 'heading' : 'unit';
      cells.push({ cell: cellName(index, column), text, as });
    }
  }
  const zones = columns.flatMap((column) => {
    const names = zonesNamed(row[column] ?? '');
    return (names.length === 0 ? [''] : names).map((zone) => ({ zone, column }));
  });
  // Where no row names any, one above the prices should.
  return { zones, heading: named === -1 ? Math.max(0, above.length - 1) : named };
}

function namesFirst(row: readonly string[], used: readonly number[]): boolean {
  const names = used.map((column) => zonesNamed(row[column] ?? '').length > 0);
  const count = names.filter(Boolean).length;
  return count > 0 && names.slice(0, count).every(Boolean);
}

/** The first cell of a row that stands under no heading. */
function beyondHeadings(row: readonly string[], index: number, zones: PriceGrid['zones']): readonly GridProblem[] {
  const last = Math.max(...zones.map(({ column }) => column));
  const beyond = row.findIndex((cell, column) => column > last && tidy(cell) !== '');
  if (beyond === -1) return [];
  const expected = 'no cell without a heading; were decimal commas taken for what parts the cells?';
  const found = tidy(row[beyond] ?? '');
  return [{ cell: cellName(index, beyond), severity: 'error', code: 'beyond-headings', expected, found }];
}

function readPrices(
  row: readonly string[],
  index: number,
  zones: PriceGrid['zones'],
  options: GridOptions,
  cells: UnderstoodCell[],
  problems: GridProblem[],
): readonly (number | null)[] {
  const byColumn = new Map<number, number | null>();
  for (const column of new Set(zones.map((zone) => zone.column))) {
    const text = row[column] ?? '';
    const cell = cellName(index, column);
    const price = readPriceCell(text, options.currency, options.decimal ?? '.');
    cells.push({ cell, text, as: price.is });
    byColumn.set(column, price.is === 'price' ? price.minor : null);
    if (price.is === 'wrong') {
      problems.push({ cell, severity: 'error', code: 'bad-price', expected: price.expected, found: tidy(text) });
    } else if (price.is === 'blank') {
      const expected = 'a price: every zone needs one in every row';
      problems.push({ cell, severity: 'error', code: 'gap', expected, found: tidy(text) });
    }
  }
  return zones.map((zone) => byColumn.get(zone.column) ?? null);
}
