import { CsvError, parse, type Options } from 'csv-parse/sync';
import { decodeText, type Encoding } from './decode.ts';
import { detectDelimiter, type Delimiter } from './delimiter.ts';
import { ImportError } from './import-error.ts';

export interface TableRow {
  /** line of the file, counted from 1, where the record starts */
  readonly line: number;
  readonly cells: readonly string[];
}

/** A CSV file of any of the usual kinds. Its rows are read one at a time and not kept. */
export interface Table {
  readonly encoding: Encoding;
  readonly delimiter: Delimiter;
  readonly header: readonly string[];
  /**
   * Visits the rows after the header that are not empty, in order.
   * @throws ImportError quote-not-closed
   */
  readonly eachRow: (visit: (row: TableRow) => void) => void;
}

/**
 * Opens a table file: finds out its encoding and delimiter and reads its header.
 * @throws ImportError empty, header-only, not-a-table or quote-not-closed
 */
export function readTable(bytes: Uint8Array): Table {
  const { text, encoding } = decodeText(bytes);
  if (text.trim() === '') throw new ImportError('empty', 'expected a table with a header line; the file is empty');
  // Some spreadsheets write their delimiter in a line of its own before the header.
  const named = /^sep=([,;\t])(?:\r\n|\n|\r)/i.exec(text);
  const delimiter = named === null ? detectDelimiter(text) : (named[1] as Delimiter);
  const utf8 = Buffer.from(text, 'utf8');

  const skipped = named === null ? 0 : 1;
  const firstRows: TableRow[] = [];
  readRecords(utf8, { delimiter }, (row) => {
    if (row.line > skipped) firstRows.push(row);
    return firstRows.length < 2;
  });
  const header = firstRows[0]?.cells.map((cell) => cell.trim());
  if (header === undefined) throw new ImportError('empty', 'expected a table with a header line; the file is empty');
  if (firstRows.length < 2) throw new ImportError('header-only', 'expected lines below the header; there are none');
  return {
    encoding,
    delimiter,
    header,
    eachRow: (visit) => {
      let isHeader = true;
      readRecords(utf8, { delimiter }, (row) => {
        if (row.line <= skipped) return true;
        if (!isHeader) visit(row);
        isHeader = false;
        return true;
      });
    },
  };
}

/** Thrown to leave the parser early; it has no other way out. */
const ENOUGH = Symbol('enough');

/** Feeds every record that is not empty to `visit` until that returns false. */
function readRecords(utf8: Buffer, options: Options, visit: (row: TableRow) => boolean): void {
  let line = 1;
  let offset = 0;
  try {
    parse(utf8, {
      ...options,
      record_delimiter: ['\r\n', '\n', '\r'],
      relax_column_count: true,
      relax_quotes: true,
      skip_empty_lines: false,
      on_record: (cells: string[], { bytes }) => {
        // The parser's own line count takes a line break of two characters inside quotes for two.
        const row = { line, cells };
        line += lineBreaks(utf8, offset, bytes);
        offset = bytes;
        if (cells.some((cell) => cell.trim() !== '') && !visit(row)) throw ENOUGH as unknown as Error;
        return null;
      },
    });
  } catch (error) {
    if (error === ENOUGH) return;
    if (!(error instanceof CsvError)) throw error;
    if (error.code === 'CSV_QUOTE_NOT_CLOSED') {
      const message = `line ${String(line)}: expected every quoted cell to end with a quote; one of this record does not`;
      throw new ImportError('quote-not-closed', message, line);
    }
    throw new ImportError('not-a-table', `line ${String(line)}: expected a CSV record; ${error.message}`, line);
  }
}

const LF = 10;
const CR = 13;

function lineBreaks(utf8: Buffer, from: number, to: number): number {
  let count = 0;
  for (let index = from; index < to; index += 1) {
    const byte = utf8[index];
    if (byte === LF || (byte === CR && utf8[index + 1] !== LF)) count += 1;
  }
  return count;
}
