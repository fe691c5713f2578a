import { parse } from 'csv-parse/sync';
import { stringify } from 'csv-stringify/sync';
import { defuse, restore } from '#shared/words/formula-cells.ts';

/**
 * Columns of the export, in order. Those of `number` hold plain decimals with a point and are never marked; every other
 * cell may carry the mark of `defuse`.
 */
const COLUMNS = [
  /** the order's id */
  { field: 'order', kind: 'text' },
  /** which parcel of the order, from 1, and how many there are */
  { field: 'parcel', kind: 'number' },
  { field: 'parcels', kind: 'number' },
  { field: 'buyer', kind: 'text' },
  { field: 'postcode', kind: 'text' },
  { field: 'country', kind: 'text' },
  /** SKUs with blanks between them */
  { field: 'pieces', kind: 'text' },
  /** ids */
  { field: 'container', kind: 'text' },
  { field: 'carrier', kind: 'text' },
  { field: 'service', kind: 'text' },
  { field: 'zone', kind: 'text' },
  /** what the scale showed, and that plus what came on afterwards, in `massUnit` */
  { field: 'reading', kind: 'number' },
  { field: 'finalMass', kind: 'number' },
  { field: 'massUnit', kind: 'text' },
  /** clear, close or over; the distance to the bracket's ceiling in `massUnit`, negative above it */
  { field: 'verdict', kind: 'text' },
  { field: 'margin', kind: 'number' },
  /** what was decided at close or over */
  { field: 'decided', kind: 'text' },
  /** in whole units with decimals: 4.10 */
  { field: 'price', kind: 'number' },
  { field: 'currency', kind: 'text' },
  /** the number on the parcel's label */
  { field: 'label', kind: 'text' },
  { field: 'bench', kind: 'text' },
  { field: 'packedBy', kind: 'text' },
  /** ISO instant */
  { field: 'finishedAt', kind: 'text' },
] as const satisfies readonly { readonly field: string; readonly kind: 'text' | 'number' }[];

export type ParcelColumn = (typeof COLUMNS)[number]['field'];

/** A finished parcel, every value as the text of its cell; empty where there is none. */
export type ParcelRow = Readonly<Record<ParcelColumn, string>>;

const NUMBER = /^-?\d+(?:\.\d+)?$/;
const MARK = '\ufeff';

/** Finished parcels as CSV for a spreadsheet: UTF-8 with a byte order mark, comma, CRLF; RFC 4180 otherwise. */
export function parcelsCsv(rows: readonly ParcelRow[]): string {
  const lines = rows.map((row) =>
    COLUMNS.map(({ field, kind }) => (kind === 'number' && NUMBER.test(row[field]) ? row[field] : defuse(row[field]))),
  );
  return stringify([COLUMNS.map(({ field }) => field), ...lines], {
    bom: true,
    record_delimiter: 'windows',
    // A line break of any kind inside a cell must not end the record.
    quoted_match: /[\r\n]/,
  });
}

/** The rows that {@link parcelsCsv} wrote, value for value. */
export function readParcelsCsv(text: string): readonly ParcelRow[] {
  const [header = [], ...lines] = parse(text.startsWith(MARK) ? text.slice(1) : text, {
    record_delimiter: '\r\n',
    relax_column_count: true,
  });
  return lines.map((cells) => {
    const cellOf = (field: string): string => {
      const index = header.indexOf(field);
      return index === -1 ? '' : restore(cells[index] ?? '');
    };
    return Object.fromEntries(COLUMNS.map(({ field }) => [field, cellOf(field)])) as ParcelRow;
  });
}

export const PARCEL_COLUMNS: readonly ParcelColumn[] = COLUMNS.map(({ field }) => field);
