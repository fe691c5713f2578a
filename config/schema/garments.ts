import { z } from 'zod';
import { DETAILS, OUTLINES, type FlatMeasures, type Kind, type Outline } from '#shared/garments/types.ts';
import { toMillimetres } from '#shared/units/length.ts';
import { toGrams } from '#shared/units/mass.ts';
import { CAUTIONS } from '#shared/garments/cautions.ts';
import { id, length, localised, mass } from './quantities.ts';

/** A length above nothing, as float mm. */
const millimetres = length.transform((exact, context) => {
  const mm = toMillimetres(exact);
  if (mm > 0) return mm;
  context.addIssue({ code: 'custom', message: `expected a length above 0, found ${String(mm)} mm` });
  return z.NEVER;
});

const grams = mass.transform((exact, context) => {
  const value = toGrams(exact);
  if (value > 0) return value;
  context.addIssue({ code: 'custom', message: `expected a mass above 0, found ${String(value)} g` });
  return z.NEVER;
});

const measures = z.strictObject({
  width: millimetres,
  length: millimetres,
  sleeveLength: millimetres.optional(),
  sleeveWidth: millimetres.optional(),
  neckDepth: millimetres.optional(),
  hoodHeight: millimetres.optional(),
  hipWidth: millimetres.optional(),
  inseam: millimetres.optional(),
  hemWidth: millimetres.optional(),
  flareWidth: millimetres.optional(),
  height: millimetres.optional(),
});

/** What an outline cannot be drawn without, besides width and length. */
const NEEDED: Readonly<Record<Outline, readonly (keyof FlatMeasures)[]>> = {
  top: [],
  dress: [],
  legs: ['inseam'],
  skirt: [],
  strip: [],
  block: ['height'],
};

const kind = z
  .strictObject({
    name: localised,
    outline: z.enum(OUTLINES),
    sizes: z.record(z.string().min(1), measures),
    defaultSize: z.string().min(1),
    defaultCloth: id,
    mass: z.strictObject({ mean: grams, sd: grams }),
    clothLayers: z.number().min(1).max(12),
    details: z.array(z.enum(DETAILS)).optional(),
    mayPress: z.boolean().optional(),
    recipes: z.array(id).default([]),
    uncreased: z.array(id).optional(),
    cautions: z.array(z.enum(CAUTIONS)).default([]),
    source: z.string().min(1),
  })
  .superRefine((each, context) => {
    const complain = (path: (string | number)[], message: string) => {
      context.addIssue({ code: 'custom', path, message });
    };
    const sizes = Object.keys(each.sizes);
    if (!sizes.includes(each.defaultSize)) {
      complain(['defaultSize'], `expected one of the sizes ${sizes.join(', ')}, found "${each.defaultSize}"`);
    }
    for (const [size, given] of Object.entries(each.sizes)) {
      for (const needed of NEEDED[each.outline]) {
        if (given[needed] === undefined) {
          complain(['sizes', size], `expected ${needed} for the outline ${each.outline}, found none`);
        }
      }
      if (given.inseam !== undefined && given.inseam >= given.length) {
        complain(['sizes', size, 'inseam'], 'expected an inseam shorter than the length');
      }
    }
    if (each.outline === 'block' ? each.recipes.length > 0 : each.recipes.length === 0) {
      complain(
        ['recipes'],
        each.outline === 'block' ? 'expected none: a block is not folded' : 'expected at least one',
      );
    }
  });

/** The whole of `garments.yaml`. */
export const garmentsSchema = z.strictObject({ kinds: z.record(id, kind) });
export type ParsedGarments = z.output<typeof garmentsSchema>;

export function toKinds(parsed: ParsedGarments): Map<string, Kind> {
  return new Map(
    Object.entries(parsed.kinds).map(([key, { sizes, details, mayPress, uncreased, ...rest }]) => [
      key,
      {
        id: key,
        ...rest,
        sizes: Object.fromEntries(Object.entries(sizes).map(([size, given]) => [size, given as FlatMeasures])),
        ...(details === undefined ? {} : { details }),
        ...(mayPress === undefined ? {} : { mayPress }),
        ...(uncreased === undefined ? {} : { uncreased }),
      },
    ]),
  );
}
