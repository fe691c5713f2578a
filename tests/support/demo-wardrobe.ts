import { readFileSync } from 'node:fs';
import { parse } from 'yaml';
import { clothsSchema, toCloths } from '#config/schema/cloths.ts';
import { containersSchema, toContainers, toWraps } from '#config/schema/containers.ts';
import { garmentsSchema, toKinds } from '#config/schema/garments.ts';
import { recipesSchema, toRecipes } from '#config/schema/recipes.ts';
import type { Container, Wrap } from '#shared/fitting/types.ts';
import type { FoldedBlock, Recipe } from '#shared/folding/types.ts';
import type { Wardrobe } from '#shared/garments/types.ts';
import { lengthFromMillimetres } from '#shared/units/length.ts';
import { massFromGrams } from '#shared/units/mass.ts';

function read(file: string): unknown {
  return parse(readFileSync(new URL(`../../config/${file}`, import.meta.url), 'utf8'));
}

/** The demo shop's own kinds, cloths, recipes, containers and wraps, from its files. */
export function demoWardrobe(): Wardrobe {
  return {
    kinds: toKinds(garmentsSchema.parse(read('garments.yaml'))),
    cloths: toCloths(clothsSchema.parse(read('cloths.yaml'))),
  };
}

export function demoRecipes(): Map<string, Recipe> {
  return toRecipes(recipesSchema.parse(read('recipes.yaml')));
}

export function demoContainers(): { containers: Map<string, Container>; wraps: Map<string, Wrap> } {
  const parsed = containersSchema.parse(read('containers.yaml'));
  return { containers: toContainers(parsed, 'USD'), wraps: toWraps(parsed, 'USD') };
}

/** A container for a geometry test: sides in mm, everything else nothing. */
export function aContainer(
  type: Container['type'],
  [width, length, depth]: readonly [number, number, number?],
  more: Partial<Container> = {},
): Container {
  const sides = {
    width: lengthFromMillimetres(width),
    length: lengthFromMillimetres(length),
    ...(depth === undefined ? {} : { depth: lengthFromMillimetres(depth) }),
  };
  return {
    id: 'a-container',
    name: { en: 'Container', es: 'Embalaje' },
    type,
    inside: sides,
    outside: sides,
    closing: lengthFromMillimetres(0),
    wall: lengthFromMillimetres(0),
    mass: massFromGrams(10),
    massSd: massFromGrams(0.5),
    cost: { minor: 10, currency: 'USD' },
    seconds: 10,
    cautions: [],
    ...more,
  };
}

/** A folded block: sides in mm, not compressible unless told. */
export function aBlock(
  [width, length, thickness]: readonly [number, number, number],
  more: Partial<FoldedBlock> = {},
): FoldedBlock {
  return {
    width,
    length,
    thickness,
    pressedThickness: thickness,
    thicknessSd: 0,
    layers: 1,
    soft: false,
    mayPress: false,
    ...more,
  };
}

export const NO_WRAP: Wrap = {
  id: 'none',
  name: { en: 'No wrap', es: 'Sin envolver' },
  massPerPiece: massFromGrams(0),
  costPerPiece: { minor: 0, currency: 'USD' },
  secondsPerPiece: 0,
  thickness: 0,
};
