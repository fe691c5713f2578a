import { finished } from 'node:stream/promises';
import { setImmediate } from 'node:timers/promises';
import { parse as parseStream } from 'csv-parse';
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
  /** line of the file where it stands */
  readonly headerLine: number;
  /** the first few rows after the header that are not empty */
  readonly firstRows: readonly TableRow[];
  /**
   * Visits the rows after the header that are not empty, in order.
   * @throws ImportError quote-not-closed
   */
  readonly eachRow: (visit: (row: TableRow) => void) => void;
  /** The same, but other work gets its turn every few milliseconds. */
  readonly eachRowInTurns: (
    visit: (row: TableRow) => void,
    /** told how many bytes of how many were read */
    progress?: (done: number, of: number) => void,
  ) => Promise<void>;
}

/**
 * Opens a table file: finds out its encoding and delimiter and reads its header.
 * @param isCut the bytes are only the beginning of a file
 * @throws ImportError empty, header-only, not-a-table or quote-not-closed
 */
export function readTable(bytes: Uint8Array, isCut = false): Table {
  const { text, encoding } = decodeText(bytes, isCut);
  if (text.trim() === '') throw new ImportError('empty', 'expected a table with a header line; the file is empty');
  // Some spreadsheets write their delimiter in a line of its own before the header.
  const named = /^sep=([,;\t])(?:\r\n|\n|\r)/i.exec(text);
  const delimiter = named === null ? detectDelimiter(text) : (named[1] as Delimiter);
  const utf8 = Buffer.from(text, 'utf8');

  const skipped = named === null ? 0 : 1;
  const firstRows: TableRow[] = [];
  readRecords(utf8, delimiter, (row) => {
    if (row.line > skipped) firstRows.push(row);
    return firstRows.length <= FIRST_ROWS;
  });
  const header = firstRows[0]?.cells.map((cell) => cell.trim());
  if (header === undefined) throw new ImportError('empty', 'expected a table with a header line; the file is empty');
  if (firstRows.length < 2) throw new ImportError('header-only', 'expected lines below the header; there are none');
  const belowHeader = (visit: (row: TableRow) => void): ((row: TableRow) => boolean) => {
    let isHeader = true;
    return (row) => {
      if (row.line <= skipped) return true;
      if (!isHeader) visit(row);
      isHeader = false;
      return true;
    };
  };
  return {
    encoding,
    delimiter,
    header,
    headerLine: firstRows[0]?.line ?? 1,
    firstRows: firstRows.slice(1),
    eachRow: (visit) => {
      readRecords(utf8, delimiter, belowHeader(visit));
    },
    eachRowInTurns: (visit, progress) => readRecordsInTurns(utf8, delimiter, belowHeader(visit), progress),
  };
}

/** As many as show what a column holds, and where a header is that has other lines above it. */
const FIRST_ROWS = 8;

/** Thrown to leave the parser early; it has no other way out. */
const ENOUGH = Symbol('enough');

/** Takes records from the parser, counts their lines and passes on those that are not empty. */
class RecordReader {
  readonly options: Options;
  readonly #utf8: Buffer;
  #line = 1;
  #offset = 0;

  /** @param visit returns false when it has seen enough */
  constructor(utf8: Buffer, delimiter: Delimiter, visit: (row: TableRow) => boolean) {
    this.#utf8 = utf8;
    this.options = {
      delimiter,
      record_delimiter: ['\r\n', '\n', '\r'],
      relax_column_count: true,
      relax_quotes: true,
      skip_empty_lines: false,
      on_record: (cells: string[], { bytes }) => {
        const line = this.#line;
        this.#advance(bytes);
        if (cells.some((cell) => cell.trim() !== '') && !visit({ line, cells })) throw ENOUGH as unknown as Error;
        return null;
      },
    };
  }

  /** What went wrong as an {@link ImportError} with the line of the record; undefined when nothing did. */
  problem(error: unknown): Error | undefined {
    if (error === ENOUGH) return undefined;
    if (!(error instanceof CsvError)) return error instanceof Error ? error : new Error(String(error));
    const place = `line ${String(this.#line)}: expected`;
    if (error.code === 'CSV_QUOTE_NOT_CLOSED') {
      const message = `${place} every quoted cell to end with a quote; one of this record does not`;
      return new ImportError('quote-not-closed', message, this.#line);
    }
    return new ImportError('not-a-table', `${place} a CSV record; ${error.message}`, this.#line);
  }

  /** Counts line breaks, since the parser's own count takes one of two characters inside quotes for two. */
  #advance(to: number): void {
    for (let index = this.#offset; index < to; index += 1) {
      const byte = this.#utf8[index];
      if (byte === LF || (byte === CR && this.#utf8[index + 1] !== LF)) this.#line += 1;
    }
    this.#offset = to;
  }
}

function readRecords(utf8: Buffer, delimiter: Delimiter, visit: (row: TableRow) => boolean): void {
  const reader = new RecordReader(utf8, delimiter, visit);
  try {
    parse(utf8, reader.options);
  } catch (error) {
    const problem = reader.problem(error);
    if (problem !== undefined) throw problem;
  }
}

/** About a hundred rows: a few milliseconds. */
const TURN_BYTES = 8 * 1024;

async function readRecordsInTurns(
  utf8: Buffer,
  delimiter: Delimiter,
  visit: (row: TableRow) => boolean,
  progress?: (done: number, of: number) => void,
): Promise<void> {
  const reader = new RecordReader(utf8, delimiter, visit);
  const parser = parseStream(reader.options);
  const ended = finished(parser.resume());
  // Awaited below; until then a failure must not count as unhandled.
  ended.catch(() => undefined);
  for (let offset = 0; offset < utf8.length && !parser.destroyed; offset += TURN_BYTES) {
    parser.write(utf8.subarray(offset, offset + TURN_BYTES));
    progress?.(Math.min(offset + TURN_BYTES, utf8.length), utf8.length);
    await setImmediate();
  }
  if (!parser.destroyed) parser.end();
  try {
    await ended;
  } catch (error) {
    const problem = reader.problem(error);
    if (problem !== undefined) throw problem;
  }
}

const LF = 10;
const CR = 13;
