import { assumedOf, clothOf, kindOf, measuresOf } from '#shared/garments/measures.ts';
import { pieceMass } from '#shared/garments/mass.ts';
import { outlineOf } from '#shared/garments/outlines/outline-of.ts';
import type { Cloth, FlatMeasures, Kind, MassModel, Piece, Wardrobe } from '#shared/garments/types.ts';
import { RESTING_PRESSURE, clothThickness } from '#shared/garments/cloth.ts';
import type { Around } from './apply-action.ts';
import { FoldError } from './fold-error.ts';
import { foldShape, shapeFor, type Done } from './folded-shape.ts';
import type { Lay } from './lay.ts';
import { clothArea, foldedThickness, type Thickness } from './thickness.ts';
import type { Fold, FoldedBlock, Recipe } from './types.ts';

/** One standard deviation of a rigid thing's height, as a part of it: shoes of one size differ. */
const BLOCK_SPREAD = 0.04;

/** What every recipe for a piece starts from. */
interface Prepared {
  readonly kind: Kind;
  readonly cloth: Cloth;
  readonly mass: MassModel;
  readonly measures: FlatMeasures;
  readonly assumed: Fold['assumed'];
  readonly companion: Around['companion'];
  readonly done: Done;
}

function prepare(piece: Piece, wardrobe: Wardrobe): Prepared {
  const kind = kindOf(piece, wardrobe);
  if (kind.outline === 'block') {
    throw new FoldError('not-foldable', `piece ${piece.sku}: expected a kind that folds, found ${kind.id}`);
  }
  return {
    kind,
    cloth: clothOf(piece, wardrobe),
    mass: pieceMass(piece, wardrobe),
    measures: measuresOf(piece, wardrobe),
    assumed: assumedOf(piece, wardrobe),
    companion: (id) => companionOf(piece, id, wardrobe),
    done: new Map(),
  };
}

/** The other part of a set: the kind in the piece's size where it has that, else in its own default. */
function companionOf(piece: Piece, id: string, wardrobe: Wardrobe): Lay {
  const part: Piece = { sku: piece.sku, title: piece.title, kind: id };
  const sized: Piece = piece.size === undefined ? part : { ...part, size: piece.size };
  return { ...outlineOf(kindOf(part, wardrobe), measuresOf(sized, wardrobe)), up: 'face' };
}

/**
 * A recipe carried out on a piece: every step's drawing and the folded block.
 * @throws FoldError not-foldable (a `block` kind), does-not-close or no-such-part;
 *   GarmentError when the piece's kind, cloth or measures cannot be used
 */
export function foldPiece(piece: Piece, recipe: Recipe, wardrobe: Wardrobe): Fold {
  return carryOut(recipe, prepare(piece, wardrobe));
}

function carryOut(recipe: Recipe, prepared: Prepared): Fold {
  const { kind, cloth, mass, measures, assumed } = prepared;
  const shape = shapeFor(recipe, kind, measures, () => {
    const volume = clothArea(mass.mean, cloth) * clothThickness(cloth, RESTING_PRESSURE);
    const flat: Lay = { ...outlineOf(kind, measures), up: 'face' };
    return foldShape(recipe, flat, { volume, companion: prepared.companion }, prepared.done);
  });
  const bySums = shape.rolled
    ? rollThickness(shape.length, foldedThickness(mass, cloth, shape.area, 0))
    : foldedThickness(mass, cloth, shape.area, shape.bentLayers);
  const thickness = asLearned(kind, bySums);
  return {
    recipe: recipe.id,
    recipeName: recipe.name,
    steps: shape.steps,
    block: {
      width: shape.width,
      length: shape.length,
      thickness: thickness.resting,
      pressedThickness: thickness.pressed,
      thicknessSd: thickness.sd,
      layers: shape.layers,
      soft: true,
      mayPress: cloth.mayPress && kind.mayPress !== false,
    },
    assumed,
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

/** The thickness times what parcels have taught of the kind, its doubt added. */
function asLearned({ thicknessFactor }: Kind, { resting, pressed, sd }: Thickness): Thickness {
  if (thicknessFactor === undefined) return { resting, pressed, sd };
  const { mean, sd: doubt } = thicknessFactor;
  return { resting: resting * mean, pressed: pressed * mean, sd: Math.hypot(sd * mean, resting * doubt) };
}

function blockOf(kind: Kind, measures: FlatMeasures): FoldedBlock {
  const height = measures.height;
  if (height === undefined) {
    throw new FoldError('not-foldable', `kind ${kind.id}: expected a height for a block, found none`);
  }
  const thickness = asLearned(kind, { resting: height, pressed: height, sd: height * BLOCK_SPREAD });
  return {
    width: measures.width,
    length: measures.length,
    thickness: thickness.resting,
    pressedThickness: thickness.pressed,
    thicknessSd: thickness.sd,
    layers: 1,
    soft: false,
    mayPress: false,
  };
}

/**
 * Every fold that the piece's kind knows, preferred first, and of cloth that must not be creased only those that are rolled
 * where the kind has any; of a `block` exactly one, `as-it-is`, without steps.
 * @throws FoldError unknown-recipe, and what {@link foldPiece} throws
 */
export function foldsOf(piece: Piece, wardrobe: Wardrobe, recipes: ReadonlyMap<string, Recipe>): readonly Fold[] {
  const kind = kindOf(piece, wardrobe);
  if (kind.outline === 'block') {
    const block = blockOf(kind, measuresOf(piece, wardrobe));
    const recipeName = { en: 'As it is', es: 'Tal como está' };
    return [{ recipe: 'as-it-is', recipeName, steps: [], block, assumed: assumedOf(piece, wardrobe) }];
  }
  const prepared = prepare(piece, wardrobe);
  const { uncreased = [] } = kind;
  const ids = prepared.cloth.mayCrease === false && uncreased.length > 0 ? uncreased : kind.recipes;
  return ids.map((id) => {
    const recipe = recipes.get(id);
    if (recipe === undefined) {
      throw new FoldError('unknown-recipe', `kind ${kind.id}: expected a recipe of the shop, found "${id}"`);
    }
    return carryOut(recipe, prepared);
  });
}
