import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { erfc, normalAbove, normalBelow, probabilityAbove } from '#shared/weighing/normal.ts';

describe('erfc', () => {
  // Abramowitz and Stegun, Table 7.1 (erf, to ten places), from memory; 7.3 for the far tail is computed to 17 digits.
  it.each([
    [0, 1],
    [0.5, 1 - 0.5204998778],
    [1, 1 - 0.8427007929],
    [2, 1 - 0.995322265],
    [2.5, 1 - 0.999593048],
  ])('at %d is the tabulated value to ten places', (x, value) => {
    expect(erfc(x)).toBeCloseTo(value, 9);
  });

  it('keeps its relative accuracy in the far tail', () => {
    // erfc(5) = 1.5374597944280349e-12 (memory of the double-precision value)
    expect(erfc(5) / 1.5374597944280349e-12).toBeCloseTo(1, 9);
  });

  it('joins its two methods without a step', () => {
    expect(erfc(2.5 + 1e-12) / erfc(2.5)).toBeCloseTo(1, 9);
  });

  it('agrees with a trapezium sum of its integral', () => {
    fc.assert(
      fc.property(fc.double({ min: -4, max: 4, noNaN: true }), (x) => {
        const steps = 4000;
        const width = x / steps;
        let sum = (1 + Math.exp(-x * x)) / 2;
        for (let i = 1; i < steps; i++) sum += Math.exp(-((i * width) ** 2));
        expect(Math.abs(1 - (2 / Math.sqrt(Math.PI)) * sum * width - erfc(x))).toBeLessThan(1e-6);
      }),
      { numRuns: 50 },
    );
  });
});

describe('the normal distribution', () => {
  it('has its usual values', () => {
    // 68-95-99.7, to the places in which common tables print them.
    expect(normalBelow(1) - normalBelow(-1)).toBeCloseTo(0.6826895, 7);
    expect(normalBelow(2) - normalBelow(-2)).toBeCloseTo(0.9544997, 7);
    expect(normalBelow(1.959963985)).toBeCloseTo(0.975, 9);
  });

  it('adds up to one on either side', () => {
    fc.assert(
      fc.property(fc.double({ min: -9, max: 9, noNaN: true }), (z) => {
        expect(normalBelow(z) + normalAbove(z)).toBeCloseTo(1, 12);
      }),
    );
  });

  it('is certain without spread, a limit being not above itself', () => {
    expect(probabilityAbove(10, 10, 0)).toBe(0);
    expect(probabilityAbove(10, 10.000001, 0)).toBe(1);
  });
});
