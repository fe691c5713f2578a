import type { Field, Plain } from '#shared/wire/settings.ts';

/** Where a value stands within an entry. */
export type DraftPath = readonly string[];

type Mapping = Readonly<Record<string, Plain>>;

export function isMapping(value: Plain | undefined): value is Mapping {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** What an entry says at a path; undefined where it says nothing. */
export function valueAt(entry: Plain, path: DraftPath): Plain | undefined {
  let value: Plain | undefined = entry;
  for (const key of path) value = isMapping(value) ? value[key] : undefined;
  return value;
}

/** The entry with another value at a path, or without one there; what lies above is made where it is missing. */
export function withValue(entry: Plain, path: DraftPath, value: Plain | undefined): Plain {
  const [key, ...rest] = path;
  if (key === undefined) return value ?? null;
  const here: Mapping = isMapping(entry) ? entry : {};
  if (rest.length === 0 && value === undefined) {
    return Object.fromEntries(Object.entries(here).filter(([each]) => each !== key));
  }
  return { ...here, [key]: withValue(here[key] ?? {}, rest, value) };
}

/** What a field holds that was left empty. */
export function emptied({ empty, shape }: Field): Plain | undefined {
  if (empty === 'null') return null;
  if (empty === 'left-out') return undefined;
  return shape.is === 'lines' || shape.is === 'several' ? [] : '';
}

/** What was typed into a number's field: a number where it is one, else the text, for the check to name. */
export function asNumber(typed: string): Plain {
  const text = typed.trim().replace(',', '.');
  return /^-?\d+(\.\d+)?$/.test(text) ? Number(text) : typed;
}

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
