import { sql, type RawBuilder } from 'kysely';
import { dialectOf } from './dialect.ts';
import type { StoreOrTransaction } from './open.ts';
import type { StoredKind } from '#shared/wire/search.ts';

export interface SearchEntry {
  /** an order's number, a SKU, a parcel's row or a buyer */
  readonly ref: string;
  readonly code: string;
  readonly words: string;
}

const MOST_TEXT = 120;
const MOST_WORDS = 8;
/** the index of codes knows their last four characters */
const SHORTEST_END = 4;

/** A text as it is looked for. */
export interface Sought {
  /** as it was understood: one line, not too long */
  readonly text: string;
  /** words, or parts of a code, as they are; null where there is nothing to look for */
  readonly whole: string | null;
  /** how such words begin */
  readonly begun: string | null;
  /** each of them by itself; letters and digits of one stand beside each other where it is found */
  readonly words: readonly string[];
  /** how a code ends; null where that is too short to say anything */
  readonly end: string | null;
}

/** Any text at all as something to look for: quotes, operators and signs mean nothing. */
export function soughtIn(text: string): Sought {
  // Half of a character that lies outside the first plane, and what ends a text, would not reach the store as they are.
  const clean = text
    .slice(0, MOST_TEXT)
    .replace(/[\p{Cs}\p{Cc}]/gu, ' ')
    .normalize('NFC')
    .trim()
    .replace(/\s+/g, ' ');
  const words = clean
    .split(' ')
    .filter((word) => /[\p{L}\p{N}]/u.test(word))
    .slice(0, MOST_WORDS);
  if (words.length === 0) return { text: clean, whole: null, begun: null, words, end: null };
  const end = clean.replaceAll(' ', '');
  return {
    text: clean,
    whole: words.map(quoted).join(' AND '),
    begun: words.map((word) => `${quoted(word)}*`).join(' AND '),
    words,
    end: end.length < SHORTEST_END ? null : end,
  };
}

const quoted = (word: string): string => `"${word.replaceAll('"', '""')}"`;

/** Entries of one kind, the newest first, those that are meant exactly before all others. */
export async function entriesOf(
  store: StoreOrTransaction,
  kind: StoredKind,
  sought: Sought,
  most: number,
): Promise<readonly SearchEntry[]> {
  const found = new Map<string, SearchEntry>();
  const take = async (query: RawBuilder<SearchEntry>): Promise<void> => {
    if (found.size >= most) return;
    const { rows } = await query.execute(store);
    for (const row of rows) if (found.size < most && !found.has(row.ref)) found.set(row.ref, row);
  };
  if (sought.whole === null || sought.begun === null) return [];
  const statements = dialectOf(store) === 'sqlite' ? OF_SQLITE : OF_POSTGRES;
  const codes = kind === 'buyer' ? [] : [...new Set([sought.text, sought.text.replaceAll(' ', '')])];
  for (const code of codes) await take(statements.sameCode(kind, code, most));
  if (kind === 'parcel') {
    for (const code of codes) await take(statements.codeBegins(kind, code, most));
  } else {
    // Whole words first: what begins so is gathered before it is put in order, which takes long where there is much of it.
    await take(statements.withWords(kind, sought, 'whole', most));
    await take(statements.withWords(kind, sought, 'begun', most));
  }
  if (sought.end !== null && kind !== 'buyer') await take(statements.codeEnds(kind, sought.end, most));
  return [...found.values()];
}

type Found = RawBuilder<SearchEntry>;

/** The statements of one kind of store, each with an index of its own. */
interface Statements {
  sameCode(kind: StoredKind, code: string, most: number): Found;
  codeBegins(kind: StoredKind, code: string, most: number): Found;
  codeEnds(kind: StoredKind, end: string, most: number): Found;
  withWords(kind: Exclude<StoredKind, 'parcel'>, sought: Sought, how: 'whole' | 'begun', most: number): Found;
}

const LAST = '\u{10ffff}';

const OF_SQLITE: Statements = {
  sameCode: (kind, code, most) => sql`select ref, code, words from search_entry
    where kind = ${kind} and code = ${code} collate nocase limit ${most}`,
  codeBegins: (kind, code, most) => sql`select ref, code, words from search_entry where kind = ${kind}
    and code >= ${code} collate nocase and code < ${code + LAST} collate nocase limit ${most}`,
  codeEnds: (kind, end, most) => sql`select ref, code, words from search_entry
    where kind = ${kind} and substr(code, -4) = ${end.slice(-SHORTEST_END)} collate nocase
      and substr(code, ${-end.length}) = ${end} collate nocase
    order by id desc limit ${most}`,
  withWords: (kind, sought, how, most) => {
    const index = sql.table(`search_${kind}`);
    return sql`select entry.ref, entry.code, entry.words from ${index} as hit
      join search_entry as entry on entry.id = hit.rowid
      where ${index} match ${sought[how]} order by hit.rowid desc limit ${most}`;
  },
};

const OF_POSTGRES: Statements = {
  sameCode: (kind, code, most) => sql`select ref, code, words from search_entry
    where kind = ${kind} and lower(code) = lower(${code} collate "C") limit ${most}`,
  codeBegins: (kind, code, most) => sql`select ref, code, words from search_entry where kind = ${kind}
    and lower(code) >= lower(${code} collate "C") and lower(code) < lower(${code + LAST} collate "C") limit ${most}`,
  codeEnds: (kind, end, most) => sql`select ref, code, words from search_entry
    where kind = ${kind} and right(lower(code), 4) = right(lower(${end} collate "C"), 4)
      and right(lower(code), ${end.length}) = lower(${end} collate "C")
    order by id desc limit ${most}`,
  withWords: (kind, { words }, how, most) => sql`select ref, code, words from search_entry
    where kind = ${sql.lit(kind)} and search_vector(code, words) @@ search_query(${words}::text[], ${how === 'begun'})
    order by id desc limit ${most}`,
};
