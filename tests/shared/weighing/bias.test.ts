import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { massFromBase, massFromGrams, parseMass, toGrams, ZERO_MASS } from '#shared/units/mass.ts';
import { biasShare, LEAST_CORRECTIONS, learnBias, type Correction } from '#shared/weighing/bias.ts';
import { judge } from '#shared/weighing/verdict.ts';
import { normalDeviate, seeded } from '#tests/support/seeded.ts';

const corrections = (grams: readonly number[]): readonly Correction[] =>
  grams.map((deviation) => ({ ours: massFromGrams(400), carriers: massFromGrams(400 + deviation) }));

describe('learned bias', () => {
  it('knows nothing without corrections, and one alone has no spread', () => {
    expect(learnBias([])).toBeNull();
    expect(learnBias(corrections([3]))).toMatchObject({ parcels: 1, sdGrams: Number.POSITIVE_INFINITY });
    expect(biasShare(learnBias(corrections([3])))).toBeNull();
  });

  // JCGM 100:2008, 4.4.3, table 1: twenty temperatures, mean 100.145, s = 1.489, s / sqrt 20 = 0.333 (from memory).
  it('agrees with the worked example of the guide', () => {
    const table = [
      96.9, 98.18, 98.25, 98.61, 99.03, 99.49, 99.56, 99.74, 99.89, 100.07, 100.33, 100.42, 100.68, 100.95, 101.11,
      101.2, 101.57, 101.84, 102.36, 102.72,
    ];
    const bias = learnBias(corrections(table));
    expect(toGrams(bias?.mean ?? ZERO_MASS)).toBeCloseTo(100.145, 3);
    expect(bias?.sdGrams).toBeCloseTo(1.489, 3);
    expect(bias?.standardGrams).toBeCloseTo(0.333, 3);
  });

  it('is the same for every order of the corrections, and moves with all of them', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: -500, max: 500 }), { minLength: 2, maxLength: 40 }),
        fc.integer({ min: -100, max: 100 }),
        (deviations, shift) => {
          const plain = learnBias(corrections(deviations));
          const turned = learnBias(corrections(deviations.toReversed()));
          const moved = learnBias(corrections(deviations.map((each) => each + shift)));
          expect(turned?.mean).toBe(plain?.mean);
          expect(toGrams(moved?.mean ?? ZERO_MASS)).toBeCloseTo(toGrams(plain?.mean ?? ZERO_MASS) + shift, 6);
          expect(moved?.sdGrams).toBeCloseTo(plain?.sdGrams ?? 0, 6);
        },
      ),
    );
  });

  it('finds the mean of a seeded carrier within three of its own standard uncertainties', () => {
    const uniform = seeded(2008);
    let missed = 0;
    for (let trial = 0; trial < 300; trial += 1) {
      const bias = learnBias(corrections(Array.from({ length: 25 }, () => 2 + 3 * normalDeviate(uniform))));
      const off = Math.abs(toGrams(bias?.mean ?? ZERO_MASS) - 2);
      if (off > 3 * (bias?.standardGrams ?? 0)) missed += 1;
    }
    // Student's t with 24 degrees of freedom lies beyond 3 in 0.6 % of trials.
    expect(missed).toBeLessThanOrEqual(7);
  });
});

describe('in a verdict', () => {
  const weighed = {
    reading: { mass: parseMass('15.7 oz'), division: parseMass('0.1 oz') },
    additions: [],
    accuracy: { kind: 'own', plusMinus: parseMass('0.05 oz') },
    drift: ZERO_MASS,
    ceiling: parseMass('16 oz'),
  } as const;
  const many = (grams: number) => learnBias(corrections(Array.from({ length: LEAST_CORRECTIONS }, () => grams)));

  it('a carrier that finds more shifts the total up to where it is over', () => {
    expect(judge(weighed).verdict).toBe('clear');
    const heavier = judge({ ...weighed, learned: biasShare(many(14)) });
    expect(heavier.verdict).toBe('over');
    expect(heavier.learned).toBe(massFromGrams(14));
    expect(heavier.total).toBe(massFromBase(weighed.reading.mass + massFromGrams(14)));
  });

  it('a carrier that finds less never makes a parcel cheaper', () => {
    const lighter = judge({ ...weighed, learned: biasShare(many(-14)) });
    expect(lighter.total).toBe(weighed.reading.mass);
    expect(lighter.learned).toBeUndefined();
  });

  it('its spread and a scale that was off at its trial widen the margin by their squares', () => {
    const plain = judge(weighed);
    const spread = learnBias(corrections([-6, 6, -6, 6, -6, 6, -6, 6]));
    const wide = judge({ ...weighed, learned: biasShare(spread), reference: massFromGrams(3) });
    const own = plain.components.reduce((sum, each) => sum + each.standardGrams ** 2, 0);
    const expected = 2 * Math.sqrt(own + (spread?.standardGrams ?? 0) ** 2 + 3);
    expect(toGrams(wide.uncertainty)).toBeCloseTo(expected, 6);
    expect(wide.components.map((each) => each.name)).toEqual(['resolution', 'tolerance', 'reference', 'learned']);
  });

  it('its probability is that of a seeded simulation, within three standard errors', () => {
    const learned = biasShare(learnBias(corrections([-1, 9, 2, 8, 4, 6, 3, 7])));
    const reference = massFromGrams(2);
    const verdict = judge({ ...weighed, learned, reference });
    const uniform = seeded(5);
    const trials = 200_000;
    let over = 0;
    for (let trial = 0; trial < trials; trial += 1) {
      let total = toGrams(verdict.total);
      for (const part of verdict.components) {
        const half = part.standardGrams * Math.sqrt(3);
        total += part.name === 'learned' ? part.standardGrams * normalDeviate(uniform) : (2 * uniform() - 1) * half;
      }
      if (total > toGrams(weighed.ceiling)) over += 1;
    }
    const share = over / trials;
    // A sum of rectangles is no exact normal: a hundredth is left for that beside the statistical error.
    expect(Math.abs(share - verdict.probabilityOver)).toBeLessThan(
      0.01 + 3 * Math.sqrt((share * (1 - share)) / trials),
    );
    expect(share).toBeGreaterThan(0.02);
  });
});

it('nothing learned has no share in a verdict', () => {
  expect(biasShare(null)).toBeNull();
});
