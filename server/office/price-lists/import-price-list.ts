import type { GridOptions, PriceGrid } from '#shared/rating/import/price-grid.ts';
import { readPriceGrid } from '#shared/rating/import/price-grid.ts';
import type { CardHead } from '#shared/rating/import/write-card.ts';
import { writeCard } from '#shared/rating/import/write-card.ts';
import { tableRows } from './table-rows.ts';

export interface ImportedPriceList {
  /** every cell as it was understood, and what makes no sense */
  readonly grid: PriceGrid;
  /** the commented rate card; null while the list has an error, or a warning that was not accepted */
  readonly yaml: string | null;
}

/**
 * A pasted or saved price list by weight and zone, to look over and to keep. Stores nothing.
 * @param acceptWarnings the prices that fall as the mass grows are meant
 * @throws TableError when the text is no table
 */
export function importPriceList(
  text: string,
  options: GridOptions,
  head: CardHead,
  acceptWarnings = false,
): ImportedPriceList {
  const grid = readPriceGrid(tableRows(text), options);
  const stopped = grid.problems.some((problem) => problem.severity === 'error' || !acceptWarnings);
  return { grid, yaml: stopped ? null : writeCard(grid, head, acceptWarnings) };
}
