import { describe, expect, it } from 'vitest';
import { leadTimeSpread, reorderPoint, safetyStock } from '#shared/supplies/reorder.ts';
import { normalQuantile } from '#shared/weighing/normal-quantile.ts';
import { normalBelow } from '#shared/weighing/normal.ts';
import { seeded } from '#tests/support/seeded.ts';

/** Abramowitz and Stegun, "Handbook of Mathematical Functions", table 26.5 (normal deviates); values from memory. */
const DEVIATES = [
  [0.5, 0],
  [0.8, 0.84162],
  [0.9, 1.28155],
  [0.95, 1.64485],
  [0.975, 1.95996],
  [0.99, 2.32635],
  [0.999, 3.09023],
] as const;

describe('normal deviates', () => {
  it.each(DEVIATES)('P(X <= z) = %s at z = %s', (probability, z) => {
    expect(normalQuantile(probability)).toBeCloseTo(z, 5);
    expect(normalQuantile(1 - probability)).toBeCloseTo(-z, 5);
    expect(normalBelow(normalQuantile(probability))).toBeCloseTo(probability, 12);
  });
  it.each([0, 1, -1, NaN])('%s has none', (probability) => {
    expect(() => normalQuantile(probability)).toThrow(RangeError);
  });
});

/** A day's demand over a lead time that is a whole number of days, drawn day by day: no formula of ours in it. */
function shareWithoutStockOut(stock: number, draws: number, day: () => number, lead: () => number): number {
  let enough = 0;
  for (let draw = 0; draw < draws; draw++) {
    let used = 0;
    for (let days = lead(); days > 0; days--) used += day();
    if (used <= stock) enough++;
  }
  return enough / draws;
}

/** Worked examples of Chopra and Meindl, "Supply Chain Management", chapter on safety inventory; from memory. */
describe('safety stock', () => {
  it('2,500 a week with a standard deviation of 500, two weeks on its way, 90 %: 907', () => {
    const of = { demand: { mean: 2500, sd: 500 }, leadTime: { mean: 2, sd: 0 }, serviceLevel: 0.9 };
    expect(leadTimeSpread(of)).toBeCloseTo(707, 0);
    // The book has 906 with its rounded figures.
    expect(Math.abs(safetyStock(of) - 906)).toBeLessThan(1);
    expect(reorderPoint(of) - safetyStock(of)).toBe(5000);
  });

  it('a shelf of 6,000 is enough in 92 % of those times', () => {
    const of = { demand: { mean: 2500, sd: 500 }, leadTime: { mean: 2, sd: 0 }, serviceLevel: 0.92 };
    expect(Math.abs(reorderPoint(of) - 6000)).toBeLessThan(10);
  });

  it('an uncertain lead time: 2,500 a day, 500; 7 days, 7; 90 %: 22,491', () => {
    const of = { demand: { mean: 2500, sd: 500 }, leadTime: { mean: 7, sd: 7 }, serviceLevel: 0.9 };
    expect(leadTimeSpread(of)).toBeCloseTo(17_550, -1);
    expect(Math.abs(safetyStock(of) - 22_491)).toBeLessThan(2);
  });

  it('keeps what it promises, by trying it out: the share of lead times without a stock-out is the service level', () => {
    const uniform = seeded(71);
    const normal = () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
    const of = { demand: { mean: 40, sd: 12 }, leadTime: { mean: 9, sd: 0 }, serviceLevel: 0.95 };
    const share = shareWithoutStockOut(
      reorderPoint(of),
      20_000,
      () => 40 + 12 * normal(),
      () => 9,
    );
    expect(share).toBeGreaterThan(0.945);
    expect(share).toBeLessThan(0.955);
    // A lead time of 8 to 10 days, each as likely: its variance is 2/3.
    const wavering = { ...of, leadTime: { mean: 9, sd: Math.sqrt(2 / 3) } };
    const lead = () => 8 + Math.floor(3 * uniform());
    const wide = shareWithoutStockOut(reorderPoint(wavering), 20_000, () => 40 + 12 * normal(), lead);
    expect(wide).toBeGreaterThan(0.94);
    expect(wide).toBeLessThan(0.965);
  });
});
