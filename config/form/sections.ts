import type { z } from 'zod';
import type { Field, SectionName } from '#shared/wire/settings.ts';
import { fieldsOf } from './fields.ts';
import { clothsSchema } from '#config/schema/cloths.ts';
import { containersSchema } from '#config/schema/containers.ts';
import { devicesFile } from '#config/schema/devices.ts';
import { garmentsSchema } from '#config/schema/garments.ts';
import { importsFile } from '#config/schema/imports.ts';
import { peopleFile } from '#config/schema/people.ts';
import { rateCardSchema } from '#config/schema/rate-card.ts';
import { recipesSchema } from '#config/schema/recipes.ts';
import { shopFile } from '#config/schema/shop.ts';
import { staffFile } from '#config/schema/staff.ts';
import { suppliesFile } from '#config/schema/supplies.ts';

/** A part of one of the shop's files that is edited as a form or as a table of entries. */
export interface Section {
  readonly name: SectionName;
  /** the file's own name; null for each rate card */
  readonly file: string | null;
  /** the key of the mapping or list that holds the entries; null where the file itself is the one entry */
  readonly at: string | null;
  /** whether the entries are those of a list, each with its `id` */
  readonly listed: boolean;
  readonly columns: readonly string[];
  readonly fields: readonly Field[];
}

/** The schema of the entries in a mapping or list of a file. */
function entrySchema(file: z.ZodObject, at: string): z.ZodType {
  let schema: unknown = file.shape[at];
  for (;;) {
    const def = (schema as { def: { innerType?: unknown; valueType?: unknown; element?: unknown } }).def;
    const inside = def.valueType ?? def.element;
    if (inside !== undefined) return inside as z.ZodType;
    if (def.innerType === undefined) throw new TypeError(`expected entries at ${at}`);
    schema = def.innerType;
  }
}

function entries(
  name: SectionName,
  file: string,
  schema: z.ZodObject,
  at: string,
  columns: readonly string[],
): Section {
  return { name, file, at, listed: false, columns, fields: fieldsOf(entrySchema(schema, at)) };
}

function whole(name: SectionName, file: string | null, schema: z.ZodObject, leaveOut: readonly string[] = []): Section {
  return { name, file, at: null, listed: false, columns: [], fields: fieldsOf(schema, leaveOut) };
}

/** Every section, in the order in which they are listed. */
export const ALL_SECTIONS: readonly Section[] = [
  whole('shop', 'shop.yaml', shopFile),
  entries('containers', 'containers.yaml', containersSchema, 'containers', ['type', 'inside', 'mass', 'cost']),
  entries('wraps', 'containers.yaml', containersSchema, 'wraps', ['massPerPiece', 'costPerPiece', 'secondsPerPiece']),
  entries('garments', 'garments.yaml', garmentsSchema, 'kinds', ['outline', 'defaultCloth', 'mass', 'recipes']),
  entries('cloths', 'cloths.yaml', clothsSchema, 'cloths', ['arealMass', 'thicknessFree', 'thicknessPressed']),
  entries('recipes', 'recipes.yaml', recipesSchema, 'recipes', []),
  entries('supplies', 'supplies.yaml', suppliesFile, 'supplies', ['container', 'pack', 'packCost', 'leadTime']),
  whole('supply-rules', 'supplies.yaml', suppliesFile, ['supplies']),
  entries('staff', 'staff.yaml', staffFile, 'staff', ['badge', 'language', 'role']),
  whole('people', 'people.yaml', peopleFile),
  entries('benches', 'devices.yaml', devicesFile, 'benches', ['scale.transport.kind', 'printer.transport.kind']),
  whole('imports', 'imports.yaml', importsFile),
  whole('rate-card', null, rateCardSchema, ['services']),
  {
    name: 'services',
    file: null,
    at: 'services',
    listed: true,
    columns: ['from', 'until', 'days'],
    fields: fieldsOf(entrySchema(rateCardSchema, 'services')),
  },
];

/** The whole of a rate card with its services: what a new one is made of. */
export const RATE_CARD_FIELDS: readonly Field[] = fieldsOf(rateCardSchema);
