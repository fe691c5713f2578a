import { assumedOf, clothOf, kindOf, measuresOf } from '#shared/garments/measures.ts';
import { pieceMass } from '#shared/garments/mass.ts';
import { outlineOf } from '#shared/garments/outlines/outline-of.ts';
import type { FlatMeasures, Kind, Piece, Wardrobe } from '#shared/garments/types.ts';
import { HAND_PRESSURE, RESTING_PRESSURE, clothThickness } from '#shared/garments/cloth.ts';
import { applyAction } from './apply-action.ts';
import { coverOf } from './cover.ts';
import { drawingOf } from './drawing.ts';
import { FoldError } from './fold-error.ts';
import { boxOf, type Lay } from './lay.ts';
import { clothArea, foldedThickness, type Thickness } from './thickness.ts';
import type { Fold, FoldStep, FoldedBlock, Recipe } from './types.ts';

/** One standard deviation of a rigid thing's height, as a part of it: shoes of one size differ. */
const BLOCK_SPREAD = 0.04;

/**
 * A recipe carried out on a piece: every step's drawing and the folded block.
 * @throws FoldError not-foldable (a `block` kind), does-not-close, no-such-part or unfinished (no fold at all);
 *   GarmentError when the piece's kind, cloth or measures cannot be used
 */
export function foldPiece(piece: Piece, recipe: Recipe, wardrobe: Wardrobe): Fold {
  const kind = kindOf(piece, wardrobe);
  if (kind.outline === 'block') {
    throw new FoldError('not-foldable', `piece ${piece.sku}: expected a kind that folds, found ${kind.id}`);
  }
  const cloth = clothOf(piece, wardrobe);
  const mass = pieceMass(piece, wardrobe);
  const volume = clothArea(mass.mean, cloth) * clothThickness(cloth, RESTING_PRESSURE);
  const flat = outlineOf(kind, measuresOf(piece, wardrobe));
  let lay: Lay = { ...flat, up: 'face' };
  let bentLayers = 0;
  let rolled = false;
  const steps: FoldStep[] = [];
  for (const step of recipe.steps) {
    const applied = applyAction(lay, step.action, volume);
    lay = applied.lay;
    bentLayers = Math.max(bentLayers, applied.bentLayers);
    rolled ||= applied.rolled;
    const { words, spoken, why, avoid } = step;
    steps.push({
      words,
      spoken,
      ...(why === undefined ? {} : { why }),
      ...(avoid === undefined ? {} : { avoid }),
      drawing: drawingOf(applied),
    });
  }
  const box = boxOf(lay.parts);
  const cover = coverOf(lay.parts);
  const thickness = rolled
    ? rollThickness(box.height, foldedThickness(mass, cloth, cover.area, 0))
    : foldedThickness(mass, cloth, cover.area, bentLayers);
  const pressing = clothThickness(cloth, HAND_PRESSURE) < clothThickness(cloth, RESTING_PRESSURE);
  return {
    recipe: recipe.id,
    recipeName: recipe.name,
    steps,
    block: {
      width: box.width,
      length: box.height,
      thickness: thickness.resting,
      pressedThickness: thickness.pressed,
      thicknessSd: thickness.sd,
      layers: cover.layers,
      soft: true,
      mayPress: pressing && cloth.mayPress && kind.mayPress !== false,
    },
    assumed: assumedOf(piece, wardrobe),
  };
}

/** A roll is as thick as it is wide; under a hand it flattens as its cloth does. */
function rollThickness(diameter: number, flat: Thickness): Thickness {
  return {
    resting: diameter,
    pressed: (diameter * flat.pressed) / flat.resting,
    sd: (diameter * flat.sd) / flat.resting / 2,
  };
}

function blockOf(kind: Kind, measures: FlatMeasures): FoldedBlock {
  const height = measures.height;
  if (height === undefined) {
    throw new FoldError('not-foldable', `kind ${kind.id}: expected a height for a block, found none`);
  }
  return {
    width: measures.width,
    length: measures.length,
    thickness: height,
    pressedThickness: height,
    thicknessSd: height * BLOCK_SPREAD,
    layers: 1,
    soft: false,
    mayPress: false,
  };
}

/**
 * Every fold that the piece's kind knows, preferred first; of a `block` exactly one, `as-it-is`, without steps.
 * @throws FoldError unknown-recipe, and what {@link foldPiece} throws
 */
export function foldsOf(piece: Piece, wardrobe: Wardrobe, recipes: ReadonlyMap<string, Recipe>): readonly Fold[] {
  const kind = kindOf(piece, wardrobe);
  if (kind.outline === 'block') {
    const block = blockOf(kind, measuresOf(piece, wardrobe));
    const recipeName = { en: 'As it is', es: 'Tal como está' };
    return [{ recipe: 'as-it-is', recipeName, steps: [], block, assumed: assumedOf(piece, wardrobe) }];
  }
  return kind.recipes.map((id) => {
    const recipe = recipes.get(id);
    if (recipe === undefined) {
      throw new FoldError('unknown-recipe', `kind ${kind.id}: expected a recipe of the shop, found "${id}"`);
    }
    return foldPiece(piece, recipe, wardrobe);
  });
}
