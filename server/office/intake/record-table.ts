import { z } from 'zod';
import type { Table, TableRow } from '#server/office/imports/table.ts';
import type { RefusedRecord } from '#shared/wire/intake.ts';

/** So many are looked through in one turn, and every refusal of them is named. */
export const MOST_RECORDS = 500;

/** More than there are: of more, none is one. */
const MOST_FIELDS = 100;

/** A text, a number, a list of texts, or null for nothing. */
export const fieldValue = z.union([z.string(), z.number(), z.boolean(), z.null(), z.array(z.string())]);
type Value = z.output<typeof fieldValue>;

/**
 * Records as the table that a file would be, so that both are read by the same rules. "Lines" are places in the list,
 * counted from 1.
 */
export function recordTable(
  body: unknown,
  fields: readonly string[],
  decimalMark: 'point' | 'comma',
): { readonly table: Table; readonly refused: readonly RefusedRecord[] } {
  const refused: RefusedRecord[] = [];
  const records: Readonly<Record<string, Value>>[] = [];
  if (!Array.isArray(body) || body.length === 0) {
    refused.push({ record: 0, field: null, expected: 'a list of one or more records', found: kindOf(body) });
  }
  if (Array.isArray(body) && body.length > MOST_RECORDS) {
    const expected = `at most ${String(MOST_RECORDS)} records at once`;
    return { table: tableOf([], []), refused: [{ record: 0, field: null, expected, found: String(body.length) }] };
  }
  for (const [index, entry] of (Array.isArray(body) ? (body as unknown[]) : []).entries()) {
    const record = index + 1;
    if (typeof entry !== 'object' || entry === null || Array.isArray(entry)) {
      refused.push({ record, field: null, expected: 'a record of fields', found: kindOf(entry) });
      continue;
    }
    const taken: Record<string, Value> = {};
    const given = Object.entries(entry);
    if (given.length > MOST_FIELDS) {
      const expected = `a record of at most ${String(MOST_FIELDS)} fields`;
      refused.push({ record, field: null, expected, found: String(given.length) });
      continue;
    }
    for (const [field, found] of given) {
      const read = fieldValue.safeParse(found);
      if (!fields.includes(field)) {
        refused.push({ record, field, expected: `one of the fields ${fields.join(', ')}`, found: `"${field}"` });
      } else if (!read.success) {
        refused.push({ record, field, expected: 'a text, a number or a list of texts', found: kindOf(found) });
      } else taken[field] = read.data;
    }
    records.push(taken);
  }
  const header = fields.filter((field) => records.some((record) => field in record));
  const text = (each: Value | undefined): string => {
    if (each === undefined || each === null) return '';
    if (typeof each === 'number') return decimalMark === 'comma' ? String(each).replace('.', ',') : String(each);
    return Array.isArray(each) ? each.join(' ') : String(each);
  };
  const rows = records.map((record, index): TableRow => {
    return { line: index + 1, cells: header.map((field) => text(record[field])) };
  });
  return { table: tableOf(header, rows), refused };
}

function tableOf(header: readonly string[], rows: readonly TableRow[]): Table {
  const slices = async function* () {
    yield await Promise.resolve({ rows, part: 1 });
  };
  return { encoding: 'utf-8', delimiter: ',', header, headerLine: 1, firstRows: rows, slices };
}

function kindOf(found: unknown): string {
  if (found === undefined) return 'nothing';
  if (Array.isArray(found)) return found.length === 0 ? 'an empty list' : 'a list';
  return found === null ? 'null' : `a value of the type ${typeof found}`;
}
