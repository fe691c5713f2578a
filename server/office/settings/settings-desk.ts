import { existsSync, readFileSync, rmSync } from 'node:fs';
import { basename, join } from 'node:path';
import type { Problem } from '#config/config-error.ts';
import { ALL_SECTIONS, type Section } from '#config/form/sections.ts';
import { filesOfShop, readShop, textsOf, type ChangedFiles } from '#config/load.ts';
import { keysBetween } from '#server/audit/changed-keys.ts';
import { shopChanges } from '#server/audit/shop-changes.ts';
import type { Clock } from '#server/clock.ts';
import { personName } from '#server/office/names.ts';
import type { Station } from '#server/runs/station.ts';
import type { ShopHolder } from '#server/shop-holder.ts';
import { KEEP_DEFAULTS } from '#shared/shop/keep.ts';
import type { Shop } from '#shared/shop/shop.ts';
import { recordChange } from '#server/store/changes.ts';
import type { Store } from '#server/store/open.ts';
import type { Change } from '#shared/audit/changes.ts';
import type {
  EarlierText,
  EarlierVersion,
  EarlierWhy,
  EntryChange,
  EntryRemoval,
  NetworkAtStart,
  NewRateCard,
  RateCardAdded,
  RateCardRemoval,
  Restoring,
  SectionName,
  SettingsFile,
  SettingsOverview,
  SettingsSection,
  SettingsText,
  SettingsTrouble,
  SettingsWritten,
  TextChange,
  TextChecked,
} from '#shared/wire/settings.ts';
import { digestOf } from './digest.ts';
import { EarlierVersions } from './earlier.ts';
import { textWithEntry, textWithoutEntry, valueOf } from './entry-text.ts';
import { goneInUse } from './gone-in-use.ts';
import { linesChanged } from './lines-changed.ts';
import { fileOfNewCard, newRateCard, textOfNewCard } from './new-rate-card.ts';
import { SettingsRefusal } from './refusal.ts';
import { sectionView } from './section-view.ts';
import { writeWhole } from './write-whole.ts';

export interface SettingsDeskParts {
  readonly store: Store;
  readonly shops: ShopHolder;
  readonly clock: Clock;
  readonly stations: ReadonlyMap<string, Pick<Station, 'bench' | 'change'>>;
  /** what a shop says of the network that is not so now */
  readonly networkAtStart: (shop: Shop) => NetworkAtStart | null;
}

interface Writing {
  readonly file: string;
  readonly digest: string;
  readonly by: string | null;
  readonly why: EarlierWhy;
}

const RATE_CARD = /^rate-cards\/[a-z0-9]+(-[a-z0-9]+)*\.ya?ml$/;

/** The shop's files as the office changes them: checked as a whole before anything is written, and each version kept. */
export class SettingsDesk {
  readonly #parts: SettingsDeskParts;
  readonly #earlier: EarlierVersions;
  #writing: Promise<unknown> = Promise.resolve();
  #trouble: SettingsTrouble = { problems: [], since: null };

  constructor(parts: SettingsDeskParts) {
    this.#parts = parts;
    this.#earlier = new EarlierVersions(parts.shops.folder);
  }

  get trouble(): SettingsTrouble {
    return this.#trouble;
  }

  overview(): SettingsOverview {
    const { shops, stations } = this.#parts;
    const { folder } = shops;
    const files = filesOfShop(folder).map((file): SettingsFile => ({
      file,
      shared: file.startsWith('..'),
      there: existsSync(join(folder, file)),
      sections: sectionsOf(file).map(({ name }) => name),
    }));
    const { benches } = shops.current;
    const open = [...stations.values()];
    return {
      folder,
      files,
      removed: this.#earlier
        .files()
        .filter((file) => RATE_CARD.test(file) && !existsSync(join(folder, file)))
        .sort(),
      atNextStart: [
        ...benches.filter(({ id }) => !stations.has(id)).map(({ name }) => name),
        ...open.filter(({ change }) => change.changesAtStart).map(({ bench }) => bench.name),
      ],
      network: this.#parts.networkAtStart(shops.current),
      whenIdle: open.filter(({ change }) => change.waitsForIdle).map(({ bench }) => bench.name),
    };
  }

  /** @throws SettingsRefusal unknown */
  text(file: string): SettingsText {
    const text = this.#read(file);
    return { file, text: text ?? '', digest: digestOf(text) };
  }

  /** @throws SettingsRefusal unknown or not-readable */
  section(name: SectionName, file: string | null): SettingsSection {
    const { section, place } = this.#sectionAt(name, file);
    const { text, digest } = this.text(place);
    return sectionView(section, place, valueOf(place, text), digest);
  }

  /** What a change would lead to; nothing is written. @throws SettingsRefusal unknown */
  check({ file, text }: TextChange): TextChecked {
    const { folder } = this.#parts.shops;
    const { problems, warnings } = readShop(folder, new Map([...textsOf(folder), [file, text]]));
    const lines = linesChanged(this.#read(file) ?? '', text);
    return { problems, warnings: warnings.filter((each) => each.file === file), lines };
  }

  /** @throws SettingsRefusal */
  changeText({ text, ...change }: TextChange): Promise<SettingsWritten> {
    return this.#write({ ...change, why: 'changed' }, () => text);
  }

  /** @throws SettingsRefusal */
  changeEntry(change: EntryChange): Promise<SettingsWritten> {
    const { section } = this.#sectionAt(change.section, change.file);
    return this.#write({ ...change, why: 'changed' }, (text) => textWithEntry(text, section, change));
  }

  /** @throws SettingsRefusal */
  removeEntry(change: EntryRemoval): Promise<SettingsWritten> {
    const { section } = this.#sectionAt(change.section, change.file);
    return this.#write({ ...change, why: 'changed' }, (text) => textWithoutEntry(text, section, change));
  }

  /** @throws SettingsRefusal */
  restore({ version, ...change }: Restoring): Promise<SettingsWritten> {
    return this.#write({ ...change, why: 'restored' }, () => this.#versionText(change.file, version));
  }

  /** What a new rate card begins with. */
  newRateCard(): NewRateCard {
    return newRateCard(this.#parts.shops.current);
  }

  /** @throws SettingsRefusal */
  addRateCard({ name, value, by }: RateCardAdded): Promise<SettingsWritten> {
    const file = fileOfNewCard(name);
    return this.#write({ file, digest: '', by, why: 'changed' }, () => textOfNewCard(value));
  }

  /** Takes a rate card away; what it said is kept. @throws SettingsRefusal where something refers to it */
  removeRateCard(change: RateCardRemoval): Promise<SettingsWritten> {
    const { file } = change;
    if (!RATE_CARD.test(file) || this.#read(file) === null) throw unknown(`a rate card ${file}`);
    return this.#write({ ...change, why: 'removed' }, () => null);
  }

  /** Removes earlier versions that were kept long enough. @returns how many */
  thin(now: number): number {
    const { timeZone, keep } = this.#parts.shops.current;
    const { versionDays, versionWeeks } = { ...KEEP_DEFAULTS, ...keep };
    return this.#earlier.thin({ days: versionDays, weeks: versionWeeks }, now, timeZone);
  }

  /** @throws SettingsRefusal unknown */
  earlier(file: string): readonly EarlierVersion[] {
    this.#read(file);
    return this.#earlier.list(file).map((version) => this.#named(version));
  }

  /** @throws SettingsRefusal unknown */
  earlierText(file: string, id: string): EarlierText {
    const text = this.#versionText(file, id);
    const version = this.#earlier.list(file).find((each) => each.id === id);
    if (version === undefined) throw unknown(`a version ${id} of ${file}`);
    return { version: this.#named(version), text, lines: linesChanged(this.#read(file) ?? '', text) };
  }

  /** Takes the files as they lie on the disk, where they can be used; else the shop stays as it is, and what is wrong is told. */
  takeFromDisk(): Promise<void> {
    return this.#inTurn(async () => {
      const { shops } = this.#parts;
      const texts = textsOf(shops.folder);
      if (!isSame(texts, shops.texts) || this.#trouble.since !== null) await this.#takeTexts(texts);
    });
  }

  async #takeTexts(texts: ChangedFiles): Promise<void> {
    const { shops, store, clock } = this.#parts;
    const { shop, problems } = readShop(shops.folder, texts);
    if (shop === null) {
      this.#tell(problems);
      return;
    }
    const used = await goneInUse(store, shops.current, shop);
    this.#tell(used);
    if (used.length > 0 || isSame(texts, shops.texts)) return;
    const files = new Set([...shops.texts.keys(), ...texts.keys()]);
    for (const file of files) {
      const before = shops.texts.get(file);
      if (texts.get(file) === before) continue;
      if (before !== undefined) this.#keep(file, before, { until: clock.now(), why: 'by-hand', by: null });
      const details = keysBetween(file, before ?? '', texts.get(file) ?? '');
      const change = { what: 'settings-by-hand', about: file, who: null, from: 'station', details } as const;
      await recordChange(store, change, clock.now());
    }
    await this.#record(shop, { who: null, from: 'station' });
    shops.take(shop, texts);
  }

  /** Keeps what becomes different for people and devices. */
  async #record(after: Shop, by: Pick<Change, 'who' | 'from'>): Promise<void> {
    const { shops, store, clock } = this.#parts;
    for (const change of shopChanges(shops.current, after))
      await recordChange(store, { ...change, ...by }, clock.now());
  }

  #tell(problems: readonly Problem[]): void {
    const since = problems.length === 0 ? null : (this.#trouble.since ?? this.#parts.clock.now());
    this.#trouble = { problems, since };
  }

  /** @param make null takes the file away */
  #write(writing: Writing, make: (text: string) => string | null): Promise<SettingsWritten> {
    return this.#inTurn(async () => {
      const { shops, store, clock } = this.#parts;
      const { file, by, why } = writing;
      const before = this.#unchanged(writing);
      const text = make(before ?? '');
      if (text === before) return { file, digest: digestOf(text), version: null, problems: this.#trouble.problems };
      const onDisk = textsOf(shops.folder);
      const { shop, problems } = readShop(shops.folder, new Map<string, string | null>([...onDisk, [file, text]]));
      if (problems.length > 0) this.#refuse(problems, file);
      const used = shop === null ? [] : await goneInUse(store, shops.current, shop);
      if (used.length > 0) throw doesNotHold(used);
      this.#unchanged(writing);
      const version = before === null ? null : this.#keep(file, before, { until: clock.now(), why, by });
      this.#put(file, text);
      const others = [...onDisk].filter(([each]) => each !== file);
      if (shop !== null) await this.#record(shop, { who: by, from: 'office' });
      if (shop !== null) shops.take(shop, new Map(text === null ? others : [...others, [file, text]]));
      this.#tell(problems);
      return { file, digest: digestOf(text), version, problems };
    });
  }

  /** Other files may be wrong already: then one may still be mended after the other. */
  #refuse(problems: readonly Problem[], file: string): void {
    const already = new Set(readShop(this.#parts.shops.folder).problems.map(keyOf));
    const new_ = problems.filter((each) => each.file === file || !already.has(keyOf(each)));
    if (new_.length > 0) throw doesNotHold(problems);
  }

  /** The file as it is. @throws SettingsRefusal where it is not what the change was made from */
  #unchanged({ file, digest }: Writing): string | null {
    const text = this.#read(file);
    if (digestOf(text) === digest) return text;
    throw new SettingsRefusal(
      'changed-meanwhile',
      `${file} was changed meanwhile. Nothing was written: read it again.`,
    );
  }

  #keep(file: string, text: string, told: { until: number; why: EarlierWhy; by: string | null }): string {
    return notWritten(() => this.#earlier.keep(file, text, told));
  }

  #put(file: string, text: string | null): void {
    const path = join(this.#parts.shops.folder, file);
    notWritten(() => {
      if (text === null) rmSync(path);
      else writeWhole(path, text);
    });
  }

  #inTurn<Done>(task: () => Promise<Done>): Promise<Done> {
    const done = this.#writing.then(task);
    this.#writing = done.catch(() => undefined);
    return done;
  }

  #versionText(file: string, id: string): string {
    this.#read(file);
    const text = this.#earlier.text(file, id);
    if (text === null) throw unknown(`a version ${id} of ${file}`);
    return text;
  }

  #named(version: Omit<EarlierVersion, 'byName'>): EarlierVersion {
    return { ...version, byName: personName(this.#parts.shops.current, version.by) };
  }

  /** Null for a file that a shop may have and this one has not. */
  #read(file: string): string | null {
    const { folder } = this.#parts.shops;
    if (!filesOfShop(folder).includes(file) && !RATE_CARD.test(file)) throw unknown(`a file ${file} of the shop`);
    const path = join(folder, file);
    return existsSync(path) ? readFileSync(path, 'utf8') : null;
  }

  #sectionAt(name: SectionName, file: string | null): { readonly section: Section; readonly place: string } {
    const section = ALL_SECTIONS.find((each) => each.name === name);
    const places = filesOfShop(this.#parts.shops.folder).filter((each) =>
      sectionsOf(each).some((one) => one.name === name),
    );
    const place = file === null ? places[0] : places.find((each) => each === file);
    if (section === undefined || place === undefined) throw unknown(`${name} in ${file ?? 'any file'}`);
    return { section, place };
  }
}

function sectionsOf(file: string): readonly Section[] {
  const own = file.startsWith('rate-cards/') ? null : basename(file);
  return ALL_SECTIONS.filter((section) => section.file === own);
}

function isSame(texts: ChangedFiles, others: ChangedFiles): boolean {
  return texts.size === others.size && [...texts].every(([file, text]) => others.get(file) === text);
}

const keyOf = ({ file, path, expected, found }: Problem) => JSON.stringify([file, path, expected, found]);

const unknown = (what: string) => new SettingsRefusal('unknown', `There is no ${what.replace(/^an? /, '')}.`);

const doesNotHold = (problems: readonly Problem[]) =>
  new SettingsRefusal('does-not-hold', 'The shop could not be used with this. Nothing was written.', problems);

function notWritten<Done>(write: () => Done): Done {
  try {
    return write();
  } catch (error) {
    if (error instanceof Error && 'code' in error) throw new SettingsRefusal('not-written', error.message);
    throw error;
  }
}
