import { setImmediate } from 'node:timers/promises';
import { finished } from 'node:stream/promises';
import { parse as parseStream } from 'csv-parse';
import { parse } from 'csv-parse/sync';
import type { Content } from './content.ts';
import { decodeText, encodingOf, utf8Of, type Encoding } from './decode.ts';
import { detectDelimiter, type Delimiter } from './delimiter.ts';
import { ImportError } from './import-error.ts';
import { RecordReader, type TableRow } from './records.ts';

export type { TableRow } from './records.ts';

/** Some rows that follow each other, and how much of the file has been read with them, from 0 to 1. */
export interface Slice {
  readonly rows: readonly TableRow[];
  readonly part: number;
}

/** What the beginning of a table shows. */
export interface TableHead {
  readonly encoding: Encoding;
  readonly delimiter: Delimiter;
  readonly header: readonly string[];
  /** line of the file where it stands */
  readonly headerLine: number;
  /** the first few rows after the header that are not empty */
  readonly firstRows: readonly TableRow[];
}

/** A CSV file of any of the usual kinds. */
export interface Table extends TableHead {
  /**
   * The rows after the header that are not empty, in order, some at a time; other work gets its turn in between, and none
   * is kept.
   * @throws ImportError quote-not-closed
   */
  readonly slices: () => AsyncIterable<Slice>;
}

/** A table that is short enough to be read in one go. */
export interface ShortTable extends TableHead {
  /** @throws ImportError quote-not-closed */
  readonly eachRow: (visit: (row: TableRow) => void) => void;
}

/**
 * Opens a table in memory: finds out its encoding and delimiter and reads its header.
 * @param isCut the bytes are only the beginning of a file
 * @throws ImportError empty, header-only, not-a-table or quote-not-closed
 */
export function readTable(bytes: Uint8Array, isCut = false): ShortTable {
  const { text, encoding } = decodeText(bytes, isCut);
  const { delimiter, skipped } = beginningOf(text);
  const utf8 = Buffer.from(text, 'utf8');
  const firstRows: TableRow[] = [];
  readRecords(utf8, delimiter, takeFirst(firstRows, skipped));
  return {
    encoding,
    delimiter,
    ...headed(firstRows),
    eachRow: (visit) => {
      const below = belowHeader(skipped, visit);
      readRecords(utf8, delimiter, (row) => {
        below(row);
        return true;
      });
    },
  };
}

/** So much shows the delimiter; a first line is never that long. */
const BEGINNING_BYTES = 256 * 1024;

/**
 * The same for a file of any length, which is read piece by piece whenever its rows are asked for.
 * @throws ImportError empty, header-only, not-a-table or quote-not-closed
 */
export async function openTable(content: Content): Promise<Table> {
  const { encoding, size } = await encodingOf(content);
  const begun: Buffer[] = [];
  let length = 0;
  let isBlank = true;
  for await (const piece of utf8Of(content, encoding)) {
    if (length < BEGINNING_BYTES) begun.push(piece);
    length += piece.length;
    isBlank &&= piece.toString('latin1').trim() === '';
    if (length >= BEGINNING_BYTES && !isBlank) break;
  }
  if (isBlank) throw emptyTable();
  const { delimiter, skipped } = beginningOf(Buffer.concat(begun).toString('utf8'));
  const firstRows: TableRow[] = [];
  const first = takeFirst(firstRows, skipped);
  const read = (visit: (row: TableRow) => boolean) => readInTurns(utf8Of(content, encoding), delimiter, visit);
  for await (const _ of read(first)) if (firstRows.length > FIRST_ROWS) break;
  return {
    encoding,
    delimiter,
    ...headed(firstRows),
    slices: async function* () {
      let rows: TableRow[] = [];
      const below = belowHeader(skipped, (row) => rows.push(row));
      const visit = (row: TableRow): boolean => {
        below(row);
        return true;
      };
      // What is read is UTF-8, whatever the file is: the part is about right, and never more than all.
      for await (const bytes of read(visit)) {
        const part = Math.min(1, size === 0 ? 1 : bytes / size);
        if (rows.length > 0) yield { rows, part };
        rows = [];
        await setImmediate();
      }
      if (rows.length > 0) yield { rows, part: 1 };
    },
  };
}

const emptyTable = (): ImportError =>
  new ImportError('empty', 'expected a table with a header line; the file is empty');

/** As many as show what a column holds, and where a header is that has other lines above it. */
const FIRST_ROWS = 8;

function beginningOf(text: string): { readonly delimiter: Delimiter; readonly skipped: number } {
  if (text.trim() === '') throw emptyTable();
  // Some spreadsheets write their delimiter in a line of its own before the header.
  const named = /^sep=([,;\t])(?:\r\n|\n|\r)/i.exec(text);
  return named === null
    ? { delimiter: detectDelimiter(text), skipped: 0 }
    : { delimiter: named[1] as Delimiter, skipped: 1 };
}

function takeFirst(rows: TableRow[], skipped: number): (row: TableRow) => boolean {
  return (row) => {
    if (row.line > skipped) rows.push(row);
    return rows.length <= FIRST_ROWS;
  };
}

function headed([first, ...below]: readonly TableRow[]): Pick<TableHead, 'header' | 'headerLine' | 'firstRows'> {
  if (first === undefined) throw emptyTable();
  if (below.length === 0) throw new ImportError('header-only', 'expected lines below the header; there are none');
  return { header: first.cells.map((cell) => cell.trim()), headerLine: first.line, firstRows: below };
}

function belowHeader(skipped: number, visit: (row: TableRow) => void): (row: TableRow) => void {
  let isHeader = true;
  return (row) => {
    if (row.line <= skipped) return;
    if (!isHeader) visit(row);
    isHeader = false;
  };
}

function readRecords(utf8: Buffer, delimiter: Delimiter, visit: (row: TableRow) => boolean): void {
  const reader = new RecordReader(delimiter, visit);
  reader.feed(utf8);
  try {
    parse(utf8, reader.options);
  } catch (error) {
    const problem = reader.problem(error);
    if (problem !== undefined) throw problem;
  }
}

/** About a hundred rows: a few milliseconds. */
const TURN_BYTES = 8 * 1024;

/** Yields after every turn how many bytes were read. */
async function* readInTurns(
  pieces: AsyncIterable<Buffer>,
  delimiter: Delimiter,
  visit: (row: TableRow) => boolean,
): AsyncGenerator<number, void> {
  const reader = new RecordReader(delimiter, visit);
  const parser = parseStream(reader.options);
  const ended = finished(parser.resume());
  // Awaited below; until then a failure must not count as unhandled.
  ended.catch(() => undefined);
  let read = 0;
  try {
    for await (const piece of pieces) {
      for (let at = 0; at < piece.length && !parser.destroyed; at += TURN_BYTES) {
        const turn = piece.subarray(at, at + TURN_BYTES);
        reader.feed(turn);
        parser.write(turn);
        read += turn.length;
        yield read;
      }
      if (parser.destroyed) break;
    }
    if (!parser.destroyed) parser.end();
    try {
      await ended;
    } catch (error) {
      const problem = reader.problem(error);
      if (problem !== undefined) throw problem;
    }
  } finally {
    parser.destroy();
  }
}
