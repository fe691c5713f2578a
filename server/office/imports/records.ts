import { CsvError, type Options } from 'csv-parse/sync';
import type { Delimiter } from './delimiter.ts';
import { ImportError } from './import-error.ts';

export interface TableRow {
  /** line of the file, counted from 1, where the record starts */
  readonly line: number;
  readonly cells: readonly string[];
}

/** Thrown to leave the parser early; it has no other way out. */
const ENOUGH = Symbol('enough');

/** Takes records from the parser, counts their lines and passes on those that are not empty. */
export class RecordReader {
  readonly options: Options;
  /** the bytes that were fed and not counted yet */
  #fed: Buffer = Buffer.alloc(0);
  #line = 1;
  #offset = 0;

  /** @param visit returns false when it has seen enough */
  constructor(delimiter: Delimiter, visit: (row: TableRow) => boolean) {
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

  /** Told the bytes that the parser gets next. */
  feed(utf8: Buffer): void {
    this.#fed = this.#fed.length === 0 ? utf8 : Buffer.concat([this.#fed, utf8]);
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
    const count = to - this.#offset;
    for (let index = 0; index < count; index += 1) {
      const byte = this.#fed[index];
      if (byte === LF || (byte === CR && this.#fed[index + 1] !== LF)) this.#line += 1;
    }
    this.#fed = this.#fed.subarray(count);
    this.#offset = to;
  }
}

const LF = 10;
const CR = 13;
