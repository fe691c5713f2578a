import type { PostcodeRange } from '../postcodes.ts';
import { parsePostcodeRange } from '../postcodes.ts';
import { RatingError } from '../rating-error.ts';
import { cellName, tidy } from './cell.ts';

export interface ChartRow {
  readonly from: PostcodeRange;
  readonly to: PostcodeRange;
  readonly zone: string;
}

export interface ChartProblem {
  readonly cell: string;
  readonly code: 'bad-postcodes' | 'no-zone' | 'two-zones' | 'lost-zeros' | 'no-rows';
  readonly expected: string;
  readonly found: string;
}

export interface ZoneChart {
  readonly rows: readonly ChartRow[];
  readonly problems: readonly ChartProblem[];
}

export interface ChartOptions {
  readonly country: string;
  /** beginning of the postcode from where parcels leave, for charts of two columns: destination and zone */
  readonly origin?: string;
}

/**
 * A carrier's zone chart from a table: origin, destination and zone, each postcode as a beginning ("558") or a range of them
 * ("550-567"); or destination and zone alone for one origin. A first row without digits is a heading. Rows that would give
 * one route two zones are a problem, never a choice.
 */
export function readZoneChart(table: readonly (readonly string[])[], options: ChartOptions): ZoneChart {
  const rows: (ChartRow & { readonly row: number })[] = [];
  const problems: ChartProblem[] = [];
  const wide = options.origin === undefined;
  for (const [index, cells] of table.entries()) {
    if (cells.every((cell) => tidy(cell) === '')) continue;
    if (rows.length === 0 && problems.length === 0 && !cells.some((cell) => /\d/.test(cell))) continue;
    const [origin = '', destination = '', zone = ''] = wide ? cells : [options.origin ?? '', ...cells];
    const column = wide ? 1 : 0;
    const from = readRange(origin, cellName(index, 0), options.country, problems);
    const to = readRange(destination, cellName(index, column), options.country, problems);
    const named = tidy(zone).replace(/^(?:zone|zona)\s+/i, '');
    if (named === '') {
      problems.push({ cell: cellName(index, column + 1), code: 'no-zone', expected: 'a zone', found: '' });
    } else if (from !== null && to !== null) rows.push({ from, to, zone: named, row: index });
  }
  for (const [place, row] of rows.entries()) {
    const other = rows.slice(0, place).find((each) => meet(each, row) && each.zone !== row.zone);
    if (other === undefined) continue;
    problems.push({
      cell: cellName(row.row, wide ? 2 : 1),
      code: 'two-zones',
      expected: `zone ${other.zone}, as row ${String(other.row + 1)} says of some of the same postcodes`,
      found: row.zone,
    });
  }
  if (rows.length === 0 && problems.length === 0) {
    problems.push({ cell: 'A1', code: 'no-rows', expected: 'rows of origin, destination and zone', found: '' });
  }
  return { rows: rows.map(({ from, to, zone }) => ({ from, to, zone })), problems };
}

function readRange(text: string, cell: string, country: string, problems: ChartProblem[]): PostcodeRange | null {
  try {
    const range = parsePostcodeRange(tidy(text));
    if (country !== 'US' || range.first.length >= 3) return range;
    const expected = 'at least three digits; spreadsheets drop leading zeros';
    problems.push({ cell, code: 'lost-zeros', expected, found: tidy(text) });
  } catch (error) {
    if (!(error instanceof RatingError)) throw error;
    const expected = 'a beginning such as 558 or a range such as 550-567';
    problems.push({ cell, code: 'bad-postcodes', expected, found: tidy(text) });
  }
  return null;
}

/** Whether some route falls under both rows. */
function meet(a: ChartRow, b: ChartRow): boolean {
  return overlap(a.from, b.from) && overlap(a.to, b.to);
}

function overlap(a: PostcodeRange, b: PostcodeRange): boolean {
  const length = Math.min(a.first.length, b.first.length);
  const cut = (text: string): string => text.slice(0, length);
  return cut(a.first) <= cut(b.last) && cut(b.first) <= cut(a.last);
}

/** The chart as a zone rule of a rate card's YAML, to stand under `zones:`. */
export function writeZoneRule(rows: readonly ChartRow[], country: string): string {
  const words = ({ first, last }: PostcodeRange): string => JSON.stringify(first === last ? first : `${first}-${last}`);
  return [
    '  - by: chart',
    `    country: ${country}`,
    '    rows:',
    ...rows.map(
      (row) => `      - { from: ${words(row.from)}, to: ${words(row.to)}, zone: ${JSON.stringify(row.zone)} }`,
    ),
    '',
  ].join('\n');
}
