import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fitLearningCurve, timeOf } from '#shared/people/learning-curve.ts';

/**
 * The 80 % learning curve as textbooks of operations management and the learning-curve chapters of cost estimating handbooks
 * print it, unit theory: unit values as parts of the first unit (from memory). T1 = 100 h: unit 2 takes 80, unit 4 takes 64.
 */
const EIGHTY = [1, 0.8, 0.7021, 0.64, 0.5956, 0.5617, 0.5345, 0.512, 0.493, 0.4765];

describe('the power law of practice', () => {
  it('fitted to the printed 80 % curve gives 80 % back, and its unit values', () => {
    const curve = fitLearningCurve(EIGHTY.map((part) => part * 100));
    expect(curve?.rate).toBeCloseTo(0.8, 3);
    expect(curve?.exponent).toBeCloseTo(-0.3219, 3);
    expect(curve?.first).toBeCloseTo(100, 0);
    expect(curve?.explained).toBeGreaterThan(0.9999);
    EIGHTY.forEach((part, index) => expect(timeOf(curve!, index + 1) / 100).toBeCloseTo(part, 3));
    expect(timeOf({ first: 100, exponent: Math.log2(0.8) }, 2)).toBeCloseTo(80, 9);
    expect(timeOf({ first: 100, exponent: Math.log2(0.8) }, 4)).toBeCloseTo(64, 9);
  });

  it('recovers any curve from its own points, and moves with the unit of time', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 10, max: 2000, noNaN: true }),
        fc.double({ min: -0.9, max: 0.3, noNaN: true }),
        fc.integer({ min: 4, max: 60 }),
        (first, exponent, count) => {
          const times = Array.from({ length: count }, (_, index) => timeOf({ first, exponent }, index + 1));
          const curve = fitLearningCurve(times);
          expect(curve?.first).toBeCloseTo(first, 4);
          expect(curve?.exponent).toBeCloseTo(exponent, 6);
          const minutes = fitLearningCurve(times.map((time) => time / 60));
          expect(minutes?.exponent).toBeCloseTo(exponent, 6);
        },
      ),
    );
  });

  it('explains as much of the spread of the logarithms as a straight line leaves none of', () => {
    const times = [100, 70, 85, 60, 66];
    const curve = fitLearningCurve(times)!;
    const logs = times.map((time) => Math.log(time));
    const middle = logs.reduce((sum, each) => sum + each, 0) / logs.length;
    const whole = logs.reduce((sum, each) => sum + (each - middle) ** 2, 0);
    // what the curve leaves over, by the definition of least squares: no curve beside it leaves less
    const left = (exponent: number, first: number) =>
      logs.reduce((sum, each, index) => sum + (each - Math.log(first * (index + 1) ** exponent)) ** 2, 0);
    const least = left(curve.exponent, curve.first);
    expect(curve.explained).toBeCloseTo(1 - least / whole, 9);
    expect(curve.explained).toBeLessThan(0.9);
    for (const [more, times] of [
      [0.01, 1],
      [-0.01, 1],
      [0, 1.01],
      [0, 0.99],
    ] as const) {
      expect(left(curve.exponent + more, curve.first * times)).toBeGreaterThan(least);
    }
    expect(fitLearningCurve([50, 50, 50, 50])).toMatchObject({ exponent: 0, rate: 1, explained: 1 });
  });

  it('says nothing from too few times, nor from times that are none', () => {
    expect(fitLearningCurve([100, 80, 70])).toBeNull();
    expect(fitLearningCurve([100, 80, 0, 60])).toBeNull();
  });
});
