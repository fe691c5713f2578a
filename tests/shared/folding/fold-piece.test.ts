import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isFoldError } from '#shared/folding/fold-error.ts';
import { foldPiece, foldsOf } from '#shared/folding/fold-piece.ts';
import { coverOf } from '#shared/folding/cover.ts';
import { spreadThickness } from '#shared/folding/thickness.ts';
import type { FoldAction, Recipe } from '#shared/folding/types.ts';
import { clothThickness } from '#shared/garments/cloth.ts';
import { measuresOf } from '#shared/garments/measures.ts';
import { pieceMass } from '#shared/garments/mass.ts';
import type { FlatMeasures, Piece } from '#shared/garments/types.ts';
import { demoRecipes, demoWardrobe } from '#tests/support/demo-wardrobe.ts';
import { runs } from '#tests/support/runs.ts';

const wardrobe = demoWardrobe();
const recipes = demoRecipes();
const text = { en: 'x', es: 'x' };
const recipeOf = (...actions: readonly FoldAction[]): Recipe => ({
  id: 'r',
  name: text,
  steps: actions.map((action) => ({ action, words: text, spoken: text })),
});
const foldable = [...wardrobe.kinds.values()].filter((kind) => kind.outline !== 'block');
const anyFold = fc.record({
  kind: fc.constantFrom(...foldable),
  choice: fc.nat(),
  scale: fc.double({ min: 0.7, max: 1.5, noNaN: true }),
});

function scaled(measures: FlatMeasures, by: number): FlatMeasures {
  return Object.fromEntries(
    Object.entries(measures).map(([key, value]) => [key, value * by]),
  ) as unknown as FlatMeasures;
}

describe('a folded piece', () => {
  it('keeps the volume of its cloth: area x thickness, at equal pressure', () => {
    for (const cloth of wardrobe.cloths.values()) {
      const volume = (pressure: number, footprint: number) =>
        spreadThickness(200, cloth, footprint, pressure) * footprint;
      expect(volume(1, 40_000)).toBeCloseTo(volume(1, 90_000), 6);
      expect(volume(1, 40_000)).toBeCloseTo((200 / cloth.arealMass) * 1e6 * clothThickness(cloth, 1), 6);
    }
  });

  it('never gets thinner by one more fold', () => {
    fc.assert(
      fc.property(anyFold, ({ kind, choice }) => {
        const recipe = recipes.get(kind.recipes[choice % kind.recipes.length]!)!;
        if (recipe.steps.some((step) => step.action.do === 'roll')) return;
        const piece: Piece = { sku: 's', title: 't', kind: kind.id };
        const before = foldPiece(piece, recipe, wardrobe).block;
        const more = recipeOf(...recipe.steps.map((step) => step.action), {
          do: 'fold-length',
          from: 'bottom',
          to: [1, 2],
        });
        const after = foldPiece(piece, more, wardrobe).block;
        expect(after.thickness).toBeGreaterThan(before.thickness);
        expect(after.pressedThickness).toBeGreaterThan(before.pressedThickness);
        expect(after.layers).toBeGreaterThan(before.layers);
        expect(after.length).toBeCloseTo(before.length / 2, 6);
      }),
      { numRuns: runs(60) },
    );
  });

  it('scales with its measures: sides by the scale, thickness not at all', () => {
    const plain = recipes.get('skirt-thirds')!;
    const sized = (by: number): Piece => {
      const piece = { sku: 's', title: 't', kind: 'skirt' };
      return { ...piece, measured: scaled(measuresOf(piece, wardrobe), by) };
    };
    fc.assert(
      fc.property(fc.double({ min: 0.6, max: 1.6, noNaN: true }), (by) => {
        const one = foldPiece(sized(1), plain, wardrobe).block;
        const other = foldPiece(sized(by), plain, wardrobe).block;
        expect(other.width / one.width).toBeCloseTo(by, 9);
        expect(other.length / one.length).toBeCloseTo(by, 2);
        expect(other.thickness / one.thickness).toBeCloseTo(1, 1);
      }),
      { numRuns: 40 },
    );
  });

  it('covers the table with all its cloth: layers times area is kept by every fold', () => {
    for (const kind of foldable) {
      for (const id of kind.recipes) {
        const recipe = recipes.get(id)!;
        if (recipe.steps.some(({ action }) => action.do === 'roll' || action.do === 'lay-on')) continue;
        const { steps } = foldPiece({ sku: 's', title: 't', kind: kind.id }, recipe, wardrobe);
        const cloth = (panels: readonly { points: readonly (readonly [number, number])[]; layers: number }[]) =>
          panels.reduce((sum, panel) => sum + shoelace(panel.points) * panel.layers, 0);
        const first = steps[0]!.drawing;
        const whole = cloth([...first.still, ...first.moving]);
        for (const { drawing } of steps) {
          expect(cloth([...drawing.still, ...drawing.moving]) / whole).toBeCloseTo(1, 3);
          expect(cloth(drawing.landing)).toBeCloseTo(cloth(drawing.moving), 3);
        }
      }
    }
  });

  it('is drawn inside its bounds, every landing inside what lies still or beside the crease', () => {
    for (const kind of foldable) {
      for (const { steps } of foldsOf({ sku: 's', title: 't', kind: kind.id }, wardrobe, recipes)) {
        for (const { drawing } of steps) {
          const { x, y, width, height } = drawing.bounds;
          const corners = [...drawing.still, ...drawing.moving, ...drawing.landing].flatMap(({ points }) => points);
          const outside = corners.filter(
            ([px, py]) => px < x - 1e-6 || px > x + width + 1e-6 || py < y - 1e-6 || py > y + height + 1e-6,
          );
          expect(outside).toEqual([]);
        }
      }
    }
  });

  it('shows the back after it was laid face down, and the face again at the end of a shirt', () => {
    const { steps } = foldPiece(
      { sku: 's', title: 't', kind: 'shirt', size: 'L' },
      recipes.get('shirt-thirds')!,
      wardrobe,
    );
    const largest = (panels: readonly { points: readonly (readonly [number, number])[]; side: string }[]) =>
      [...panels].sort((a, b) => shoelace(b.points) - shoelace(a.points))[0]!.side;
    expect(largest(steps[0]!.drawing.still)).toBe('face');
    expect(largest(steps[1]!.drawing.still)).toBe('back');
    expect(steps.at(-1)!.drawing.still.at(-1)!.side).toBe('face');
  });

  it('folds both sleeves of a shirt, mirrored, and leaves nothing outside the body', () => {
    const { steps } = foldPiece({ sku: 's', title: 't', kind: 'shirt' }, recipes.get('shirt-thirds')!, wardrobe);
    const sleeves = steps[2]!.drawing;
    expect(sleeves.also).toHaveLength(1);
    expect(sleeves.arrow![0][0]).toBeCloseTo(-sleeves.also![0]!.arrow[0][0], 6);
    const chest = measuresOf({ sku: 's', title: 't', kind: 'shirt' }, wardrobe).width;
    expect(Math.abs(sleeves.endsAs.width - chest)).toBeLessThan(2);
  });

  it('names what was assumed, and knows less about its thickness then', () => {
    const recipe = recipes.get('tee-thirds')!;
    const bare = foldPiece({ sku: 's', title: 't', kind: 't-shirt' }, recipe, wardrobe);
    const known = foldPiece({ sku: 's', title: 't', kind: 't-shirt', size: 'M', cloth: 'jersey' }, recipe, wardrobe);
    expect(bare.assumed).toEqual(['size', 'cloth']);
    expect(known.assumed).toEqual([]);
    expect(bare.block.thicknessSd).toBeGreaterThan(known.block.thicknessSd);
    expect(bare.block.thickness).toBeCloseTo(known.block.thickness, 9);
  });

  it('has its corner under it after a tuck, and is that much narrower', () => {
    const piece: Piece = { sku: 's', title: 't', kind: 'jeans', size: '34' };
    const plain = foldPiece(piece, recipeOf({ do: 'legs-together' }), wardrobe);
    const tucked = foldPiece(
      piece,
      recipeOf({ do: 'legs-together' }, { do: 'tuck', from: 'right', to: [7, 8] }),
      wardrobe,
    );
    expect(tucked.block.width / plain.block.width).toBeCloseTo(7 / 8, 9);
    expect(tucked.block.layers).toBeGreaterThan(plain.block.layers);
    const after = foldPiece(
      piece,
      recipeOf({ do: 'legs-together' }, { do: 'tuck', from: 'right', to: [7, 8] }, { do: 'fasten' }),
      wardrobe,
    ).steps;
    const landed = after[1]!.drawing.landing;
    expect(after[2]!.drawing.still.slice(0, landed.length)).toEqual(landed);
  });

  it("lays a suit's trousers on the middle of its jacket, in the suit's size", () => {
    const suit = (size: string) =>
      foldPiece({ sku: 's', title: 't', kind: 'suit', size }, recipes.get('suit-set')!, wardrobe).steps[5]!.drawing;
    const drawing = suit('L');
    const middleOf = (panels: readonly { points: readonly (readonly [number, number])[] }[]) => {
      const xs = panels.flatMap((panel) => panel.points.map(([x]) => x));
      return (Math.min(...xs) + Math.max(...xs)) / 2;
    };
    expect(middleOf(drawing.landing)).toBeCloseTo(middleOf(drawing.still), 6);
    expect(middleOf(drawing.moving)).toBeGreaterThan(middleOf(drawing.still) + 200);
    const width = (panels: readonly { points: readonly (readonly [number, number])[] }[]) => {
      const xs = panels.flatMap((panel) => panel.points.map(([x]) => x));
      return Math.max(...xs) - Math.min(...xs);
    };
    expect(width(suit('XL').landing)).toBeGreaterThan(width(drawing.landing));
  });

  it('of leather must not be pressed', () => {
    const piece: Piece = { sku: 's', title: 't', kind: 'jacket', cloth: 'leather' };
    expect(foldPiece(piece, recipes.get('jacket-halves')!, wardrobe).block.mayPress).toBe(false);
  });

  it('that is a block keeps its shape and has no steps', () => {
    const [fold, ...others] = foldsOf({ sku: 's', title: 't', kind: 'shoes', size: 'L' }, wardrobe, recipes);
    expect(others).toEqual([]);
    expect(fold).toMatchObject({ recipe: 'as-it-is', steps: [], block: { width: 230, length: 330, thickness: 120 } });
    expect(fold!.block.soft).toBe(false);
  });

  it('rolled has the cloth of its roll and no crease', () => {
    const { block, steps } = foldPiece({ sku: 's', title: 't', kind: 'scarf' }, recipes.get('scarf-rolled')!, wardrobe);
    expect(block.length).toBeCloseTo(block.thickness, 9);
    expect(steps.at(-1)!.drawing.foldLine).toBeUndefined();
    const { mean } = pieceMass({ sku: 's', title: 't', kind: 'scarf' }, wardrobe);
    const cloth = wardrobe.cloths.get('fine-knit')!;
    const volume = (mean / cloth.arealMass) * 1e6 * cloth.thicknessFree;
    expect((Math.PI / 4) * block.thickness ** 2 * block.width).toBeGreaterThan(volume);
  });
});

describe('a recipe that cannot be carried out', () => {
  it.each([
    ['t-shirt', { do: 'fold-width', from: 'left', to: [1, 3] }, 'does-not-close'],
    ['t-shirt', { do: 'fold-length', from: 'top', to: [1, 1] }, 'does-not-close'],
    ['jeans', { do: 'sleeves-in' }, 'no-such-part'],
    ['shirt', { do: 'hood-down' }, 'no-such-part'],
    ['jeans', { do: 'tuck', from: 'right', to: [1, 4] }, 'does-not-close'],
    ['shoes', { do: 'fasten' }, 'not-foldable'],
  ] as const)('%s, %j: %s', (kind, action, code) => {
    try {
      foldPiece({ sku: 's', title: 't', kind }, recipeOf(action), wardrobe);
      expect.unreachable();
    } catch (error) {
      expect(isFoldError(error, code)).toBe(true);
    }
  });

  it('an unknown recipe is named', () => {
    expect(() => foldsOf({ sku: 's', title: 't', kind: 't-shirt' }, wardrobe, new Map())).toThrow(
      'kind t-shirt: expected a recipe of the shop, found "tee-thirds"',
    );
  });
});

describe('coverOf', () => {
  it('adds layers where parts overlap and area only once', () => {
    const square = (x: number, layers: number) => ({
      name: 'body' as const,
      points: [
        [x, 0],
        [x + 100, 0],
        [x + 100, 100],
        [x, 100],
      ] as const,
      side: 'face' as const,
      layers,
      detail: false,
    });
    const overlapping = coverOf([square(0, 2), square(50, 3)]);
    expect(overlapping.area).toBeCloseTo(15_000, 6);
    expect(overlapping.layers).toBe(5);
    const beside = coverOf([square(0, 2), square(100, 3)]);
    expect(beside.area).toBeCloseTo(20_000, 6);
    expect(beside.layers).toBe(3);
    expect(coverOf([])).toEqual({ area: 0, layers: 0 });
  });
});

function shoelace(points: readonly (readonly [number, number])[]): number {
  let twice = 0;
  points.forEach(([x, y], index) => {
    const [nextX, nextY] = points[(index + 1) % points.length]!;
    twice += x * nextY - nextX * y;
  });
  return Math.abs(twice) / 2;
}
