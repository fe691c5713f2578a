import { describe, expect, it } from 'vitest';
import { isFoldError } from '#shared/folding/fold-error.ts';
import { foldPiece, foldsOf } from '#shared/folding/fold-piece.ts';
import { edgeBulge, foldedThickness } from '#shared/folding/thickness.ts';
import type { FoldAction, Recipe } from '#shared/folding/types.ts';
import { HAND_PRESSURE, RESTING_PRESSURE } from '#shared/garments/cloth.ts';
import type { Cloth, Kind, Wardrobe } from '#shared/garments/types.ts';

const text = { en: 'x', es: 'x' };
const recipeOf = (id: string, ...actions: readonly FoldAction[]): Recipe => ({
  id,
  name: text,
  steps: actions.map((action) => ({ action, words: text, spoken: text })),
});
const half: FoldAction = { do: 'fold-length', from: 'bottom', to: [1, 2] };
const cloth: Cloth = {
  id: 'c',
  name: text,
  arealMass: 200,
  thicknessFree: 1,
  thicknessPressed: 0.5,
  thicknessSpread: 0.1,
  bendingLength: 20,
  mayPress: true,
  source: 'test',
};
/** 400 x 600 mm, two layers: 0.48 m2 of 200 g/m2 are 96 g. */
const kind: Kind = {
  id: 'k',
  name: text,
  outline: 'strip',
  sizes: { one: { width: 400, length: 600 } },
  defaultSize: 'one',
  defaultCloth: 'c',
  mass: { mean: 96, sd: 0 },
  clothLayers: 2,
  recipes: ['flat', 'half'],
  cautions: [],
  source: 'test',
};
const wardrobe = (more: Partial<Kind> = {}, moreCloth: Partial<Cloth> = {}): Wardrobe => ({
  kinds: new Map([['k', { ...kind, ...more }]]),
  cloths: new Map([['c', { ...cloth, ...moreCloth }]]),
});
const piece = { sku: 's', title: 't', kind: 'k', size: 'one', cloth: 'c' };
const recipes = new Map([
  ['flat', recipeOf('flat', { do: 'fasten' })],
  ['half', recipeOf('half', half)],
  ['roll', recipeOf('roll', half, { do: 'roll', from: 'bottom' })],
]);
const block = (recipe: string, of: Wardrobe = wardrobe()) => foldPiece(piece, recipes.get(recipe)!, of).block;

describe('a folded block', () => {
  it('of what was never bent is as thick as its layers, with the spread of its cloth', () => {
    expect(block('flat')).toMatchObject({ width: 400, length: 600, layers: 2, soft: true, mayPress: true });
    expect(block('flat').thickness).toBeCloseTo(2, 9);
    expect(block('flat').thicknessSd).toBeCloseTo(0.2, 9);
  });

  it('has a bulge for the layers of the crease that bends the most, whichever step that was', () => {
    expect(block('half').thickness).toBeCloseTo(4 + edgeBulge(cloth, 2, RESTING_PRESSURE), 6);
    // folded in half and in half again: 4 layers lie bent at the last crease, 2 at the first
    const twice = foldPiece(piece, recipeOf('r', half, half), wardrobe()).block;
    expect(twice.thickness).toBeCloseTo(8 + edgeBulge(cloth, 4, RESTING_PRESSURE), 6);
    // a narrow tuck bends no fewer layers than the fold after it; the thickest bend counts, not the sum
    const tucked = foldPiece(
      piece,
      recipeOf('r', half, half, { do: 'fold-width', from: 'right', to: [1, 2] }, { do: 'fasten' }),
      wardrobe(),
    ).block;
    expect(tucked.thickness).toBeCloseTo(16 + edgeBulge(cloth, 8, RESTING_PRESSURE), 6);
  });

  it('begins with its face up, as the other part of a set does', () => {
    const [step] = foldPiece(piece, recipeOf('r', { do: 'face-up' }), wardrobe()).steps;
    expect(step!.drawing.arrow).toBeUndefined();
    const kinds = new Map([...wardrobe().kinds, ['other', { ...kind, id: 'other' }]]);
    const set = recipeOf('r', { do: 'lay-on', kind: 'other', by: [{ do: 'face-up' }] });
    const laid = foldPiece(piece, set, { ...wardrobe(), kinds }).steps[0]!.drawing;
    expect(laid.landing.map(({ side }) => side)).toEqual(['face']);
  });

  it('rolled is as high as wide and gives under a hand as its cloth does', () => {
    const rolled = block('roll');
    const flat = foldedThickness({ mean: 96, sd: 0 }, cloth, rolled.width * rolled.length, 0);
    expect(rolled.thickness).toBe(rolled.length);
    expect(rolled.pressedThickness / rolled.thickness).toBeCloseTo(flat.pressed / flat.resting, 9);
    expect(rolled.thicknessSd / rolled.thickness).toBeCloseTo(0.1 / 2, 9);
  });

  it('is as much thicker as parcels have taught, and its doubt is added', () => {
    const learned = block('flat', wardrobe({ thicknessFactor: { mean: 1.5, sd: 0.2 } }));
    expect(learned.thickness).toBeCloseTo(3, 9);
    expect(learned.pressedThickness).toBeCloseTo(1.5 * block('flat').pressedThickness, 9);
    // 1.5 x 0.2 and 0.2 x 2
    expect(learned.thicknessSd).toBeCloseTo(0.5, 9);
  });

  it('must not be pressed where the cloth or the kind suffers', () => {
    expect(block('flat', wardrobe({ mayPress: false })).mayPress).toBe(false);
    expect(block('flat', wardrobe({ mayPress: true })).mayPress).toBe(true);
    expect(block('flat', wardrobe({}, { mayPress: false })).mayPress).toBe(false);
  });

  it('spreads by its cloth and its mass together: 6 and 8 % come to 10', () => {
    const { resting, pressed, sd } = foldedThickness(
      { mean: 96, sd: 7.68 },
      { ...cloth, thicknessSpread: 0.06 },
      240_000,
      0,
    );
    expect(resting).toBeCloseTo(2, 9);
    expect(sd).toBeCloseTo(0.2, 9);
    expect(pressed).toBeLessThan(resting);
    expect(foldedThickness({ mean: 0, sd: 5 }, cloth, 240_000, 0)).toEqual({ resting: 0, pressed: 0, sd: 0 });
  });

  it('bulges by three tenths of the length that its stiffness and the pressure make', () => {
    // weight of 200 g/m2 is 1.96133 N/m2, times 20 mm cubed 1.569e-5 N m; of 4 layers at 1 kPa the cube root of
    // 6.276e-5 / 1000 is 3.974 mm
    expect(edgeBulge(cloth, 4, HAND_PRESSURE)).toBeCloseTo(0.3 * 3.974, 3);
    expect(edgeBulge(cloth, 32, HAND_PRESSURE)).toBeCloseTo(2 * edgeBulge(cloth, 4, HAND_PRESSURE), 9);
  });
});

describe('which folds a kind knows', () => {
  const ids = (of: Wardrobe) => foldsOf(piece, of, recipes).map(({ recipe }) => recipe);

  it('are its recipes in their order; of cloth that must not be creased those that are rolled, where it has any', () => {
    expect(ids(wardrobe())).toEqual(['flat', 'half']);
    expect(ids(wardrobe({ uncreased: ['roll'] }))).toEqual(['flat', 'half']);
    expect(ids(wardrobe({ uncreased: ['roll'] }, { mayCrease: false }))).toEqual(['roll']);
    expect(ids(wardrobe({ uncreased: ['roll'] }, { mayCrease: true }))).toEqual(['flat', 'half']);
    expect(ids(wardrobe({ uncreased: [] }, { mayCrease: false }))).toEqual(['flat', 'half']);
    expect(ids(wardrobe({}, { mayCrease: false }))).toEqual(['flat', 'half']);
  });

  it('is one for a thing that keeps its shape, a twenty-fifth of its height unsure', () => {
    const sizes = { one: { width: 200, length: 300, height: 100 } };
    const [fold, ...others] = foldsOf(piece, wardrobe({ outline: 'block', sizes }), recipes);
    expect(others).toEqual([]);
    expect(fold).toMatchObject({ recipe: 'as-it-is', recipeName: { en: 'As it is', es: 'Tal como está' }, steps: [] });
    const { thicknessSd, ...rest } = fold!.block;
    expect(rest).toEqual({
      width: 200,
      length: 300,
      thickness: 100,
      pressedThickness: 100,
      layers: 1,
      soft: false,
      mayPress: false,
    });
    expect(thicknessSd).toBeCloseTo(4, 9);
  });

  it('names a thing without a height, and one that does not fold', () => {
    const flat = wardrobe({ outline: 'block' });
    const refused = (run: () => unknown) => {
      try {
        run();
      } catch (error) {
        return isFoldError(error) && `${error.code}: ${error.message}`;
      }
      return null;
    };
    expect(refused(() => foldsOf(piece, flat, recipes))).toBe(
      'not-foldable: kind k: expected a height for a block, found none',
    );
    expect(refused(() => foldPiece(piece, recipes.get('half')!, flat))).toBe(
      'not-foldable: piece s: expected a kind that folds, found k',
    );
    expect(refused(() => foldsOf(piece, wardrobe(), new Map()))).toBe(
      'unknown-recipe: kind k: expected a recipe of the shop, found "flat"',
    );
  });

  it('carries what is said at a step, and why, and what to avoid', () => {
    const steps = [
      {
        action: half,
        words: { en: 'a', es: 'b' },
        spoken: { en: 'c', es: 'd' },
        why: text,
        avoid: { en: 'e', es: 'f' },
      },
      { action: half, words: text, spoken: text },
    ];
    const fold = foldPiece(piece, { id: 'said', name: { en: 'Said', es: 'Dicho' }, steps }, wardrobe());
    expect(fold).toMatchObject({ recipe: 'said', recipeName: { en: 'Said', es: 'Dicho' }, assumed: [] });
    const [first, second] = fold.steps;
    expect(first).toMatchObject({ words: { en: 'a' }, spoken: { es: 'd' }, why: text, avoid: { en: 'e' } });
    expect(Object.keys(second!)).toEqual(['words', 'spoken', 'drawing']);
    expect(second!.drawing).toBe(second!.drawing);
  });

  it('folds anew for other measures, another kind and another recipe of the same name', () => {
    const of = wardrobe({ sizes: { one: { width: 400, length: 600 }, two: { width: 200, length: 600 } } });
    const recipe = recipes.get('half')!;
    const widths = ['one', 'two', 'one'].map((size) => foldPiece({ ...piece, size }, recipe, of).block.width);
    expect(widths).toEqual([400, 200, 400]);
    const other = recipeOf('half', { do: 'fold-width', from: 'left', to: [1, 2] });
    expect(foldPiece(piece, other, of).block).toMatchObject({ width: 200, length: 600 });
    // a roll is as thick as its cloth, so it is made anew for another one
    const thick = wardrobe({}, { thicknessFree: 4, thicknessPressed: 2 });
    const shared = { ...thick, kinds: of.kinds };
    const rolls = [of, shared].map((each) => foldPiece(piece, recipes.get('roll')!, each).block.thickness);
    expect(rolls[1]! / rolls[0]!).toBeCloseTo(2, 6);
  });
});
