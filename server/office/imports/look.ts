import type { FieldFrom, ImportSource } from '#shared/imports/source.ts';
import type { Shop } from '#shared/shop/shop.ts';
import type { ImportLook, ImportReading } from '#shared/wire/imports.ts';
import type { ImportSubject } from '#shared/wire/office.ts';
import { cellText, oneLine } from './cell-text.ts';
import { missingWords, namesOf } from './columns.ts';
import { columnsByName, headerBelow } from './columns-for.ts';
import { headerKey } from './header-key.ts';
import type { TableHead } from './table.ts';

const MOST_SAMPLES = 3;
const LONGEST_SAMPLE = 60;
/** With so many known columns a file is one of ours that lacks some; one may be there by chance. */
const FEWEST_KNOWN = 2;

/** What the beginning of a table shows, and how it would be read. */
export function lookAt(table: TableHead, shop: Shop, sources: readonly ImportSource[]): ImportLook {
  const { header, encoding, delimiter, firstRows } = table;
  const samples = header.map((_text, index) => {
    const values = firstRows.map(({ cells }) => oneLine(cellText(cells[index] ?? '')).slice(0, LONGEST_SAMPLE));
    return [...new Set(values.filter((value) => value !== ''))].slice(0, MOST_SAMPLES);
  });
  const readings = {
    pieces: readingOf(table, 'pieces', shop, sources),
    orders: readingOf(table, 'orders', shop, sources),
  };
  const subject = subjectOf(readings);
  const problem = subject === null ? neither(table, shop) : null;
  return { subject, problem, encoding, delimiter, header, samples, readings };
}

function neither(table: TableHead, shop: Shop): string {
  const lower = headerBelow(table, shop, 'orders') ?? headerBelow(table, shop, 'pieces');
  if (lower !== null) return lower.message;
  const { header, headerLine } = table;
  const [nearest] = (['orders', 'pieces'] as const)
    .map((subject) => ({ subject, ...columnsByName(header, shop, subject) }))
    .sort((a, b) => b.byField.size - a.byField.size);
  if (nearest !== undefined && nearest.byField.size >= FEWEST_KNOWN) {
    return missingWords(header, shop.importAliases[nearest.subject], nearest.missing, headerLine);
  }
  return `line ${String(headerLine)}: expected the columns of pieces or of orders; found the columns ${namesOf(header)}`;
}

/** As its source says, else by its columns; orders name many more. Null when it can be neither. */
function subjectOf(readings: ImportLook['readings']): ImportSubject | null {
  const subjects = ['orders', 'pieces'] as const;
  return (
    subjects.find((subject) => readings[subject].source !== null) ??
    subjects.find((subject) => readings[subject].missing.length === 0) ??
    null
  );
}

function readingOf(
  { header }: TableHead,
  subject: ImportSubject,
  shop: Shop,
  sources: readonly ImportSource[],
): ImportReading {
  const key = headerKey(header);
  const source = sources.find((each) => each.subject === subject && headerKey(each.header) === key) ?? null;
  if (source !== null) return { source, fields: source.fields, missing: [] };
  const guessed = columnsByName(header, shop, subject);
  const fields: Record<string, FieldFrom> = {};
  for (const [field, { index }] of guessed.byField) fields[field] = { column: index };
  return { source: null, fields, missing: guessed.missing };
}
