import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fitStack } from '#shared/fitting/fit-stack.ts';
import { foldPiece } from '#shared/folding/fold-piece.ts';
import { edgeBulge, spreadThickness } from '#shared/folding/thickness.ts';
import type { FoldedBlock } from '#shared/folding/types.ts';
import { MOST_GIVING } from '#shared/garments/cloth.ts';
import type { Cloth } from '#shared/garments/types.ts';
import { massFromGrams } from '#shared/units/mass.ts';
import { demoContainers, demoRecipes, demoWardrobe } from '#tests/support/demo-wardrobe.ts';

const { kinds, cloths } = demoWardrobe();
const recipe = demoRecipes().get(kinds.get('t-shirt')!.recipes[0]!)!;
const anyCloth = fc.constantFrom(...cloths.values());

/** A T-shirt of so much of a cloth, folded. */
function folded(cloth: Cloth, grams = 180): FoldedBlock {
  const piece = { sku: 's', title: 't', kind: 't-shirt', cloth: cloth.id, mass: massFromGrams(grams) };
  return foldPiece(piece, recipe, { kinds, cloths: new Map([...cloths, [cloth.id, cloth]]) }).block;
}

describe('what a cloth is like, in a folded piece', () => {
  it('stiffer cloth stands up at its fold edges, resting and pressed; limp cloth lies as flat as its volume', () => {
    fc.assert(
      fc.property(anyCloth, fc.double({ min: 1.1, max: 3, noNaN: true }), (cloth, stiffer) => {
        const limp = folded({ ...cloth, bendingLength: 0 });
        const usual = folded(cloth);
        const stiff = folded({ ...cloth, bendingLength: cloth.bendingLength * stiffer });
        expect(usual.thickness).toBeGreaterThan(limp.thickness);
        expect(stiff.thickness).toBeGreaterThan(usual.thickness);
        expect(stiff.pressedThickness).toBeGreaterThan(usual.pressedThickness);
        // The loop at the edge is as high as the cloth is stiff, and a hand lays a part of it flat.
        expect((stiff.thickness - limp.thickness) / (usual.thickness - limp.thickness)).toBeCloseTo(stiffer, 6);
        expect(usual.pressedThickness - limp.pressedThickness).toBeLessThan(usual.thickness - limp.thickness);
        expect([stiff.width, stiff.length]).toEqual([usual.width, usual.length]);
      }),
    );
  });

  it('more compressible cloth gives more under a hand and none at rest', () => {
    fc.assert(
      fc.property(anyCloth, fc.double({ min: 0.4, max: 0.95, noNaN: true }), (cloth, gives) => {
        if (cloth.thicknessFree > MOST_GIVING * cloth.thicknessPressed * gives) return;
        const usual = folded(cloth);
        const softer = folded({ ...cloth, thicknessPressed: cloth.thicknessPressed * gives });
        expect(softer.thickness).toBeCloseTo(usual.thickness, 9);
        expect(softer.pressedThickness).toBeLessThan(usual.pressedThickness);
      }),
    );
  });

  it('heavier cloth makes a thinner piece of the same mass', () => {
    fc.assert(
      fc.property(anyCloth, fc.double({ min: 1.05, max: 2, noNaN: true }), (cloth, heavier) => {
        const limp = { ...cloth, bendingLength: 0 };
        const heavy = folded({ ...limp, arealMass: cloth.arealMass * heavier });
        expect(heavy.thickness * heavier).toBeCloseTo(folded(limp).thickness, 6);
      }),
    );
  });

  it('pressing harder never makes anything thicker', () => {
    const pressure = fc.double({ min: 0.049, max: 20, noNaN: true });
    fc.assert(
      fc.property(anyCloth, fc.integer({ min: 1, max: 40 }), pressure, pressure, (cloth, layers, one, other) => {
        const [low, high] = one < other ? [one, other] : [other, one];
        expect(edgeBulge(cloth, layers, high)).toBeLessThanOrEqual(edgeBulge(cloth, layers, low));
        expect(edgeBulge(cloth, layers + 1, low)).toBeGreaterThan(edgeBulge(cloth, layers, low));
        const thick = (at: number) => spreadThickness(200, cloth, 40_000, at);
        expect(thick(high)).toBeLessThanOrEqual(thick(low));
      }),
    );
  });

  it('decides what goes in: the same shirt of canvas-stiff cloth leaves less room in a pouch', () => {
    const { containers, wraps } = demoContainers();
    const pouch = containers.get('pouch-10x13')!;
    const wrap = [...wraps.values()][0]!;
    const jersey = cloths.get('jersey')!;
    const room = (cloth: Cloth) => fitStack([folded(cloth)], pouch, wrap).slack.thickness;
    expect(room({ ...jersey, bendingLength: 3 * jersey.bendingLength })).toBeLessThan(room(jersey) - 1);
  });
});
