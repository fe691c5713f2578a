import { parse } from 'csv-parse/sync';

/** A pasted or saved table that cannot be taken apart into cells. */
export class TableError extends Error {
  override readonly name = 'TableError';
  readonly code: 'empty' | 'not-a-table';

  constructor(code: TableError['code'], message: string) {
    super(message);
    this.code = code;
  }
}

/**
 * The cells of a table: tabs as a spreadsheet pastes them, or CSV with semicolons or commas. Blank lines stay, so that a
 * cell keeps the name that it has in the spreadsheet.
 * @throws TableError empty, or not-a-table when a quote is not closed
 */
export function tableRows(text: string): readonly (readonly string[])[] {
  const bare = text.replace(/^\ufeff/, '');
  if (bare.trim() === '') throw new TableError('empty', 'expected a table of prices; there is nothing');
  try {
    return parse(bare, { delimiter: delimiterOf(bare), relax_column_count: true, skip_empty_lines: false });
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    throw new TableError('not-a-table', `expected a table of cells: ${why}`);
  }
}

/** A price list with decimal commas has commas too, so tabs and semicolons come first. */
function delimiterOf(text: string): '\t' | ';' | ',' {
  const outside = text.replace(/"[^"]*"/g, '');
  return outside.includes('\t') ? '\t' : outside.includes(';') ? ';' : ',';
}
