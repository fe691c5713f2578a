import type { Field, Plain } from '#shared/wire/settings.ts';

/** Where a value stands within a draft: keys of mappings, places in lists. */
export type DraftPath = readonly (string | number)[];

export type Mapping = Readonly<Record<string, Plain>>;

export function isMapping(value: Plain | undefined): value is Mapping {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** A list's items; none where there is no list. */
export function itemsOf(value: Plain | undefined): readonly Plain[] {
  return Array.isArray(value) ? (value as readonly Plain[]) : [];
}

/** What an entry says at a path; undefined where it says nothing. */
export function valueAt(entry: Plain, path: DraftPath): Plain | undefined {
  let value: Plain | undefined = entry;
  for (const key of path) {
    if (typeof key === 'number') value = itemsOf(value)[key];
    else value = isMapping(value) ? value[key] : undefined;
  }
  return value;
}

/** The entry with another value at a path, or without one there; what lies above is made where it is missing. */
export function withValue(entry: Plain, path: DraftPath, value: Plain | undefined): Plain {
  const [key, ...rest] = path;
  if (key === undefined) return value ?? null;
  if (typeof key === 'number') {
    const list = [...itemsOf(entry)];
    if (rest.length === 0 && value === undefined) list.splice(key, 1);
    else list[key] = withValue(list[key] ?? {}, rest, value);
    return list;
  }
  const here: Mapping = isMapping(entry) ? entry : {};
  if (rest.length === 0 && value === undefined) {
    return Object.fromEntries(Object.entries(here).filter(([each]) => each !== key));
  }
  const below = typeof rest[0] === 'number' ? [] : {};
  return { ...here, [key]: withValue(here[key] ?? below, rest, value) };
}

/** A list with one of its items moved by one place; the same list where there is no such place. */
export function moved(list: readonly Plain[], from: number, by: 1 | -1): readonly Plain[] {
  const to = from + by;
  const item = list[from];
  if (item === undefined || to < 0 || to >= list.length) return list;
  const left = list.filter((_each, index) => index !== from);
  return [...left.slice(0, to), item, ...left.slice(to)];
}

/** What a field holds that was left empty. */
export function emptied({ empty, shape }: Field): Plain | undefined {
  if (empty === 'null') return null;
  if (empty === 'left-out') return undefined;
  if (shape.is === 'lines' || shape.is === 'several' || shape.is === 'rows' || shape.is === 'pairs') return [];
  return '';
}

/** What was typed into a number's field: a number where it is one, else the text, for the check to name. */
export function asNumber(typed: string): Plain {
  const text = typed.trim().replace(',', '.');
  return /^-?\d+(\.\d+)?$/.test(text) ? Number(text) : typed;
}

/** Prices as they were typed, one for each zone, with blanks or semicolons between them. A single one stands alone. */
export function asPrices(typed: string): Plain {
  const prices = typed
    .split(/[\s;]+/)
    .filter((each) => each !== '')
    .map(asNumber);
  return prices.length === 1 ? (prices[0] ?? '') : prices;
}

/** Prices as they are typed: all with two decimals where one has any. */
export function pricesTyped(value: Plain | undefined): string {
  const prices = Array.isArray(value) ? itemsOf(value) : value === undefined || value === null ? [] : [value];
  const short = prices.every((price) => typeof price !== 'number' || Number((price * 100).toFixed(6)) % 1 === 0);
  const whole = prices.every((price) => typeof price !== 'number' || price % 1 === 0);
  return prices
    .map((price) => (typeof price === 'number' && short && !whole ? price.toFixed(2) : typed(price)))
    .join('  ');
}

/** A plain value as it is typed. */
const typed = (value: Plain): string => (typeof value === 'object' ? JSON.stringify(value) : String(value));

/** A value in few words, for a table. */
export function shortly(value: Plain | undefined, language: 'en' | 'es'): string {
  if (value === undefined || value === null) return '';
  if (typeof value !== 'object') return String(value);
  if (!isMapping(value)) return value.map((each) => shortly(each, language)).join(', ');
  if (typeof value[language] === 'string') return value[language];
  return Object.values(value)
    .map((each) => shortly(each, language))
    .join(' · ');
}
