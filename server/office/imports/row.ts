import type { RefusedLine } from '#shared/wire/office.ts';
import type { Column } from './columns.ts';
import { cellText, oneLine, spoiltCell } from './cell-text.ts';
import type { Cell } from './quantities.ts';
import type { TableRow } from './table.ts';

/** One row of a table by field, which gathers what is wrong with it. */
export class RowReader<Field extends string> {
  readonly line: number;
  readonly refused: RefusedLine[] = [];
  readonly #cells: readonly string[];
  readonly #texts = new Map<Field, string>();
  readonly #columns: ReadonlyMap<Field, Column>;

  constructor(row: TableRow, columns: ReadonlyMap<Field, Column>, width: number) {
    this.line = row.line;
    this.#cells = row.cells;
    this.#columns = columns;
    const extra = row.cells.slice(width).filter((cell) => cell.trim() !== '');
    if (extra.length > 0) {
      this.refuse(null, `${String(width)} cells, as the header has`, `${String(row.cells.length)} cells`);
    }
  }

  /** The cell's text in one line; undefined where the column is missing or the cell is empty. */
  text(field: Field): string | undefined {
    const text = this.#of(field);
    return text === '' ? undefined : oneLine(text);
  }

  /** The cell's text with its line breaks. */
  lines(field: Field): string | undefined {
    const text = this.#of(field);
    return text === '' ? undefined : text;
  }

  /** A cell that nothing can be made of is refused once, and read as empty from then on. */
  #of(field: Field): string {
    const column = this.#columns.get(field);
    const known = this.#texts.get(field);
    if (column === undefined || known !== undefined) return known ?? '';
    const text = cellText(column.constant ?? this.#cells[column.index] ?? '');
    const instead = spoiltCell(text);
    if (instead !== null) this.refuse(field, instead, quoted(text));
    this.#texts.set(field, instead === null ? text : '');
    return instead === null ? text : '';
  }

  /** The text of a cell in one line as it stands there, whatever it holds; nothing is refused by it. */
  peek(field: Field): string {
    const column = this.#columns.get(field);
    return column === undefined ? '' : oneLine(cellText(column.constant ?? this.#cells[column.index] ?? ''));
  }

  unit(field: Field): string | null {
    return this.#columns.get(field)?.unit ?? null;
  }

  /** Like `text`, but an empty cell is refused. */
  needed(field: Field, expected: string): string {
    const text = this.text(field);
    if (text === undefined && !this.#isSpoilt(field)) this.refuse(field, expected, 'an empty cell');
    return text ?? '';
  }

  /** The cell as `read` takes it; undefined where it is empty or refused. */
  value<Value>(field: Field, read: (text: string) => Cell<Value>): Value | undefined {
    const text = this.text(field);
    if (text === undefined) return undefined;
    const cell = read(text);
    if (cell.ok) return cell.value;
    this.refuse(field, cell.expected, quoted(text));
    return undefined;
  }

  #isSpoilt(field: Field): boolean {
    const header = this.#columns.get(field)?.header;
    return this.refused.some((each) => each.column === header);
  }

  refuse(field: Field | null, expected: string, found: string): void {
    const column = field === null ? null : (this.#columns.get(field)?.header ?? null);
    this.refused.push({ line: this.line, column, expected, found });
  }
}

/** What was there, short enough for a line of the preview. */
function quoted(text: string): string {
  return text.length > 60 ? `"${text.slice(0, 57)}..."` : `"${text}"`;
}
