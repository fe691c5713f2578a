import type { Piece } from '#shared/garments/types.ts';
import type { Shop } from '#shared/shop/shop.ts';
import type { ImportSource } from '#shared/imports/source.ts';
import type { ImportedLine, ImportPreview, ImportSubject, RefusedLine } from '#shared/wire/office.ts';
import type { StoredOrder } from './orders.ts';
import type { Table, TableRow } from './table.ts';

/** What the store has already. */
export interface Existing {
  readonly pieces: Pick<ReadonlyMap<string, Piece>, 'has' | 'get'>;
  readonly orders: ReadonlyMap<string, StoredOrder>;
  /** every code of the store, where `orders` has only those that a file is about */
  readonly known?: KnownCodes;
  /** reads what a file is about, once it is known */
  readonly lookUp?: (named: NamedInFile) => Promise<void>;
}

export interface KnownCodes {
  readonly isSku: (code: string) => boolean;
  readonly isOrder: (code: string) => boolean;
}

/** What the rows of a file name. */
export interface NamedInFile {
  readonly orders: readonly string[];
  readonly skus: readonly string[];
}

export interface ImportRequest<Subject extends ImportSubject = ImportSubject> {
  readonly fileName: string;
  readonly subject: Subject;
  readonly shop: Shop;
  readonly existing: Existing;
  /** milliseconds since the epoch */
  readonly now: number;
  /** how files of its kind are read, where somebody has said so */
  readonly source?: ImportSource | null;
}

export interface ImportResult<Stored> {
  readonly preview: Omit<ImportPreview, 'id'>;
  /** what was added or changed, ready to store; nothing of a refused record */
  readonly records: readonly Stored[];
}

/** An import that is under way: rows go in one at a time, and then the result comes out. */
export interface RunningImport<Stored> {
  readonly take: (row: TableRow) => void;
  readonly named: () => NamedInFile;
  /** Works a little at each turn, and says how much of the whole is done, from 0 to 1. */
  readonly finishing: () => Generator<number, ImportResult<Stored>>;
}

/** Each list is shown so far, and counted on: nobody reads more lines, and a page could not show them. */
const MOST_LISTED = 500;

/** Sorts records into what they would do. */
export class Outcome<Stored> {
  readonly records: Stored[] = [];
  readonly refused: RefusedLine[] = [];
  readonly #added: ImportedLine[] = [];
  readonly #changed: ImportedLine[] = [];
  readonly #counts = { added: 0, changed: 0 };
  #unchanged = 0;

  sort(line: Omit<ImportedLine, 'changes'>, record: Stored, changes: ImportedLine['changes'] | null): void {
    if (changes?.length === 0) {
      this.#unchanged += 1;
      return;
    }
    this.records.push(record);
    const to = changes === null ? 'added' : 'changed';
    this.#counts[to] += 1;
    if (this.#counts[to] > MOST_LISTED) return;
    if (changes === null) this.#added.push({ ...line, changes: [] });
    else this.#changed.push({ ...line, changes });
  }

  result(request: ImportRequest, table: Table, columns: ImportPreview['columns']): ImportResult<Stored> {
    const preview = {
      subject: request.subject,
      file: request.fileName,
      encoding: table.encoding,
      delimiter: table.delimiter,
      columns,
      source: request.source?.name ?? null,
      added: this.#added,
      changed: this.#changed,
      unchanged: this.#unchanged,
      refused: this.refused.sort((a, b) => a.line - b.line).slice(0, MOST_LISTED),
      counts: { ...this.#counts, refused: this.refused.length },
    };
    return { preview, records: this.records };
  }
}
