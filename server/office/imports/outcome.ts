import type { Piece } from '#shared/garments/types.ts';
import type { Shop } from '#shared/shop/shop.ts';
import type { ImportedLine, ImportPreview, ImportSubject, RefusedLine } from '#shared/wire/office.ts';
import type { StoredOrder } from './orders.ts';
import type { Table, TableRow } from './table.ts';

/** What the store has already. */
export interface Existing {
  readonly pieces: ReadonlyMap<string, Piece>;
  readonly orders: ReadonlyMap<string, StoredOrder>;
}

export interface ImportRequest<Subject extends ImportSubject = ImportSubject> {
  readonly bytes: Uint8Array;
  readonly fileName: string;
  readonly subject: Subject;
  readonly shop: Shop;
  readonly existing: Existing;
  /** milliseconds since the epoch */
  readonly now: number;
}

export interface ImportResult<Stored> {
  readonly preview: Omit<ImportPreview, 'id'>;
  /** what was added or changed, ready to store; nothing of a refused record */
  readonly records: readonly Stored[];
}

/** An import that is under way: rows go in one at a time, and then the result comes out. */
export interface RunningImport<Stored> {
  readonly take: (row: TableRow) => void;
  readonly finish: () => ImportResult<Stored>;
}

/** Sorts records into what they would do. */
export class Outcome<Stored> {
  readonly records: Stored[] = [];
  readonly added: ImportedLine[] = [];
  readonly changed: ImportedLine[] = [];
  readonly refused: RefusedLine[] = [];
  unchanged = 0;

  sort(line: Omit<ImportedLine, 'changes'>, record: Stored, changes: ImportedLine['changes'] | null): void {
    if (changes?.length === 0) {
      this.unchanged += 1;
      return;
    }
    this.records.push(record);
    if (changes === null) this.added.push({ ...line, changes: [] });
    else this.changed.push({ ...line, changes });
  }

  result(request: ImportRequest, table: Table, columns: ImportPreview['columns']): ImportResult<Stored> {
    const preview = {
      subject: request.subject,
      file: request.fileName,
      encoding: table.encoding,
      delimiter: table.delimiter,
      columns,
      added: this.added,
      changed: this.changed,
      unchanged: this.unchanged,
      refused: this.refused.sort((a, b) => a.line - b.line),
    };
    return { preview, records: this.records };
  }
}
