import { IMPORT_FIELDS, NEEDED_FIELDS } from '#shared/imports/source.ts';
import type { OrderField, PieceField } from '#shared/shop/import-fields.ts';
import type { Shop } from '#shared/shop/shop.ts';
import type { ImportSubject } from '#shared/wire/office.ts';
import { guessColumns, matchColumns, type MatchedColumns } from './columns.ts';
import { ImportError } from './import-error.ts';
import { mappedColumns } from './mapped-columns.ts';
import type { ImportRequest } from './outcome.ts';
import type { TableHead } from './table.ts';

/**
 * Which column fills which field: as its source says where it has one, else by the columns' names.
 * @throws ImportError columns-missing, columns-twice or header-lower
 */
export function columnsFor(request: ImportRequest, table: TableHead, subject: 'pieces'): MatchedColumns<PieceField>;
export function columnsFor(request: ImportRequest, table: TableHead, subject: 'orders'): MatchedColumns<OrderField>;
export function columnsFor(
  { shop, source }: ImportRequest,
  table: TableHead,
  subject: ImportSubject,
): MatchedColumns<string> {
  const fields: readonly string[] = IMPORT_FIELDS[subject];
  if (source !== undefined && source !== null) return mappedColumns(table.header, source, fields);
  const guessed = columnsByName(table.header, shop, subject);
  const lower = guessed.missing.length === 0 ? null : headerBelow(table, shop, subject);
  if (lower !== null) throw lower;
  return matchColumns(table.header, shop.importAliases[subject], fields, NEEDED_FIELDS[subject], table.headerLine);
}

/** Which columns a row of names would be. */
export function columnsByName(header: readonly string[], shop: Shop, subject: ImportSubject) {
  const fields: readonly string[] = IMPORT_FIELDS[subject];
  return guessColumns(header, shop.importAliases[subject], fields, NEEDED_FIELDS[subject]);
}

/** Told when the header stands further down, below a title or a row of merged cells; null where it does not. */
export function headerBelow(
  { headerLine, firstRows }: TableHead,
  shop: Shop,
  subject: ImportSubject,
): ImportError | null {
  const lower = firstRows.find(({ cells }) => columnsByName(cells, shop, subject).missing.length === 0);
  if (lower === undefined) return null;
  const [here, there] = [String(headerLine), String(lower.line)];
  return new ImportError(
    'header-lower',
    `line ${here}: expected the header here; it seems to be on line ${there}: delete the lines above it`,
    headerLine,
  );
}
