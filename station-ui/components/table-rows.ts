/** A column of a {@link DataTable}: what it sorts by, what its words are, and how it looks. */
export interface DataColumn<Row> {
  readonly key: string;
  /** empty for a column of buttons, which is neither sorted by nor written to a file */
  readonly title: string;
  readonly value: (row: Row) => string | number | null;
  /** what it is found by and written to a file as, where its value is only an order; the value where it is left out */
  readonly written?: (row: Row) => string;
  /** how the cell looks; the value where it is left out */
  readonly cell?: (row: Row) => unknown;
  readonly number?: boolean;
}

export interface TableSorting {
  readonly by: string;
  readonly descending: boolean;
}

/** Columns of one kind of row, as the table holds them. */
export function columnsOf<Row>(columns: readonly DataColumn<Row>[]): readonly DataColumn<unknown>[] {
  return columns as unknown as readonly DataColumn<unknown>[];
}

/** What stands for a row in a column where a person or a program reads it as text. */
export function writtenOf<Row>({ value, written }: DataColumn<Row>, row: Row): string | number | null {
  return written === undefined ? value(row) : written(row);
}

/** Lower case, accents off, so that "perez" finds "Pérez". */
function plain(text: string): string {
  // Most texts have no accents to take off, and a table of thousands is narrowed at every key.
  if (/^[ -~]*$/.test(text)) return text.toLowerCase();
  return text.normalize('NFD').replace(/\p{M}/gu, '').toLowerCase();
}

/** Rows that hold every word of the text in some column. */
export function rowsWith(
  rows: readonly unknown[],
  columns: readonly DataColumn<unknown>[],
  text: string,
): readonly unknown[] {
  const words = plain(text)
    .split(/\s+/)
    .filter((word) => word !== '');
  if (words.length === 0) return rows;
  return rows.filter((row) => {
    const held = plain(columns.map((column) => writtenOf(column, row) ?? '').join(' '));
    return words.every((word) => held.includes(word));
  });
}

/** Numbers by size, "9" before "10" inside texts, empty ones last either way. */
export function rowsSorted(
  rows: readonly unknown[],
  columns: readonly DataColumn<unknown>[],
  sorting: TableSorting | null,
): readonly unknown[] {
  const column = columns.find(({ key }) => key === sorting?.by);
  if (column === undefined || sorting === null) return rows;
  const collator = new Intl.Collator(undefined, { numeric: true, sensitivity: 'base' });
  const keyed = rows.map((row) => ({ row, key: column.value(row) }));
  keyed.sort(({ key: left }, { key: right }) => {
    if (left === null || right === null) return left === right ? 0 : left === null ? 1 : -1;
    const order =
      typeof left === 'number' && typeof right === 'number'
        ? left - right
        : collator.compare(String(left), String(right));
    return sorting.descending ? -order : order;
  });
  return keyed.map(({ row }) => row);
}
