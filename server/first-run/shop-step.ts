import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseDocument } from 'yaml';
import { newShopFiles, SAMPLE_CARD } from './new-shop.ts';
import type { ChangedFiles } from '#config/load.ts';
import { MEASURES, type DayOrder, type Measures, type ShopFacts } from '#shared/wire/first-run.ts';

const UNITS: Readonly<Record<Measures, object>> = {
  inches: { mass: 'oz', massPlaces: 1, length: 'in' },
  centimetres: { mass: 'g', massPlaces: 0, length: 'cm' },
};

/** Of two readings of a day the first counts, so the other order is left out: it would be taken for a day that nobody meant. */
const DAYS: Readonly<Record<DayOrder, readonly string[]>> = {
  'day-first': ['DD/MM/YYYY', 'DD.MM.YYYY', 'DD-MM-YYYY'],
  'month-first': ['MM/DD/YYYY', 'DD.MM.YYYY'],
};

/**
 * The shop's files with these facts. Files that stand as they were begun with go over to other measures; what somebody has
 * changed stays, whatever it is written in.
 */
export function withShopFacts(folder: string, templates: string, facts: ShopFacts): ChangedFiles {
  const changed = new Map<string, string>();
  const there = (name: string): string | null => {
    try {
      return readFileSync(join(folder, name), 'utf8');
    } catch {
      return null;
    }
  };
  const wished = newShopFiles(templates, facts.measures);
  for (const other of MEASURES.filter((each) => each !== facts.measures)) {
    const before = newShopFiles(templates, other);
    for (const name of ['containers.yaml', 'devices.yaml', 'supplies.yaml']) {
      const text = wished.get(name);
      if (text !== undefined && there(name) === before.get(name)) changed.set(name, text);
    }
  }
  const shop = parseDocument(there('shop.yaml') ?? wished.get('shop.yaml') ?? '');
  const { name, currency, timeZone, language, postcode, country, address } = facts;
  for (const [key, value] of Object.entries({ name, currency, timeZone, language })) shop.set(key, value);
  shop.setIn(['from', 'postcode'], postcode);
  shop.setIn(['from', 'country'], country);
  for (const [key, value] of Object.entries(UNITS[facts.measures])) shop.setIn(['units', key], value);
  shop.set('address', shop.createNode(address));
  changed.set('shop.yaml', shop.toString({ lineWidth: 0 }));
  const imports = parseDocument(there('imports.yaml') ?? wished.get('imports.yaml') ?? '');
  const days = imports.createNode(DAYS[facts.days]);
  days.flow = true;
  imports.set('days', days);
  imports.set('decimalMark', facts.decimals);
  changed.set('imports.yaml', imports.toString({ lineWidth: 0 }));
  const sample = there(SAMPLE_CARD);
  if (sample !== null) {
    const card = parseDocument(wished.get(SAMPLE_CARD) ?? sample);
    card.set('currency', currency);
    changed.set(SAMPLE_CARD, card.toString({ lineWidth: 0 }));
  }
  return changed;
}
