import { describe, expect, it } from 'vitest';
import { foldPiece } from '#shared/folding/fold-piece.ts';
import type { FoldAction, Recipe } from '#shared/folding/types.ts';
import type { Cloth, Kind, Piece } from '#shared/garments/types.ts';

const text = { en: 'x', es: 'x' };

function recipeOf(...actions: readonly FoldAction[]): Recipe {
  return { id: 'r', name: text, steps: actions.map((action) => ({ action, words: text, spoken: text })) };
}

/** A plain double rectangle of cloth, sleeves left out, without fold bulge; weighing what its cloth weighs. */
function fold(width: number, length: number, cloth: Pick<Cloth, 'thicknessFree' | 'thicknessPressed'>, recipe: Recipe) {
  const whole: Cloth = {
    id: 'c',
    name: text,
    arealMass: 180,
    ...cloth,
    thicknessSpread: 0.1,
    bendingLength: 0,
    mayPress: true,
    source: 'test',
  };
  const kind: Kind = {
    id: 'k',
    name: text,
    outline: 'strip',
    sizes: { one: { width, length } },
    defaultSize: 'one',
    defaultCloth: 'c',
    mass: { mean: 2 * width * length * 1e-6 * 180, sd: 10 },
    clothLayers: 2,
    recipes: [],
    cautions: [],
    source: 'test',
  };
  const piece: Piece = { sku: 's', title: 't', kind: 'k' };
  return foldPiece(piece, recipe, { kinds: new Map([['k', kind]]), cloths: new Map([['c', whole]]) }).block;
}

const jersey = { thicknessFree: 0.85, thicknessPressed: 0.55 };
const denim = { thicknessFree: 1.0, thicknessPressed: 0.75 };
const thirds: FoldAction[] = [
  { do: 'fold-width', from: 'right', to: [2, 3] },
  { do: 'fold-width', from: 'left', to: [1, 2] },
];
const half: FoldAction = { do: 'fold-length', from: 'bottom', to: [1, 2] };

// Computed by hand: layers x thickness at 1 kPa, no bulge. Thicknesses are typical values, from memory.
describe('folding sums', () => {
  it('a T-shirt of 53 x 72 cm in thirds and half is 17.7 x 36.0 cm, 12 layers, 8.9 mm', () => {
    const block = fold(530, 720, jersey, recipeOf(...thirds, half));
    expect(block.width).toBeCloseTo(176.67, 1);
    expect(block.length).toBeCloseTo(360, 6);
    expect(block.layers).toBe(12);
    expect(block.pressedThickness).toBeCloseTo(8.86, 2);
  });

  it('in half again it is 17.7 x 18.0 cm, 24 layers, 17.7 mm', () => {
    const block = fold(530, 720, jersey, recipeOf(...thirds, half, half));
    expect(block.length).toBeCloseTo(180, 6);
    expect(block.layers).toBe(24);
    expect(block.pressedThickness).toBeCloseTo(17.7, 1);
  });

  it('jeans of 46 x 106 cm in half and in thirds are 23.0 x 35.3 cm, 12 layers, 11.1 mm', () => {
    const block = fold(
      460,
      1060,
      denim,
      recipeOf({ do: 'legs-together' }, { do: 'fold-length', from: 'bottom', to: [2, 3] }, half),
    );
    expect(block.width).toBeCloseTo(230, 6);
    expect(block.length).toBeCloseTo(353.33, 1);
    expect(block.layers).toBe(12);
    expect(block.pressedThickness).toBeCloseTo(11.1, 1);
  });
});
