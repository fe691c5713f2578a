import { cellName } from './cell.ts';
import type { GridProblem, GridRow, PriceGrid } from './price-grid.ts';

/** What is wrong with rows and zones taken together. */
export function checkGrid(
  zones: PriceGrid['zones'],
  heading: number,
  rows: readonly GridRow[],
): readonly GridProblem[] {
  return [...zoneProblems(zones, heading), ...rowProblems(rows), ...falls(zones, rows)];
}

/**
 * Gaps at the heavy end of a zone are a zone that ends at a lower mass: to look at, and to accept. A zone without any price
 * stays a gap, as does one between prices.
 */
export function endsOfZones(
  problems: readonly GridProblem[],
  zones: PriceGrid['zones'],
  rows: readonly GridRow[],
): readonly GridProblem[] {
  const ends = new Set<string>();
  for (const [place, { column }] of zones.entries()) {
    const last = rows.findLastIndex((row) => row.prices[place] !== null);
    if (last === -1) continue;
    for (const row of rows.slice(last + 1)) ends.add(cellName(row.row, column));
  }
  return problems.map((problem) =>
    problem.code === 'gap' && ends.has(problem.cell)
      ? {
          ...problem,
          severity: 'warning',
          code: 'zone-ends',
          expected: 'a price, unless the zone is not served at this mass',
        }
      : problem,
  );
}

function zoneProblems(zones: PriceGrid['zones'], heading: number): readonly GridProblem[] {
  const unnamed = zones.length > 1 ? zones.filter(({ zone }) => zone === '') : [];
  const repeated = zones.filter(
    ({ zone }, index) => zone !== '' && zones.findIndex((other) => other.zone === zone) !== index,
  );
  return [...unnamed, ...repeated].map(({ zone, column }) => ({
    cell: cellName(heading, column),
    severity: 'error',
    code: 'repeated-zone',
    expected: 'a heading that names a zone of its own for every column of prices',
    found: zone,
  }));
}

function rowProblems(rows: readonly GridRow[]): readonly GridProblem[] {
  const problems: GridProblem[] = [];
  for (const [index, row] of rows.entries()) {
    const before = rows[index - 1];
    const cell = cellName(row.row, 0);
    const same = rows.slice(0, index).find((other) => other.upTo === row.upTo);
    if (same !== undefined) {
      const expected = `every mass once; ${cellName(same.row, 0)} has it too`;
      problems.push({ cell, severity: 'error', code: 'repeated-row', expected, found: row.label });
    } else if (before !== undefined && row.upTo < before.upTo) {
      const expected = `more than "${before.label}" in the row before`;
      problems.push({ cell, severity: 'error', code: 'not-rising', expected, found: row.label });
    }
  }
  return problems;
}

function falls(zones: PriceGrid['zones'], rows: readonly GridRow[]): readonly GridProblem[] {
  const problems: GridProblem[] = [];
  for (const [index, row] of rows.entries()) {
    for (const [place, price] of row.prices.entries()) {
      const before = rows[index - 1]?.prices[place] ?? null;
      if (price === null || before === null || price >= before) continue;
      const cell = cellName(row.row, zones[place]?.column ?? 0);
      if (problems.some((problem) => problem.cell === cell)) continue;
      const expected = `at least ${decimal(before)}, the price of the row before`;
      problems.push({ cell, severity: 'warning', code: 'falling-price', expected, found: decimal(price) });
    }
  }
  return problems;
}

/** Minor units with two decimals. */
export function decimal(minor: number): string {
  return `${String(Math.floor(minor / 100))}.${String(minor % 100).padStart(2, '0')}`;
}
