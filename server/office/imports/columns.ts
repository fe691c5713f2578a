import { ImportError } from './import-error.ts';
import { plainWords } from './plain-words.ts';

/** A column of the file that fills a field. */
export interface Column {
  readonly index: number;
  readonly header: string;
  /** unit or currency that the header names: "Weight (g)" */
  readonly unit: string | null;
  /** the same text for every record, instead of a column */
  readonly constant?: string;
}

export interface MatchedColumns<Field extends string> {
  readonly byField: ReadonlyMap<Field, Column>;
  readonly all: readonly { readonly header: string; readonly field: Field | null }[];
}

/** "Weight (g)", "Length [cm]", "Gewicht in kg" */
const UNIT_IN_HEADER = /^(.*?)\s*(?:[([]\s*([^)\]]+?)\s*[)\]]|(?:\sin|\sen|\/|,)\s*([a-z"]{1,3}))\s*$/iu;

const UNITS = new Set(['oz', 'lb', 'lbs', 'g', 'gr', 'kg', 'in', 'cm', 'mm', '"', '$', '€', '£', 'usd', 'eur', 'gbp']);

export function splitUnit(header: string): { readonly name: string; readonly unit: string | null } {
  const match = UNIT_IN_HEADER.exec(header);
  const unit = (match?.[2] ?? match?.[3] ?? '').toLowerCase();
  return match !== null && UNITS.has(unit) ? { name: match[1] ?? '', unit } : { name: header, unit: null };
}

/**
 * Which column fills which field, by the names that may head it; the field's own name always may. Where several columns
 * could, the alias that stands first in the config wins; where two are headed alike, nobody can tell which is meant.
 * @param line of the header
 * @throws ImportError columns-missing or columns-twice
 */
export function matchColumns<Field extends string>(
  header: readonly string[],
  aliases: Readonly<Record<string, readonly string[]>>,
  fields: readonly Field[],
  required: readonly Field[],
  line = 1,
): MatchedColumns<Field> {
  const { byField, all, missing } = guessColumns(header, aliases, fields, required);
  if (missing.length > 0) throw new ImportError('columns-missing', missingWords(header, aliases, missing, line), line);
  for (const [field, { header: text }] of byField) {
    const places = header.flatMap((each, index) => (plainWords(each) === plainWords(text) ? [String(index + 1)] : []));
    if (places.length < 2) continue;
    throw new ImportError(
      'columns-twice',
      `line ${String(line)}: expected one column "${text}" for ${field}; found it as columns ${places.join(' and ')}`,
      line,
    );
  }
  return { byField, all };
}

/** Which fields have no column, and under which names one would be known. */
export function missingWords(
  header: readonly string[],
  aliases: Readonly<Record<string, readonly string[]>>,
  missing: readonly string[],
  line: number,
): string {
  const wanted = missing.map((field) => `${field} (${[field, ...(aliases[field] ?? [])].slice(0, 5).join(', ')})`);
  return `line ${String(line)}: expected a column for ${wanted.join(' and for ')}; found the columns ${namesOf(header)}`;
}

/** The names in a header row, for a message. */
export const namesOf = (header: readonly string[]): string => header.filter((name) => name !== '').join(', ');

/** The same without refusing anything: what is found, and which needed fields are not. */
export function guessColumns<Field extends string>(
  header: readonly string[],
  aliases: Readonly<Record<string, readonly string[]>>,
  fields: readonly Field[],
  required: readonly Field[],
): MatchedColumns<Field> & { readonly missing: readonly Field[] } {
  const columns = header.map((text, index) => ({ index, header: text, ...splitUnit(text) }));
  const byField = new Map<Field, Column>();
  const taken = new Set<number>();
  for (const field of fields) {
    for (const name of [field, ...(aliases[field] ?? [])]) {
      const wanted = plainWords(name);
      const found = columns.find(
        (column) =>
          !taken.has(column.index) && (plainWords(column.header) === wanted || plainWords(column.name) === wanted),
      );
      if (found === undefined) continue;
      byField.set(field, { index: found.index, header: found.header, unit: found.unit });
      taken.add(found.index);
      break;
    }
  }
  const missing = required.filter((field) => !byField.has(field));
  const fieldOf = new Map([...byField].map(([field, column]) => [column.index, field]));
  const all = header.map((text, index) => ({ header: text, field: fieldOf.get(index) ?? null }));
  return { byField, all, missing };
}
