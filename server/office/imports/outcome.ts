import type { Shop } from '#shared/shop/shop.ts';
import type { Language } from '#shared/words/language.ts';
import type { ImportSource } from '#shared/imports/source.ts';
import type { ImportedLine, ImportPreview, ImportSubject, RefusedLine } from '#shared/wire/office.ts';
import type { Existing } from './existing.ts';
import { KeptRecords } from './kept-records.ts';
import type { Scratch } from './scratch.ts';
import type { Slice, Table } from './table.ts';

export interface ImportRequest<Subject extends ImportSubject = ImportSubject> {
  readonly fileName: string;
  readonly subject: Subject;
  readonly shop: Shop;
  readonly existing: Existing;
  /** milliseconds since the epoch */
  readonly now: number;
  /** how files of its kind are read, where somebody has said so */
  readonly source?: ImportSource | null;
  /** in which the shop's own things are named; by their ids without it */
  readonly language?: Language;
}

export interface ImportResult<Stored> {
  readonly preview: Omit<ImportPreview, 'id'>;
  /** what was added or changed, ready to store; nothing of a refused record */
  readonly records: KeptRecords<Stored>;
}

/** An import that is under way: slices of rows go in one after the other, and then the result comes out. */
export interface RunningImport<Stored> {
  readonly take: (slice: Slice) => Promise<void>;
  /** Works a little at each turn, and is told of how much of the whole is done, from 0 to 1. */
  readonly finish: (progress: (part: number) => void) => Promise<ImportResult<Stored>>;
}

/** Each list is shown so far, and counted on: nobody reads more lines, and a page could not show them. */
const MOST_LISTED = 500;

/** Sorts records into what they would do. */
export class Outcome<Stored> {
  readonly records: KeptRecords<Stored>;
  readonly #scratch: Scratch;
  readonly #added: ImportedLine[] = [];
  readonly #changed: ImportedLine[] = [];
  readonly #counts = { added: 0, changed: 0, refused: 0 };
  #unchanged = 0;

  constructor(scratch: Scratch) {
    this.#scratch = scratch;
    this.records = new KeptRecords(scratch);
  }

  /** @param skus of an order: what it asks for */
  sort(
    line: Omit<ImportedLine, 'changes'>,
    record: Stored,
    changes: ImportedLine['changes'] | null,
    skus: readonly string[] = [],
  ): void {
    if (changes?.length === 0) {
      this.#unchanged += 1;
      return;
    }
    this.records.add(line.id, record, skus);
    const to = changes === null ? 'added' : 'changed';
    this.#counts[to] += 1;
    if (this.#counts[to] > MOST_LISTED) return;
    if (changes === null) this.#added.push({ ...line, changes: [] });
    else this.#changed.push({ ...line, changes });
  }

  refuse(refused: readonly RefusedLine[]): void {
    for (const { line, column, expected, found } of refused) {
      this.#counts.refused += 1;
      this.#scratch.run(
        'insert into refusal (line, col, expected, found) values (?, ?, ?, ?)',
        ...[line, column, expected, found],
      );
    }
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
      refused: this.#scratch.all<RefusedLine>(
        'select line, col as "column", expected, found from refusal order by line, rowid limit ?',
        MOST_LISTED,
      ),
      counts: { ...this.#counts },
    };
    return { preview, records: this.records };
  }
}
