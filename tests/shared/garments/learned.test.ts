import { describe, expect, it } from 'vitest';
import { clothThickness, compressedThickness, fitCompression } from '#shared/garments/cloth.ts';
import { FACTOR_PRIOR, learnClosing, withFactors, type FactorBelief } from '#shared/garments/factor-learning.ts';
import { isGarmentError } from '#shared/garments/garment-error.ts';
import { consider, learn, predictedMass, priorBelief, singleUnknown } from '#shared/garments/learning.ts';
import { demoWardrobe } from '#tests/support/demo-wardrobe.ts';

const wardrobe = demoWardrobe();

describe('the mass of the next piece of a kind', () => {
  it('is spread as a Student t of the belief is (mean 160, variance 784, four and six observations)', () => {
    // sd^2 = 784 (1 + 1/4) 6 / (6 - 2) = 1470
    const { mean, sd } = predictedMass(priorBelief({ mean: 160, sd: 28 }));
    expect(mean).toBe(160);
    expect(sd).toBeCloseTo(Math.sqrt(1470), 9);
  });

  it('is learned from up to four deviations away', () => {
    const belief = { mean: 100, meanWeight: 1, variance: 50, varianceWeight: 4, count: 0 };
    // sd^2 = 50 x 2 x 4 / 2 = 200: four deviations are 56.57 g
    expect(predictedMass(belief).sd).toBeCloseTo(14.1421, 4);
    expect(consider(belief, 156.5).learned).toBe(true);
    expect(consider(belief, 156.6).learned).toBe(false);
    expect(consider(belief, 43.5).learned).toBe(true);
    expect(consider(belief, 43.4).learned).toBe(false);
    expect(consider(belief, 114.142_135).deviations).toBeCloseTo(1, 6);
  });

  it('is not learned from nothing', () => {
    const refused = (grams: number) => {
      try {
        learn(priorBelief({ mean: 160, sd: 28 }), grams);
      } catch (error) {
        return isGarmentError(error, 'bad-mass') && (error as Error).message;
      }
      return null;
    };
    expect(refused(0)).toBe('learning: expected a mass above 0 g, found 0 g');
    expect(refused(0.1)).toBeNull();
    expect(singleUnknown(200, [120, 80, null])).toBeNull();
  });
});

describe('a cloth', () => {
  it('gives up to 4.6 times, and no more', () => {
    expect(fitCompression(4.6, 1).stiffness).toBeGreaterThan(0);
    const refused = (free: number, pressed: number) => {
      try {
        fitCompression(free, pressed);
      } catch (error) {
        return isGarmentError(error, 'bad-measure') && (error as Error).message;
      }
      return null;
    };
    expect(refused(4.61, 1)).toBe(
      'cloth: expected a free thickness of at most 4.6 times the pressed one, found 4.61 and 1 mm',
    );
    for (const [free, pressed] of [
      [1, 1],
      [1, 0],
      [1, -1],
      [Number.NaN, 1],
    ] as const) {
      expect(refused(free, pressed)).toBe(
        `cloth: expected a free thickness above the pressed one and both above 0 mm, found ${free} and ${pressed}`,
      );
    }
  });

  it('has its free thickness under no pressure at all, and none under less', () => {
    const fit = fitCompression(0.85, 0.55);
    expect(compressedThickness(fit, 0)).toBeCloseTo(fit.uncompressed, 12);
    for (const pressure of [-0.01, Number.NaN]) {
      expect(() => compressedThickness(fit, pressure)).toThrow(`pressure: expected 0 kPa or more, found ${pressure}`);
    }
  });

  it('is not taken for another one of the same name', () => {
    const jersey = wardrobe.cloths.get('jersey')!;
    const thick = { ...jersey, thicknessFree: 3, thicknessPressed: 2 };
    expect([clothThickness(jersey, 4.9), clothThickness(thick, 4.9), clothThickness(jersey, 4.9)]).toEqual([
      expect.closeTo(jersey.thicknessPressed, 9),
      expect.closeTo(2, 9),
      expect.closeTo(jersey.thicknessPressed, 9),
    ]);
  });
});

describe('the thickness of a kind', () => {
  const belief = (more: Partial<FactorBelief>): FactorBelief => ({ ...FACTOR_PRIOR, mean: 1.2, sd: 0.1, ...more });

  it('is as it was learned once a parcel has taught something, and else as the sums have it', () => {
    const learned = withFactors(
      wardrobe,
      new Map([
        ['jeans', belief({ closed: 1 })],
        ['shirt', belief({ tooTight: 1 })],
        ['coat', belief({})],
      ]),
    );
    expect(learned.kinds.get('jeans')).toEqual({
      ...wardrobe.kinds.get('jeans'),
      thicknessFactor: { mean: 1.2, sd: 0.1 },
    });
    expect(learned.kinds.get('shirt')?.thicknessFactor).toEqual({ mean: 1.2, sd: 0.1 });
    expect(learned.kinds.get('coat')).toBe(wardrobe.kinds.get('coat'));
    expect(learned.kinds.get('dress')).toBe(wardrobe.kinds.get('dress'));
    expect(learned.cloths).toBe(wardrobe.cloths);
    expect([...learned.kinds.keys()]).toEqual([...wardrobe.kinds.keys()]);
  });

  it('moves as Rasmussen and Williams (3.85 to 3.87) say, around what is believed already', () => {
    // margin 20 - 9 x 2 = 2, spread the root of 1 + (9 x 0.2)^2 = 2.0591, z 0.97130; density 0.24891, below 0.83430,
    // ratio 0.29834; pull 0.04 x 9 / 2.0591 = 0.17483; mean 2 - 0.17483 x 0.29834, variance 0.04 - 0.030567 x 0.29834 x 1.26964
    const evidence = { closed: true, intercept: 20, slopes: new Map([['coat', 9]]) };
    const { beliefs, chance } = learnClosing(new Map([['coat', belief({ mean: 2, sd: 0.2 })]]), evidence);
    expect(chance).toBeCloseTo(0.8343, 4);
    expect(beliefs.get('coat')?.mean).toBeCloseTo(1.94784, 4);
    expect(beliefs.get('coat')?.sd).toBeCloseTo(0.1686, 4);
  });
});
