import type { FlatMeasures, Kind } from '#shared/garments/types.ts';
import { applyAction, type Applied, type Around } from './apply-action.ts';
import { coverOf, thickestLayers } from './cover.ts';
import { drawingOf } from './drawing.ts';
import { boxOf, type Lay } from './lay.ts';
import type { FoldDrawing, FoldStep, Recipe, RecipeStep } from './types.ts';

/** What a recipe makes of an outline, whatever the cloth: float mm and mm2. */
export interface FoldedShape {
  readonly steps: readonly FoldStep[];
  readonly width: number;
  readonly length: number;
  /** of the table that it covers */
  readonly area: number;
  readonly layers: number;
  /** layers bent at the crease that bends the most */
  readonly bentLayers: number;
  readonly rolled: boolean;
}

/** Steps carried out already, by the actions up to them: recipes of a kind begin alike. */
export type Done = Map<string, Applied>;

/**
 * Carries out a recipe on an outline that lies flat and face up.
 * @throws FoldError does-not-close or no-such-part
 */
export function foldShape(recipe: Recipe, flat: Lay, around: Around, done: Done): FoldedShape {
  let lay = flat;
  let path = '';
  const applied: Applied[] = [];
  const steps: FoldStep[] = [];
  for (const step of recipe.steps) {
    path += JSON.stringify(step.action);
    const each = done.get(path) ?? applyAction(lay, step.action, around);
    done.set(path, each);
    applied.push(each);
    steps.push(stepOf(step, each));
    lay = each.lay;
  }
  const box = boxOf(lay.parts);
  const { area, layers } = coverOf(lay.parts);
  return {
    steps,
    width: box.width,
    length: box.height,
    area,
    layers,
    bentLayers: mostBent(applied),
    rolled: applied.some((each) => each.rolled),
  };
}

/** The creases that bend the most layers are mostly the last; earlier ones that cannot bend more are not looked at. */
function mostBent(applied: readonly Applied[]): number {
  let most = 0;
  for (let index = applied.length - 1; index >= 0; index -= 1) {
    for (const { moving } of applied[index]?.moves ?? []) {
      let atMost = 0;
      for (const part of moving) atMost += part.layers;
      if (atMost > most) most = Math.max(most, thickestLayers(moving));
    }
  }
  return most;
}

/** Planning folds thousands of pieces and looks at none; the drawing is made when somebody looks. */
function stepOf({ words, spoken, why, avoid }: RecipeStep, applied: Applied): FoldStep {
  let drawing: FoldDrawing | undefined;
  return {
    words,
    spoken,
    ...(why === undefined ? {} : { why }),
    ...(avoid === undefined ? {} : { avoid }),
    get drawing() {
      drawing ??= drawingOf(applied);
      return drawing;
    },
  };
}

/**
 * Shapes made before, by recipe, kind and the kind's own measures of a size: a shop has a few hundred of them and
 * thousands of pieces. Forgotten together with the config that they came from.
 */
const made = new WeakMap<Recipe, WeakMap<Kind, WeakMap<FlatMeasures, FoldedShape>>>();

/** Depends on nothing but outline and recipe: no roll, whose thickness is the cloth's, and no second garment. */
function dependsOnOutlineAlone(recipe: Recipe): boolean {
  return recipe.steps.every(({ action }) => action.do !== 'roll' && action.do !== 'lay-on');
}

/** {@link foldShape}, made once for a recipe, a kind and the very same measures. */
export function shapeFor(recipe: Recipe, kind: Kind, measures: FlatMeasures, make: () => FoldedShape): FoldedShape {
  if (!dependsOnOutlineAlone(recipe)) return make();
  let byKind = made.get(recipe);
  if (byKind === undefined) made.set(recipe, (byKind = new WeakMap()));
  let byMeasures = byKind.get(kind);
  if (byMeasures === undefined) byKind.set(kind, (byMeasures = new WeakMap()));
  let shape = byMeasures.get(measures);
  if (shape === undefined) byMeasures.set(measures, (shape = make()));
  return shape;
}
