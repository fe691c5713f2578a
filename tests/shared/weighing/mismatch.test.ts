import { describe, expect, it } from 'vitest';
import { matchMass } from '#shared/weighing/mismatch.ts';
import { massFromGrams, toGrams } from '#shared/units/mass.ts';

describe('matchMass', () => {
  it.each([
    [500, 40, 600, false],
    [500, 40, 621, true],
    [500, 40, 379, true],
    [500, 40, 381, false],
    // weighed at intake: no thread's difference is a mismatch, a missing T-shirt is
    [500, 1, 529, false],
    [500, 1, 531, true],
    [500, 0, 500, false],
    // exactly as far off as is allowed
    [500, 0, 530, false],
    [500, 40, 380, false],
  ])('expects %d g with a spread of %d; %d g: mismatch %s', (mean, sd, found, mismatch) => {
    expect(matchMass(massFromGrams(found), { mean, sd }).mismatch).toBe(mismatch);
  });

  it('shows the usual range around the expected mass and never below nothing', () => {
    const match = matchMass(massFromGrams(480), { mean: 500, sd: 40 });
    expect([toGrams(match.usual.low), toGrams(match.usual.high)]).toEqual([420, 580]);
    expect(match.offGrams).toBeCloseTo(-20, 9);
    expect(match.sds).toBeCloseTo(-0.5, 9);
    expect(matchMass(massFromGrams(0), { mean: 10, sd: 40 }).usual.low).toBe(0);
    // Without a spread the range is two thirds of the floor, and nothing is a number of spreads off.
    const exact = matchMass(massFromGrams(510), { mean: 500, sd: 0 });
    expect([toGrams(exact.usual.low), toGrams(exact.usual.high), exact.sds]).toEqual([480, 520, 0]);
  });
});
