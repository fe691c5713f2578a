import type { Section } from '#config/form/sections.ts';
import type { Plain, SettingsEntry, SettingsSection } from '#shared/wire/settings.ts';

export type Mapping = Readonly<Record<string, Plain>>;

/** A section of a file as forms show it. @param value what the file says */
export function sectionView(section: Section, file: string, value: Mapping, digest: string): SettingsSection {
  const { name, at, listed, columns, fields } = section;
  const entries = entriesOf(section, value).map(([id, each]): SettingsEntry => ({ id, value: each }));
  return { section: name, file, digest, many: at !== null, listed, at: at ?? '', columns, fields, entries };
}

/** The entries of a section by their ids. */
export function entriesOf({ at, listed }: Section, value: Mapping): readonly (readonly [string, Plain])[] {
  if (at === null) return [['', value]];
  const all = value[at] ?? {};
  if (!listed) return isMapping(all) ? Object.entries(all) : [];
  if (!Array.isArray(all)) return [];
  return (all as Plain[]).map((each, index) => [
    isMapping(each) && typeof each['id'] === 'string' ? each['id'] : String(index),
    each,
  ]);
}

export function isMapping(value: Plain | undefined): value is Mapping {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
