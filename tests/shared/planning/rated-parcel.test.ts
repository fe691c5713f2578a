import { describe, expect, it } from 'vitest';
import type { Container, Fit } from '#shared/fitting/types.ts';
import { measuredSize, ratedParcel } from '#shared/planning/rated-parcel.ts';
import { lengthFromMillimetres, toMillimetres, type Length } from '#shared/units/length.ts';
import { aContainer } from '#tests/support/demo-wardrobe.ts';

const INCH = 25.4;
const inches = (length: Length) => Math.round((toMillimetres(length) / INCH) * 1e6) / 1e6;
const filled = (width: number, length: number, thickness: number): Fit['filled'] => ({
  width: width * INCH,
  length: length * INCH,
  thickness: thickness * INCH,
});
const read = (container: Container, ...sides: [number, number, number]) => {
  const { width, length, thickness } = measuredSize(container, filled(...sides));
  return [width, length, thickness].map((side) => Math.round((side / INCH) * 1e6) / 1e6);
};

const pouch = aContainer('pouch', [15 * INCH, 20 * INCH], { id: 'film' });
const carton = aContainer('carton', [12 * INCH, 9 * INCH, 4 * INCH], { id: 'box' });

// A tape measure is read to a twentieth of an inch; a parcel that reaches past a mark is no smaller than the next one.
describe('the size of a filled container as somebody reads it off', () => {
  it('is up to the next twentieth of an inch, and what is on a mark stays there', () => {
    expect(read(pouch, 10.01, 12.31, 1.02)).toEqual([10.05, 12.35, 1.05]);
    expect(read(pouch, 10.05, 12.35, 1.05)).toEqual([10.05, 12.35, 1.05]);
    expect(read(pouch, 12, 15, 2)).toEqual([12, 15, 2]);
  });

  it('is never above that of the empty container for a side that filling leaves or draws in', () => {
    const odd = aContainer('pouch', [12.02 * INCH, 15.03 * INCH]);
    expect(read(odd, 12.02, 15.03, 0.5)).toEqual([12.02, 15.03, 0.5]);
    expect(read(odd, 12.01, 15.02, 0.5)).toEqual([12.02, 15.03, 0.5]);
    // a side that what is in it pushes out is what it is
    expect(read(odd, 12.31, 15.32, 0.5)).toEqual([12.31, 15.32, 0.5]);
  });

  it('is a carton’s own, which filling does not change', () => {
    expect(read(carton, 12.01, 9.02, 4.03)).toEqual([12.01, 9.02, 4.03]);
  });
});

describe('what a carrier is told of a filled container', () => {
  it('is a box by three sides for a carton, longest first, whichever side is which', () => {
    for (const [width, length, depth] of [
      [12, 9, 4],
      [9, 12, 4],
      [4, 9, 12],
      [9, 4, 12],
      [12, 4, 9],
      [4, 12, 9],
    ] as const) {
      const { shape } = ratedParcel(carton, filled(width, length, depth));
      expect(shape.form === 'box' ? shape.sides.map(inches) : shape).toEqual([12, 9, 4]);
    }
  });

  it('is a soft pack for a pouch and a card, the longer side as its length', () => {
    const card = aContainer('card', [20 * INCH, 15 * INCH]);
    for (const container of [pouch, card]) {
      for (const sides of [filled(10, 12, 1), filled(12, 10, 1)]) {
        const { shape } = ratedParcel(container, sides);
        if (shape.form !== 'soft') throw new Error(`expected a soft pack, found a ${shape.form}`);
        expect([shape.length, shape.width, shape.thickness].map(inches)).toEqual([12, 10, 1]);
      }
    }
  });

  it('names the container, its kind and the carrier that owns it; of one pouch in another, the outer one', () => {
    const about = (container: Container) => {
      const { shape: _, ...rest } = ratedParcel(container, filled(10, 12, 1));
      return rest;
    };
    expect(about(pouch)).toStrictEqual({ container: 'film', containerType: 'pouch' });
    expect(about({ ...pouch, ownedBy: 'test-post' })).toEqual({
      container: 'film',
      containerType: 'pouch',
      containerOwner: 'test-post',
    });
    expect(about({ ...pouch, id: 'a+b', doubled: { outer: 'a', inner: 'b' } }).container).toBe('a');
    expect(about({ ...carton, thicknessCap: lengthFromMillimetres(5) }).containerType).toBe('carton');
  });
});
