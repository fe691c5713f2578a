import type { ConfigProblem } from './rates.ts';

/**
 * The shop's files, changed in the office.
 *
 * GET  /api/settings -> SettingsOverview
 * GET  /api/settings/trouble -> SettingsTrouble
 * GET  /api/settings/file?file= -> SettingsText
 * GET  /api/settings/section?section=&file= -> SettingsSection; the file only where the section has several
 * POST /api/settings/check TextChange -> TextChecked, nothing is written
 * POST /api/settings/text TextChange -> SettingsWritten
 * POST /api/settings/entry EntryChange -> SettingsWritten
 * POST /api/settings/remove EntryRemoval -> SettingsWritten
 * GET  /api/settings/earlier?file= -> EarlierVersion[], newest first
 * GET  /api/settings/earlier/:id?file= -> EarlierText
 * POST /api/settings/restore Restoring -> SettingsWritten
 * GET  /api/settings/rate-card -> NewRateCard, what a new one begins with
 * POST /api/settings/rate-card RateCardAdded -> SettingsWritten
 * POST /api/settings/rate-card/remove RateCardRemoval -> SettingsWritten
 *
 * A change that does not hold is refused with 422 and its problems, one to a file that has another digest meanwhile with 409;
 * nothing is written then.
 */

/** A value as YAML says it. */
export type Plain = string | number | boolean | null | readonly Plain[] | { readonly [key: string]: Plain };

/** How a value is edited. */
export type FieldShape =
  | { readonly is: 'text'; readonly as: TextKind }
  /** a number as it is typed, else the text */
  | { readonly is: 'figure'; readonly as: 'amount' | 'per-cent' | 'price' }
  /** one price, or one for each zone */
  | { readonly is: 'prices' }
  | { readonly is: 'number'; readonly whole: boolean; readonly least: number | null; readonly most: number | null }
  | { readonly is: 'yes-no' }
  | { readonly is: 'choice'; readonly options: readonly (string | number)[] }
  | { readonly is: 'several'; readonly options: readonly string[] }
  /** texts, one in a line */
  | { readonly is: 'lines' }
  | { readonly is: 'group'; readonly fields: readonly Field[] }
  | { readonly is: 'variants'; readonly by: string; readonly variants: readonly Variant[] }
  /** a list, one item after the other */
  | { readonly is: 'rows'; readonly item: FieldShape }
  /** a list of so many values, by their places */
  | { readonly is: 'tuple'; readonly fields: readonly Field[] }
  /** a mapping whose keys are given with its values; only some keys where they are named */
  | { readonly is: 'pairs'; readonly keys: readonly string[] | null; readonly value: FieldShape }
  /** one of several quite different things */
  | { readonly is: 'one-of'; readonly ways: readonly Way[] }
  /** this and nothing else */
  | { readonly is: 'fixed'; readonly value: string | number };

export type TextKind = 'plain' | 'mass' | 'length' | 'money' | 'day' | 'time' | 'volume' | 'fraction' | 'postcodes';

export interface Way {
  readonly name: string;
  readonly shape: FieldShape;
}

export interface Variant {
  readonly value: string;
  /** besides the one that tells which variant it is */
  readonly fields: readonly Field[];
}

export interface Field {
  readonly key: string;
  /** how a value that is not given is written: not at all, or as null; it must be given where this is absent */
  readonly empty?: 'left-out' | 'null';
  /** what counts where nothing is given */
  readonly fallback?: Plain;
  readonly shape: FieldShape;
}

export const SECTIONS = [
  'shop',
  'containers',
  'wraps',
  'garments',
  'cloths',
  'recipes',
  'supplies',
  'supply-rules',
  'staff',
  'people',
  'benches',
  'imports',
  'rate-card',
  'services',
] as const;
export type SectionName = (typeof SECTIONS)[number];

export interface SettingsFile {
  /** as the config folder has it: `containers.yaml`, `rate-cards/merrow-post.yaml`, `../cloths.yaml` */
  readonly file: string;
  /** it lies elsewhere, and another shop may use it too */
  readonly shared: boolean;
  /** whether it is there */
  readonly there: boolean;
  readonly sections: readonly SectionName[];
}

/** What the files say of the network that does not count yet, or that the server's environment decides otherwise. */
export type NetworkAtStart = 'opens' | 'closes' | 'names-change' | 'decided-elsewhere';

export interface SettingsOverview {
  readonly folder: string;
  readonly files: readonly SettingsFile[];
  /** rate cards that the shop had and no longer has, which can be restored */
  readonly removed: readonly string[];
  /** benches of the files that are not open, and open ones that the files no longer have: both at the next start */
  readonly atNextStart: readonly string[];
  /** what is different for the network at the next start; null where nothing is */
  readonly network: NetworkAtStart | null;
  /** benches whose devices are opened anew as soon as they pack no order */
  readonly whenIdle: readonly string[];
}

/** What is wrong with the files as they lie on the disk; the shop goes on as it was read last. */
export interface SettingsTrouble {
  readonly problems: readonly ConfigProblem[];
  /** when that was seen; null without problems */
  readonly since: number | null;
}

export interface SettingsText {
  readonly file: string;
  readonly text: string;
  /** names what is in the file, to notice another change meanwhile; empty for a file that is not there */
  readonly digest: string;
}

export interface SettingsEntry {
  /** the key or id of the entry; empty where the section has one alone */
  readonly id: string;
  readonly value: Plain;
}

export interface SettingsSection {
  readonly section: SectionName;
  readonly file: string;
  readonly digest: string;
  /** whether entries can be added, copied and taken away */
  readonly many: boolean;
  /** whether the entries are those of a list, each with its `id` */
  readonly listed: boolean;
  /** what problems of an entry begin with, before the entry's own key or place: `containers` */
  readonly at: string;
  /** keys to show in the table, by their paths */
  readonly columns: readonly string[];
  readonly fields: readonly Field[];
  readonly entries: readonly SettingsEntry[];
}

interface Change {
  readonly file: string;
  readonly digest: string;
  /** who changes it, of staff.yaml */
  readonly by: string | null;
}

export interface TextChange extends Change {
  readonly text: string;
}

export interface EntryChange extends Change {
  readonly section: SectionName;
  /** the entry as it is called now; null for a new one */
  readonly entry: string | null;
  /** the entry as it should be called */
  readonly id: string;
  readonly value: Plain;
}

export interface EntryRemoval extends Change {
  readonly section: SectionName;
  readonly entry: string;
}

export interface Restoring extends Change {
  readonly version: string;
}

/** What a new rate card is filled in from: as a section's entry. */
export interface NewRateCard {
  readonly fields: readonly Field[];
  readonly value: Plain;
}

export interface RateCardAdded {
  /** its file in rate-cards, without the ending; no file of that name may be there */
  readonly name: string;
  readonly value: Plain;
  readonly by: string | null;
}

export type RateCardRemoval = Change;

export interface TextChecked {
  readonly problems: readonly ConfigProblem[];
  readonly warnings: readonly ConfigProblem[];
  readonly lines: readonly DiffLine[];
}

export interface SettingsWritten {
  readonly file: string;
  readonly digest: string;
  /** what the file was is kept under this name; null where nothing had changed */
  readonly version: string | null;
  /** the shop cannot use it yet, since other files have problems too */
  readonly problems: readonly ConfigProblem[];
}

/** Why a version is one that was: what took its place. */
export type EarlierWhy = 'changed' | 'restored' | 'by-hand' | 'removed';

export interface EarlierVersion {
  readonly id: string;
  /** until when the file was so, in ms since 1970 */
  readonly until: number;
  readonly why: EarlierWhy;
  /** who changed it then; null where nobody said so */
  readonly by: string | null;
  readonly byName: string | null;
}

/** One line of a comparison; a long run of lines that are the same is one gap. */
export interface DiffLine {
  readonly is: 'same' | 'gone' | 'come' | 'gap';
  readonly text: string;
  /** in the text after, for `come` and `same`; in the one before, for `gone` */
  readonly line: number;
}

export interface EarlierText {
  readonly version: EarlierVersion;
  readonly text: string;
  /** what restoring it would do to the file as it is */
  readonly lines: readonly DiffLine[];
}
