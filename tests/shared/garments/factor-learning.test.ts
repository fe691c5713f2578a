import { describe, expect, it } from 'vitest';
import { FACTOR_PRIOR, learnClosing, type FactorBelief } from '#shared/garments/factor-learning.ts';
import { normalBelow } from '#shared/weighing/normal.ts';

const evidence = (closed: boolean, intercept: number, slopes: Record<string, number>) => ({
  closed,
  intercept,
  slopes: new Map(Object.entries(slopes)),
});
const belief = (mean: number, sd: number): FactorBelief => ({ ...FACTOR_PRIOR, mean, sd });

/** Mean and standard deviation of prior times likelihood, added up over a fine grid: nothing but the definition. */
function byAddingUp(mean: number, sd: number, likelihood: (factor: number) => number) {
  const step = sd / 400;
  let [total, first, second] = [0, 0, 0];
  for (let factor = mean - 8 * sd; factor <= mean + 8 * sd; factor += step) {
    const weight = Math.exp(-(((factor - mean) / sd) ** 2) / 2) * likelihood(factor);
    total += weight;
    first += weight * factor;
    second += weight * factor * factor;
  }
  return { mean: first / total, sd: Math.sqrt(second / total - (first / total) ** 2) };
}

describe('what a kind learns from containers that closed or did not', () => {
  it.each([
    [true, 12, 11],
    [true, 9, 9],
    [false, 12, 11],
    [false, 25, 22],
    [true, 4, 2],
  ])('has the mean and the spread of the exact posterior (closed %s, margin %d - %d factor)', (closed, a, b) => {
    const { beliefs, learned } = learnClosing(new Map([['jeans', belief(1, 0.15)]]), evidence(closed, a, { jeans: b }));
    const exact = byAddingUp(1, 0.15, (factor) => normalBelow((closed ? 1 : -1) * (a - b * factor)));
    expect(learned).toBe(true);
    expect(beliefs.get('jeans')?.mean).toBeCloseTo(exact.mean, 5);
    expect(beliefs.get('jeans')?.sd).toBeCloseTo(exact.sd, 5);
  });

  it('agrees with the moments written out in Rasmussen and Williams (3.85, 3.87)', () => {
    // Their likelihood is Phi((x - m) / v): with x = -factor, v = 1 / slope and m = -intercept / slope it is ours.
    const [mu, sigma, m, v] = [-1, 0.15, -10 / 9, 1 / 9];
    const z = (mu - m) / (v * Math.sqrt(1 + sigma ** 2 / v ** 2));
    const density = Math.exp(-(z ** 2) / 2) / Math.sqrt(2 * Math.PI);
    const mean = mu + (sigma ** 2 * density) / (normalBelow(z) * v * Math.sqrt(1 + sigma ** 2 / v ** 2));
    const variance =
      sigma ** 2 - ((sigma ** 4 * density) / ((v ** 2 + sigma ** 2) * normalBelow(z))) * (z + density / normalBelow(z));
    const { beliefs } = learnClosing(new Map(), evidence(true, 10, { coat: 9 }));
    expect(beliefs.get('coat')?.mean).toBeCloseTo(-mean, 10);
    expect(beliefs.get('coat')?.sd).toBeCloseTo(Math.sqrt(variance), 10);
  });

  it('thinks a kind thicker after too tight and thinner after it closed, and is never less sure than before', () => {
    const tight = learnClosing(new Map(), evidence(false, 10, { coat: 9 })).beliefs.get('coat');
    const closed = learnClosing(new Map(), evidence(true, 10, { coat: 9 })).beliefs.get('coat');
    expect(tight?.mean).toBeGreaterThan(1);
    expect(closed?.mean).toBeLessThan(1);
    expect(tight?.sd).toBeLessThan(FACTOR_PRIOR.sd);
    expect(closed?.sd).toBeLessThan(FACTOR_PRIOR.sd);
    expect(tight).toMatchObject({ closed: 0, tooTight: 1 });
    expect(closed).toMatchObject({ closed: 1, tooTight: 0 });
  });

  it('puts more on the kind that takes more of the room', () => {
    const { beliefs } = learnClosing(new Map(), evidence(false, 12, { coat: 9, scarf: 2 }));
    const moved = (kind: string) => (beliefs.get(kind)?.mean ?? 0) - 1;
    expect(moved('coat')).toBeGreaterThan(moved('scarf'));
    expect(moved('coat') / moved('scarf')).toBeCloseTo(9 / 2, 6);
  });

  it('shows what it had given next to no chance and learns nothing from it', () => {
    const lesson = learnClosing(new Map(), evidence(false, 30, { 't-shirt': 4 }));
    expect(lesson.learned).toBe(false);
    expect(lesson.chance).toBeLessThan(0.001);
    expect(lesson.beliefs.get('t-shirt')).toEqual(FACTOR_PRIOR);
  });

  it('learns nothing of what has nothing to do with thickness', () => {
    expect(learnClosing(new Map(), evidence(true, 3, { belt: 0 })).beliefs.size).toBe(0);
  });
});
