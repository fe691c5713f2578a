import { describe, expect, it } from 'vitest';
import { expectedPostage } from '#shared/planning/expected-postage.ts';
import type { PriceSteps } from '#shared/rating/types.ts';
import { massFromGrams, toGrams } from '#shared/units/mass.ts';
import { money } from '#shared/units/money.ts';
import { normalDeviate, seeded } from '#tests/support/seeded.ts';

function service(id: string, ...steps: readonly (readonly [grams: number, cents: number])[]): PriceSteps {
  return {
    service: id,
    carrier: 'test-post',
    rule: 'weight-bracket',
    zone: 'one',
    cardFrom: '2026-01-01',
    steps: steps.map(([grams, cents]) => ({ ceiling: massFromGrams(grams), price: money(cents, 'USD') })),
  };
}

const LIGHT = service('light', [100, 400], [200, 450], [400, 520]);
const HEAVY = service('heavy', [500, 800], [1000, 950]);
const REPACK = 300;

/** What one parcel of a mass pays when light is planned. */
function paid(grams: number): number {
  for (const plan of [LIGHT, HEAVY]) {
    const step = plan.steps.find(({ ceiling }) => grams <= toGrams(ceiling));
    if (step !== undefined) return step.price.minor;
  }
  return 520 + REPACK;
}

describe('expectedPostage', () => {
  it('is the price of the bracket when the mass is certain, its ceiling belonging to it', () => {
    const at = (mean: number) => expectedPostage(LIGHT, { mean, sd: 0 }, [LIGHT, HEAVY], REPACK);
    expect([50, 100, 100.001, 200, 400].map(at)).toEqual([400, 400, 450, 450, 520]);
  });

  it('is null where the service does not take the mean mass', () => {
    expect(expectedPostage(LIGHT, { mean: 401, sd: 10 }, [LIGHT, HEAVY], REPACK)).toBeNull();
  });

  it('is half and half in the middle of an edge', () => {
    expect(expectedPostage(LIGHT, { mean: 200, sd: 5 }, [LIGHT], REPACK)).toBeCloseTo(485, 9);
  });

  it('sends what turns out too heavy by the cheapest service that takes it', () => {
    expect(expectedPostage(LIGHT, { mean: 400, sd: 5 }, [LIGHT, HEAVY], REPACK)).toBeCloseTo((520 + 800) / 2, 9);
    expect(expectedPostage(LIGHT, { mean: 400, sd: 5 }, [LIGHT], REPACK)).toBeCloseTo(520 + REPACK / 2, 9);
  });

  it('sends what turns out too light for a smallest mass by the cheapest service that takes it', () => {
    const from300: PriceSteps = { ...HEAVY, least: massFromGrams(300) };
    expect(expectedPostage(from300, { mean: 299, sd: 5 }, [from300], REPACK)).toBeNull();
    expect(expectedPostage(from300, { mean: 300, sd: 5 }, [LIGHT, from300], REPACK)).toBeCloseTo((520 + 800) / 2, 9);
    expect(expectedPostage(from300, { mean: 300, sd: 5 }, [from300], REPACK)).toBeCloseTo(800 + REPACK / 2, 9);
    // Above what light takes, the other one still begins at its smallest mass.
    expect(expectedPostage(LIGHT, { mean: 400, sd: 5 }, [LIGHT, from300], REPACK)).toBeCloseTo((520 + 800) / 2, 9);
  });

  it.each([
    [150, 60],
    [390, 40],
    [300, 150],
    [380, 400],
  ])('agrees with a seeded simulation of a mass of %d g with a spread of %d', (mean, sd) => {
    const uniform = seeded(mean);
    const draws = 40_000;
    let sum = 0;
    let squares = 0;
    for (let i = 0; i < draws; i++) {
      const price = paid(mean + sd * normalDeviate(uniform));
      sum += price;
      squares += price * price;
    }
    const average = sum / draws;
    const error = Math.sqrt((squares / draws - average ** 2) / draws);
    const expected = expectedPostage(LIGHT, { mean, sd }, [LIGHT, HEAVY], REPACK);
    expect(Math.abs((expected ?? 0) - average)).toBeLessThan(4 * error);
  });
});
