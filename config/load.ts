import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { basename, join, posix } from 'node:path';
import type { z } from 'zod';
import type { Shop } from '#shared/shop/shop.ts';

import { parseMoney } from '#shared/units/money.ts';
import { ConfigError, type Problem } from './config-error.ts';
import { SHARABLE_FILES, type Checked, type CheckedFolder, type CompleteFolder } from './checked-folder.ts';
import { linkProblems } from './links.ts';
import { clothsSchema, toCloths } from './schema/cloths.ts';
import { containersSchema, toContainers, toWraps } from './schema/containers.ts';
import { devicesFile } from './schema/devices.ts';
import { garmentsSchema, toKinds } from './schema/garments.ts';
import { importsFile } from './schema/imports.ts';
import { rateCardSchema, toRateBook } from './schema/rate-card.ts';
import { peopleFile, toPeopleRules } from './schema/people.ts';
import { recipesSchema, toRecipes, withFolds } from './schema/recipes.ts';
import { shopFile, type ShopFile } from './schema/shop.ts';
import { staffFile } from './schema/staff.ts';
import { suppliesFile, toStockRules, toSupplies } from './schema/supplies.ts';
import { bookProblems } from './rate-book.ts';
import { parsedOnce, validatedOnce } from './read-once.ts';
import { readSource, type ReadResult } from './source-file.ts';

const RATE_CARDS = 'rate-cards';

/** Texts to read in place of files of the folder, by name: what the folder would be with them. */
export type ChangedFiles = ReadonlyMap<string, string>;

/** As {@link ChangedFiles}, with null for a file that is taken away. */
type Replaced = ReadonlyMap<string, string | null>;

const UNCHANGED: Replaced = new Map();

/** Everything that is known of a config folder. */
export interface FolderReport {
  /** what keeps it from being loaded */
  readonly problems: readonly Problem[];
  /** what leaves days or zones without a price */
  readonly warnings: readonly Problem[];
}

/** Reads every file of the folder, each against its schema, and then what they say of each other. */
function readFolder(folder: string, changed: Replaced): FolderReport & { readonly files: CheckedFolder } {
  const problems: Problem[] = [];
  const check = <Schema extends z.ZodType>(name: string, schema: Schema): Checked<z.output<Schema>> | undefined => {
    const text = changed.get(name);
    const read = sourceOf(folder, name, text);
    if (!read.ok) {
      problems.push(...read.problems);
      return undefined;
    }
    const valid = validatedOnce(read.source, schema);
    if (valid.ok) return { source: read.source, value: valid.value };
    problems.push(...valid.problems);
    return undefined;
  };

  const shop = check('shop.yaml', shopFile);
  const place = (name: string): string => placeOf(name, shop?.value.sharedFiles);
  const optional = <Part extends object>(name: string, read: (name: string) => Part): Part | null =>
    changed.has(name) || existsSync(join(folder, name)) ? read(name) : null;
  const cardNames = rateCardNames(folder, changed);
  const rateCards = cardNames.flatMap((name) => check(name, rateCardSchema) ?? []);
  const files: CheckedFolder = {
    shop,
    staff: check(place('staff.yaml'), staffFile),
    ...optional(place('people.yaml'), (name) => ({ people: check(name, peopleFile) })),
    devices: check(place('devices.yaml'), devicesFile),
    supplies: check(place('supplies.yaml'), suppliesFile),
    imports: check(place('imports.yaml'), importsFile),
    cloths: check(place('cloths.yaml'), clothsSchema),
    recipes: check(place('recipes.yaml'), recipesSchema),
    garments: check(place('garments.yaml'), garmentsSchema),
    containers: check(place('containers.yaml'), containersSchema),
    rateCards,
    cardsMissing: rateCards.length < cardNames.length,
  };
  if (cardNames.length === 0) {
    problems.push({
      file: RATE_CARDS,
      path: '',
      line: null,
      expected: 'a folder with at least one rate card',
      found: existsSync(join(folder, RATE_CARDS)) ? 'no .yaml file in it' : 'no such folder',
    });
  }
  const book = bookProblems(files);
  return { files, problems: [...problems, ...linkProblems(files), ...book.problems], warnings: book.warnings };
}

/** Where a file lies as seen from the folder, which may share it with another shop. */
function placeOf(name: string, shared: readonly string[] = []): string {
  const elsewhere = shared.find((path) => basename(path) === name);
  return elsewhere === undefined ? name : posix.normalize(elsewhere);
}

/** Every file that the shop of a folder is read from, as seen from the folder, whether it is there or not. */
export function filesOfShop(folder: string, changed = UNCHANGED): readonly string[] {
  const text = changed.get('shop.yaml');
  const read = sourceOf(folder, 'shop.yaml', text);
  const valid = read.ok ? validatedOnce(read.source, shopFile) : null;
  const shared = valid?.ok === true ? valid.value.sharedFiles : [];
  return ['shop.yaml', ...SHARABLE_FILES.map((name) => placeOf(name, shared)), ...rateCardNames(folder, changed)];
}

/** The files of a folder as they are at this moment, by their places; those that cannot be read are missing. */
export function textsOf(folder: string): ChangedFiles {
  const texts = new Map<string, string>();
  for (const name of filesOfShop(folder)) {
    try {
      texts.set(name, new TextDecoder('utf-8', { fatal: true }).decode(readFileSync(join(folder, name))));
    } catch {
      // Reading the shop says what is wrong with it.
    }
  }
  return texts;
}

function sourceOf(folder: string, name: string, text: string | null | undefined): ReadResult {
  return typeof text === 'string' ? parsedOnce(name, text) : readSource(folder, name, parsedOnce);
}

function rateCardNames(folder: string, changed: Replaced): readonly string[] {
  const added = [...changed.keys()].filter((name) => name.startsWith(`${RATE_CARDS}/`));
  const there = filesOf(join(folder, RATE_CARDS)).map((name) => `${RATE_CARDS}/${name}`);
  return [...new Set([...there, ...added])].filter((name) => changed.get(name) !== null).sort();
}

function filesOf(folder: string): readonly string[] {
  try {
    return readdirSync(folder).filter((name) => /\.ya?ml$/.test(name));
  } catch {
    return [];
  }
}

/** Everything that is wrong with a config folder; empty when {@link loadShop} would load it. */
export function checkFolder(folder: string): readonly Problem[] {
  return reportOn(folder).problems;
}

/** A folder that is not there is one problem, not one for each file that it lacks. */
function folderProblem(folder: string): Problem | null {
  const found = statSync(folder, { throwIfNoEntry: false });
  if (found?.isDirectory() === true) return null;
  const there = found === undefined ? 'no such folder' : 'a file';
  return { file: folder, path: '', line: null, expected: "a folder with the shop's files", found: there };
}

/** What is wrong with a config folder and what its owner should know, with some files as they would be. */
export function reportOn(folder: string, changed = UNCHANGED): FolderReport {
  const missing = folderProblem(folder);
  if (missing !== null) return { problems: [missing], warnings: [] };
  const { problems, warnings } = readFolder(folder, changed);
  return { problems, warnings };
}

/** What is wrong with a config folder, with some files as they would be, and the shop where nothing is. */
export function readShop(folder: string, changed = UNCHANGED): FolderReport & { readonly shop: Shop | null } {
  const missing = folderProblem(folder);
  if (missing !== null) return { problems: [missing], warnings: [], shop: null };
  const { files, problems, warnings } = readFolder(folder, changed);
  // No problem means that every file passed its schema.
  return { problems, warnings, shop: problems.length > 0 ? null : toShop(files as CompleteFolder) };
}

/** The rate cards of a folder with their files, those that can be read. */
export function rateCardFiles(folder: string, changed = UNCHANGED): CheckedFolder['rateCards'] {
  return rateCardNames(folder, changed).flatMap((name) => {
    const text = changed.get(name);
    const read = sourceOf(folder, name, text);
    const valid = read.ok ? validatedOnce(read.source, rateCardSchema) : null;
    return read.ok && valid?.ok === true ? [{ source: read.source, value: valid.value }] : [];
  });
}

/**
 * Loads the shop from its config folder.
 * @param changed files to take as they would be
 * @throws ConfigError with every problem of every file
 */
export function loadShop(folder: string, changed = UNCHANGED): Shop {
  const { shop, problems } = readShop(folder, changed);
  if (shop === null) throw new ConfigError(problems);
  return shop;
}

function toShop(files: CompleteFolder): Shop {
  const shop = files.shop.value;
  const { days, shipByTime, decimalMark, watchedFolder, pieces, orders } = files.imports.value;
  const { currency } = shop;
  const containers = toContainers(files.containers.value, currency);
  return {
    name: shop.name,
    currency,
    timeZone: shop.timeZone,
    language: shop.language,
    units: shop.units,
    from: shop.from,
    address: shop.address,
    slip: shop.slip,
    labour: {
      perHour: parseMoney(shop.labour.perHour, currency),
      repackSeconds: shop.labour.repackSeconds,
    },
    collections: shop.collections,
    wardrobe: {
      kinds: withFolds(toKinds(files.garments.value), files.recipes.value),
      cloths: toCloths(files.cloths.value),
    },
    recipes: toRecipes(files.recipes.value),
    ...(shop.unasked === undefined ? {} : { unasked: shop.unasked }),
    ...(shop.keepScreenAwake === undefined ? {} : { keepScreenAwake: shop.keepScreenAwake }),
    ...preferencesOf(shop),
    ...shipmentsOf(shop),
    ...labelsOf(shop),
    ...backupsOf(shop),
    ...proofOf(shop),
    ...(shop.privacy === undefined ? {} : { privacy: shop.privacy }),
    ...(shop.network === undefined ? {} : { network: shop.network }),
    ...(shop.keep === undefined ? {} : { keep: shop.keep }),
    outOfStock: files.supplies.value.outOfStock ?? [],
    supplies: toSupplies(files.supplies.value, containers, currency),
    stockRules: toStockRules(files.supplies.value),
    containers,
    wraps: toWraps(files.containers.value, currency),
    rates: toRateBook(files.rateCards.map((card) => card.value)),
    additions: files.supplies.value.additions,
    staff: Object.entries(files.staff.value.staff).map(([id, member]) => ({ id, ...member })),
    ...(files.people === undefined ? {} : { people: toPeopleRules(files.people.value) }),
    benches: Object.entries(files.devices.value.benches).map(([id, bench]) => ({ id, ...bench })),
    importAliases: { pieces: present(pieces), orders: present(orders) },
    importFormats: { days, shipByTime, decimalMark, ...(watchedFolder === undefined ? {} : { watchedFolder }) },
  };
}

function shipmentsOf({ shipments }: ShopFile): Pick<Shop, 'shipments'> {
  if (shipments === undefined) return {};
  const { columns, origin, hsCodes } = shipments;
  return { shipments: { columns, hsCodes, ...(origin === undefined ? {} : { origin }) } };
}

function backupsOf({ backups }: ShopFile): Pick<Shop, 'backups'> {
  return backups === undefined ? {} : { backups: backups === 'none' ? null : backups };
}

function labelsOf({ labels }: ShopFile): Pick<Shop, 'labels'> {
  return labels === undefined ? {} : { labels: { ...labels, secret: labels.secret ?? null } };
}

function proofOf({ proof, currency }: ShopFile): Pick<Shop, 'proof'> {
  if (proof === undefined) return {};
  const { photos, keepDays } = proof;
  return {
    proof: { photos: typeof photos === 'string' ? photos : { from: parseMoney(photos.from, currency) }, keepDays },
  };
}

function preferencesOf({ preferences: given, currency }: ShopFile): Pick<Shop, 'preferences'> {
  if (given === undefined) return {};
  const { wrapAbove, doubleBagAbove, promise } = given;
  return {
    preferences: {
      ...(wrapAbove === undefined
        ? {}
        : { wrapAbove: { value: parseMoney(wrapAbove.value, currency), wraps: wrapAbove.wraps } }),
      ...(doubleBagAbove === undefined ? {} : { doubleBagAbove: parseMoney(doubleBagAbove, currency) }),
      ...(promise === undefined ? {} : { promise }),
    },
  };
}

function present(aliases: Readonly<Record<string, readonly string[] | undefined>>): Record<string, readonly string[]> {
  return Object.fromEntries(
    Object.entries(aliases).flatMap(([field, names]) => (names === undefined ? [] : [[field, names]])),
  );
}
