import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { consider, learn, predictedMass, priorBelief, type MassBelief } from '#shared/garments/learning.ts';

const after = (belief: MassBelief, values: readonly number[]) => values.reduce(learn, belief);

describe('conjugate update of a normal mean and variance', () => {
  // P. D. Hoff, "A First Course in Bayesian Statistical Methods" (2009), section 5.3, wing lengths of nine midges with
  // the prior mu0 = 1.9, sigma0^2 = 0.01, kappa0 = nu0 = 1: kappa_n = nu_n = 10, mu_n = 1.814, sigma_n^2 = 0.015.
  // The data are those of the book, recalled from memory; their mean 1.804 and variance 0.0169 are checked first.
  const wings = [1.64, 1.7, 1.72, 1.74, 1.82, 1.82, 1.82, 1.9, 2.08];

  it('agrees with the worked example of the midges', () => {
    const mean = wings.reduce((sum, each) => sum + each, 0) / 9;
    const variance = wings.reduce((sum, each) => sum + (each - mean) ** 2, 0) / 8;
    expect(mean).toBeCloseTo(1.804, 3);
    expect(variance).toBeCloseTo(0.0169, 4);
    const prior = { mean: 1.9, meanWeight: 1, variance: 0.01, varianceWeight: 1, count: 0 };
    const belief = after(prior, wings);
    expect(belief.meanWeight).toBe(10);
    expect(belief.varianceWeight).toBe(10);
    expect(belief.mean).toBeCloseTo(1.814, 3);
    expect(belief.variance).toBeCloseTo(0.015, 3);
    expect(belief.count).toBe(9);
  });

  const weighings = fc.array(fc.double({ min: 50, max: 900, noNaN: true }), { minLength: 1, maxLength: 30 });

  it('one by one is the closed form of all at once, in any order', () => {
    fc.assert(
      fc.property(weighings, fc.double({ min: 100, max: 800, noNaN: true }), (values, priorMean) => {
        const prior = priorBelief({ mean: priorMean, sd: priorMean / 5 });
        const n = values.length;
        const mean = values.reduce((sum, each) => sum + each, 0) / n;
        const squares = values.reduce((sum, each) => sum + (each - mean) ** 2, 0);
        const [kappa, nu] = [prior.meanWeight, prior.varianceWeight];
        const expectedMean = (kappa * priorMean + n * mean) / (kappa + n);
        const between = ((kappa * n) / (kappa + n)) * (mean - priorMean) ** 2;
        const expectedVariance = (nu * prior.variance + squares + between) / (nu + n);
        for (const order of [values, [...values].reverse()]) {
          const belief = after(prior, order);
          expect(belief.mean).toBeCloseTo(expectedMean, 6);
          expect(belief.variance / expectedVariance).toBeCloseTo(1, 9);
        }
      }),
    );
  });

  it('comes close to the truth of a shop whose T-shirts are heavier, and knows it', () => {
    const prior = priorBelief({ mean: 160, sd: 28 });
    // A fixed set around 200 g with a standard deviation of 10 g.
    const heavy = Array.from({ length: 60 }, (_, index) => 200 + 14.1 * Math.sin(index * 2.4));
    const learned = predictedMass(after(prior, heavy));
    expect(Math.abs(learned.mean - 200)).toBeLessThan(4);
    expect(learned.sd).toBeLessThan(predictedMass(prior).sd);
  });
});

describe('an outlier', () => {
  const belief = after(priorBelief({ mean: 160, sd: 28 }), [150, 170, 160, 155, 165]);

  it('is shown and not learned', () => {
    const lesson = consider(belief, 640);
    expect(lesson.learned).toBe(false);
    expect(lesson.belief).toBe(belief);
    expect(lesson.deviations).toBeGreaterThan(4);
  });

  it('is not what lies within the spread', () => {
    const lesson = consider(belief, 190);
    expect(lesson.learned).toBe(true);
    expect(lesson.belief.count).toBe(belief.count + 1);
  });

  it.each([0, -5, Number.NaN, Infinity])('a weighing of %d g is refused', (grams) => {
    expect(() => consider(belief, grams)).toThrow('expected a mass above 0 g');
  });
});
