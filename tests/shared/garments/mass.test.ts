import { describe, expect, it } from 'vitest';
import { isGarmentError } from '#shared/garments/garment-error.ts';
import { pieceMass } from '#shared/garments/mass.ts';
import { assumedOf, measuresOf } from '#shared/garments/measures.ts';
import type { Piece } from '#shared/garments/types.ts';
import { massFromGrams } from '#shared/units/mass.ts';
import { demoWardrobe } from '#tests/support/demo-wardrobe.ts';

const wardrobe = demoWardrobe();
const piece = (more: Partial<Piece>): Piece => ({ sku: 'OT-1', title: 'A piece', kind: 't-shirt', ...more });

describe('pieceMass', () => {
  it('believes the intake weighing', () => {
    expect(pieceMass(piece({ mass: massFromGrams(187.4) }), wardrobe)).toEqual({ mean: 187.4, sd: 1 });
  });

  it("is the kind's own for its default size and cloth", () => {
    const { mean, sd } = pieceMass(piece({}), wardrobe);
    expect(mean).toBeCloseTo(160, 9);
    expect(sd).toBeCloseTo(28, 9);
  });

  it('grows with the size and with the cloth', () => {
    const grams = (more: Partial<Piece>) => pieceMass(piece(more), wardrobe).mean;
    expect(grams({ size: 'S' })).toBeLessThan(grams({ size: 'M' }));
    expect(grams({ size: 'M' })).toBeLessThan(grams({ size: 'XL' }));
    expect(grams({ cloth: 'sweatshirt' }) / grams({})).toBeCloseTo(310 / 180, 9);
  });

  it('is surer the more is known', () => {
    const spread = (more: Partial<Piece>) => pieceMass(piece(more), wardrobe).sd;
    expect(spread({})).toBeGreaterThan(spread({ size: 'M' }));
    expect(spread({})).toBeGreaterThan(spread({ cloth: 'jersey' }));
    expect(spread({ size: 'M' })).toBeGreaterThan(spread({ size: 'M', cloth: 'jersey' }));
  });

  it.each([
    ['unknown-kind', { kind: 'kilt' }],
    ['unknown-cloth', { cloth: 'asbestos' }],
    ['bad-measure', { measured: { width: -3 } }],
    ['bad-mass', { mass: massFromGrams(0) }],
  ] as const)('refuses %s', (code, more) => {
    try {
      pieceMass(piece(more), wardrobe);
      expect.unreachable();
    } catch (error) {
      expect(isGarmentError(error, code)).toBe(true);
      expect((error as Error).message).toContain('piece OT-1');
    }
  });
});

describe('measuresOf', () => {
  it('takes the size, then what was measured on the piece', () => {
    expect(measuresOf(piece({ size: 'L' }), wardrobe)).toMatchObject({ width: 559, length: 756 });
    expect(measuresOf(piece({ size: 'L', measured: { width: 570 } }), wardrobe)).toMatchObject({
      width: 570,
      length: 756,
    });
  });

  it.each(['34', 'W34 L32', '34x32', '34/32', ' 34 X 32 '])('reads trousers of "%s"', (size) => {
    const measures = measuresOf(piece({ kind: 'jeans', size }), wardrobe);
    expect(measures.width).toBeCloseTo(17.75 * 25.4, 6);
    expect(measures.inseam).toBeCloseTo((size === '34' ? 31 : 32) * 25.4, 6);
    expect(assumedOf(piece({ kind: 'jeans', size }), wardrobe)).toEqual(['cloth']);
  });

  it('falls back to the default size and says so', () => {
    expect(measuresOf(piece({ size: 'huge' }), wardrobe)).toEqual(measuresOf(piece({ size: 'M' }), wardrobe));
    expect(assumedOf(piece({ size: 'huge', cloth: 'jersey' }), wardrobe)).toEqual(['size']);
    expect(assumedOf(piece({ measured: { width: 500, length: 700 }, cloth: 'jersey' }), wardrobe)).toEqual([]);
  });
});
