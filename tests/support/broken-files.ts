import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse, stringify } from 'yaml';
import type { z } from 'zod';
import type { Problem } from '#config/config-error.ts';
import { clothsSchema } from '#config/schema/cloths.ts';
import { containersSchema } from '#config/schema/containers.ts';
import { devicesFile } from '#config/schema/devices.ts';
import { garmentsSchema } from '#config/schema/garments.ts';
import { importsFile } from '#config/schema/imports.ts';
import { rateCardSchema } from '#config/schema/rate-card.ts';
import { recipesSchema } from '#config/schema/recipes.ts';
import { shopFile } from '#config/schema/shop.ts';
import { staffFile } from '#config/schema/staff.ts';
import { suppliesFile } from '#config/schema/supplies.ts';
import { parseSource } from '#config/source-file.ts';
import { validate } from '#config/validate.ts';
import { CONFIG } from './config-folder.ts';

const SCHEMAS: Readonly<Record<string, z.ZodType>> = {
  'shop.yaml': shopFile,
  'staff.yaml': staffFile,
  'devices.yaml': devicesFile,
  'supplies.yaml': suppliesFile,
  'imports.yaml': importsFile,
  'cloths.yaml': clothsSchema,
  'recipes.yaml': recipesSchema,
  'garments.yaml': garmentsSchema,
  'containers.yaml': containersSchema,
};

/** Stands for a key with a letter too many. */
const RENAMED = Symbol('renamed');

/** What somebody may leave in a place by mistake. */
const SLIPS: readonly unknown[] = ['plenty', '-1 in', -1, 1.5, '', null, [], {}, '0 lb', '2026-02-30', true, RENAMED];

function filesToBreak(): readonly { readonly name: string; readonly schema: z.ZodType }[] {
  const cards = readdirSync(join(CONFIG, 'rate-cards')).map((name) => `rate-cards/${name}`);
  return [
    ...Object.entries(SCHEMAS).map(([name, schema]) => ({ name, schema })),
    ...[...cards, 'demo-metric/rate-cards/varnholm-post.yaml'].map((name) => ({ name, schema: rateCardSchema })),
  ];
}

type Place = readonly (string | number)[];

/** Every place of a value that has something in it. */
function placesOf(value: unknown, above: Place = []): readonly Place[] {
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => {
    const place = [...above, Array.isArray(value) ? Number(key) : key];
    return [place, ...placesOf(inner, place)];
  });
}

/** A copy with the slip at a place, or with another name for what is there. */
function withSlip(value: unknown, place: Place, slip: unknown): unknown {
  const copy = structuredClone(value);
  let holder = copy as Record<string | number, unknown>;
  for (const part of place.slice(0, -1)) holder = holder[part] as Record<string | number, unknown>;
  const last = place.at(-1) ?? '';
  if (slip === RENAMED) {
    holder[`${String(last)}x`] = holder[last];
    Reflect.deleteProperty(holder, last);
  } else holder[last] = slip;
  return copy;
}

/**
 * The problems of the demo shop's files with one thing wrong at a time, the next slip at the next place.
 * @param every looks at one place of so many
 */
export function brokenFiles(every: number): readonly Problem[] {
  const problems: Problem[] = [];
  for (const { name, schema } of filesToBreak()) {
    const value: unknown = parse(readFileSync(join(CONFIG, name), 'utf8'));
    for (const [index, place] of placesOf(value).entries()) {
      if (index % every !== 0) continue;
      const read = parseSource(name, stringify(withSlip(value, place, SLIPS[(index / every) % SLIPS.length])));
      const valid = read.ok ? validate(read.source, schema) : read;
      if (!valid.ok) problems.push(...valid.problems);
    }
  }
  return problems;
}
