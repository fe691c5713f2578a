import { changedText, CannotEdit } from '#config/edit/changed-text.ts';
import { renamedKey } from '#config/edit/renamed-key.ts';
import type { Problem } from '#config/config-error.ts';
import type { Section } from '#config/form/sections.ts';
import { parseSource } from '#config/source-file.ts';
import type { EntryChange, EntryRemoval, Plain } from '#shared/wire/settings.ts';
import { SettingsRefusal } from './refusal.ts';
import { entriesOf, isMapping, type Mapping } from './section-view.ts';

/** What a file says. @throws SettingsRefusal not-readable */
export function valueOf(file: string, text: string): Mapping {
  if (text.trim() === '') return {};
  const read = parseSource(file, text);
  if (!read.ok) throw new SettingsRefusal('not-readable', `${file} cannot be read as YAML.`, read.problems);
  const value = JSON.parse(JSON.stringify(read.source.value ?? {})) as Plain;
  if (isMapping(value)) return value;
  throw new SettingsRefusal('not-readable', `${file} is no YAML mapping.`);
}

/** The text of a file with one entry added or changed. @throws SettingsRefusal */
export function textWithEntry(text: string, section: Section, change: EntryChange): string {
  const { file, entry, id, value } = change;
  const before = valueOf(file, text);
  const { at, listed, fields } = section;
  if (at === null) {
    const covered = new Set(fields.map(({ key }) => key));
    const others = Object.entries(before).filter(([key]) => !covered.has(key));
    return written(text, file, { ...Object.fromEntries(others), ...(isMapping(value) ? value : {}) });
  }
  const all = entriesOf(section, before);
  if (entry !== null && !all.some(([each]) => each === entry)) throw gone(file, entry);
  if (entry !== id && all.some(([each]) => each === id)) {
    const taken = problem(file, place(section, all, id), 'an id of its own', `"${id}", which another entry has`);
    throw new SettingsRefusal('does-not-hold', `There is an entry "${id}" already.`, [taken]);
  }
  if (listed) {
    const list = all.map(([each, had]) => (each === entry ? value : had));
    return written(text, file, { ...before, [at]: entry === null ? [...list, value] : list });
  }
  const renamed = entry === null || entry === id ? text : renamedKey(text, at, entry, id);
  const others = Object.fromEntries(all.map(([each, had]) => [each === entry ? id : each, had]));
  return written(renamed, file, { ...before, [at]: { ...others, [id]: value } });
}

/** The text of a file without one of its entries. @throws SettingsRefusal */
export function textWithoutEntry(text: string, section: Section, { file, entry }: EntryRemoval): string {
  const before = valueOf(file, text);
  const all = entriesOf(section, before);
  if (section.at === null || !all.some(([id]) => id === entry)) throw gone(file, entry);
  const left = all.filter(([id]) => id !== entry);
  const entries = section.listed ? left.map(([, value]) => value) : Object.fromEntries(left);
  return written(text, file, { ...before, [section.at]: entries });
}

function written(text: string, file: string, wanted: Mapping): string {
  try {
    return changedText(text, wanted);
  } catch (error) {
    if (!(error instanceof CannotEdit)) throw error;
    const [, expected = '', found = ''] = /^expected (.*), found (.*)$/s.exec(error.message) ?? [];
    throw new SettingsRefusal('does-not-hold', error.message, [problem(file, '', expected, found)]);
  }
}

const gone = (file: string, entry: string) =>
  new SettingsRefusal('unknown', `There is no entry "${entry}" in ${file}.`);

function problem(file: string, path: string, expected: string, found: string): Problem {
  return { file, path, line: null, expected, found };
}

function place({ at, listed }: Section, all: readonly (readonly [string, Plain])[], id: string): string {
  if (!listed) return `${at ?? ''}.${id}`;
  return `${at ?? ''}[${String(all.findIndex(([each]) => each === id))}]`;
}
