import { toGrams } from '#shared/units/mass.ts';
import { GarmentError } from './garment-error.ts';
import { assumedOf, clothOf, kindOf, measuresOf } from './measures.ts';
import { outlineArea } from './outlines/outline-of.ts';
import type { FlatMeasures, Kind, MassModel, Piece, Wardrobe } from './types.ts';

/** One standard deviation, in g, of a piece weighed at intake: the division of a bench scale and lint. */
const INTAKE_SD = 1;

/** How much of a kind's variance its size and its cloth explain; a guess from garment tables, from memory. */
const VARIANCE_OF_SIZE = 0.3;
const VARIANCE_OF_CLOTH = 0.35;

/** Areas of a kind's own measures, which most pieces have. */
const areas = new WeakMap<Kind, WeakMap<FlatMeasures, number>>();

function areaOf(kind: Kind, measures: FlatMeasures): number {
  let known = areas.get(kind);
  if (known === undefined) areas.set(kind, (known = new WeakMap()));
  let area = known.get(measures);
  if (area === undefined) known.set(measures, (area = outlineArea(kind, measures)));
  return area;
}

/** How a piece's area compares with that of its kind's default size. */
function sizeScale(piece: Piece, kind: Kind, wardrobe: Wardrobe): number {
  const usual = kind.sizes[kind.defaultSize];
  return usual === undefined ? 1 : areaOf(kind, measuresOf(piece, wardrobe)) / areaOf(kind, usual);
}

/**
 * How many times as heavy as one of its kind's default size and cloth a piece should be: a weighing divided by this is
 * what its kind learns from.
 * @throws GarmentError unknown-kind, unknown-cloth, bad-measure or missing-measure
 */
export function massScale(piece: Piece, wardrobe: Wardrobe): number {
  const kind = kindOf(piece, wardrobe);
  const scale = sizeScale(piece, kind, wardrobe);
  const usualCloth = wardrobe.cloths.get(kind.defaultCloth);
  if (kind.outline === 'block' || piece.cloth === undefined || usualCloth === undefined) return scale;
  return (scale * clothOf(piece, wardrobe).arealMass) / usualCloth.arealMass;
}

/**
 * What a piece weighs, in g: the intake weighing where there is one; else the kind's model, scaled by the area of this
 * size and the areal mass of this cloth, and spread wider where size or cloth had to be assumed.
 * @throws GarmentError unknown-kind, unknown-cloth, bad-measure, missing-measure or bad-mass (an intake mass not above 0)
 */
export function pieceMass(piece: Piece, wardrobe: Wardrobe): MassModel {
  if (piece.mass !== undefined) {
    if (piece.mass <= 0) {
      throw new GarmentError(
        'bad-mass',
        `piece ${piece.sku}: expected a mass above 0 g, found ${toGrams(piece.mass)} g`,
      );
    }
    return { mean: toGrams(piece.mass), sd: INTAKE_SD };
  }
  const kind = kindOf(piece, wardrobe);
  const assumed = assumedOf(piece, wardrobe);
  const scale = massScale(piece, wardrobe);
  let variance = 1;
  if (!assumed.includes('size')) variance -= VARIANCE_OF_SIZE;
  if (!assumed.includes('cloth')) variance -= VARIANCE_OF_CLOTH;
  return { mean: kind.mass.mean * scale, sd: kind.mass.sd * scale * Math.sqrt(variance) };
}
