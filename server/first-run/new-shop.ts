import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { isMap, parseDocument } from 'yaml';
import type { Measures } from '#shared/wire/first-run.ts';
import { STORE_FILE } from '#server/backup/manifest.ts';
import { makeFolder } from '#server/make-folder.ts';

/** The stand-in for prices that a new shop begins with. */
export const SAMPLE_CARD = 'rate-cards/sample.yaml';

/** What every shop may take as it is: kinds, cloths, folds, the headers of files, how people are treated. */
const COMMON = ['garments.yaml', 'cloths.yaml', 'recipes.yaml', 'imports.yaml', 'people.yaml'];
/** What depends on the measures. */
const MEASURED = ['shop.yaml', 'devices.yaml', 'supplies.yaml', SAMPLE_CARD];
/** Where the common containers of either measures are listed. */
const CUPBOARD: Readonly<Record<Measures, string>> = {
  inches: 'containers.yaml',
  centimetres: 'demo-metric/containers.yaml',
};

/** What a server makes in a shop's folder before there is a shop: the folder of its log. */
const OF_THE_SERVER = 'data';
const hasStore = (folder: string): boolean => existsSync(join(folder, OF_THE_SERVER, STORE_FILE));

/** A folder in which a shop may be begun: it is there, and nobody has put anything into it. */
export function isEmptyFolder(folder: string): boolean {
  try {
    return readdirSync(folder).every((name) => name === OF_THE_SERVER) && !hasStore(folder);
  } catch {
    return false;
  }
}

/** A shop that was begun and has no prices of its own yet. */
export function hasStandInPrices(folder: string): boolean {
  return existsSync(join(folder, SAMPLE_CARD));
}

/**
 * The files of a new shop, by name: valid, with their comments, and with nothing of the demo's own in them.
 * @param templates the product's own config folder
 */
export function newShopFiles(templates: string, measures: Measures): ReadonlyMap<string, string> {
  const read = (name: string) => readFileSync(join(templates, name), 'utf8');
  return new Map([
    ...COMMON.map((name) => [name, read(name)] as const),
    ...MEASURED.map((name) => [name, read(join('new-shop', measures, name))] as const),
    ['staff.yaml', read('new-shop/staff.yaml')],
    ['containers.yaml', commonContainers(read(CUPBOARD[measures]))],
  ]);
}

/** Packaging that a carrier owns is left out: no carrier of a new shop has it. */
function commonContainers(text: string): string {
  const document = parseDocument(text);
  const all = document.get('containers');
  if (isMap(all)) {
    for (const { key } of [...all.items]) {
      if (document.hasIn(['containers', key, 'ownedBy'])) document.deleteIn(['containers', key]);
    }
  }
  document.commentBefore = (document.commentBefore ?? '')
    .replace(
      /^.*\n/,
      ' Containers and wraps. The sizes are common ones of the trade; costs are guesses until you write your own.\n',
    )
    .replaceAll('../', '');
  return document.toString({ lineWidth: 0 });
}

/**
 * Begins a shop in a folder that is empty or not there yet.
 * @throws the system's error, and nothing is begun where something lies there
 */
export function beginShop(folder: string, templates: string, measures: Measures = 'inches'): void {
  if (existsSync(folder) && !isEmptyFolder(folder)) throw new NotEmpty(folder);
  for (const [name, text] of newShopFiles(templates, measures)) {
    const path = join(folder, name);
    makeFolder(dirname(path));
    writeFileSync(path, text, { flag: 'wx', flush: true });
  }
}

export class NotEmpty extends Error {
  override readonly name = 'NotEmpty';

  constructor(folder: string) {
    super(`${folder}: expected an empty folder, or none, to begin a shop in; found something there`);
  }
}
