import fc from 'fast-check';
import { beforeEach, describe, expect, it } from 'vitest';
import { CARD, DAY, smallShop } from './small-shop.ts';
import type { Container } from '#shared/fitting/types.ts';
import { marketFor, type Market, type Prices, type RouteMarket } from '#shared/planning/market.ts';
import type { Adjustment } from '#shared/rating/adjustment.ts';
import type { RateCard } from '#shared/rating/rate-card.ts';
import { parseLength } from '#shared/units/length.ts';
import { parseMass, toGrams } from '#shared/units/mass.ts';
import { aContainer } from '#tests/support/demo-wardrobe.ts';
import { runs } from '#tests/support/runs.ts';

const INCH = 25.4;
const size = (width: number, length: number, thickness: number) => ({
  width: width * INCH,
  length: length * INCH,
  thickness: thickness * INCH,
});

/** Asks 3.00 more of what is small: under 9 x 5 x 0.5 in. */
const tiny: Adjustment = {
  id: 'tiny',
  name: { en: 'tiny', es: 'tiny' },
  when: [{ when: 'smaller-than', least: ['9 in', '5 in', '0.5 in'].map(parseLength) }],
  amount: { kind: 'amount', minor: 300 },
};

/** `light` refuses what is smaller than 6 x 3 x 0.25 in (small-shop.ts). */
const SMALL_COSTS_MORE: RateCard = {
  ...CARD,
  services: CARD.services.map((each) => ({
    ...each,
    ...(each.id === 'light' || each.id === 'by-weight' ? { surcharges: [tiny] } : {}),
    ...(each.id === 'by-weight'
      ? { limits: [...each.limits, { limit: 'smallest-mass', least: parseMass('2 oz') }] }
      : {}),
  })),
};

const pouch = aContainer('pouch', [15 * INCH, 20 * INCH], { id: 'pouch' });
const carton = aContainer('carton', [4 * INCH, 8 * INCH, INCH], { id: 'carton' });
const route = { from: smallShop().from, to: { postcode: '60601', country: 'US' } };

/** What a book says is remembered with it: each test asks one of its own. */
let asked: RouteMarket;
beforeEach(() => {
  asked = marketFor({ rates: { cards: [SMALL_COSTS_MORE], places: () => null } }, route, DAY);
});
const market: Market = (container, filled) => asked.market(container, filled);

function priceAt({ steps }: Prices, service: string, ounces: number): number | null {
  const list = steps.find((each) => each.service === service);
  const grams = ounces * 28.349523125;
  return list?.steps.find(({ ceiling }) => toGrams(ceiling) >= grams - 1e-9)?.price.minor ?? null;
}

describe('the least prices of what is no smaller than a size', () => {
  const least = (container: Container, ...sides: [number, number, number]) =>
    asked.leastPrices(container, size(...sides));

  it('are its own where no service asks for more', () => {
    expect(least(pouch, 10, 12, 1).steps.map(({ service, steps }) => ({ service, steps }))).toEqual(
      market(pouch, size(10, 12, 1)).steps.map(({ service, steps }) => ({ service, steps })),
    );
  });

  it('are those of a larger one, where a service refuses it or asks more for being small', () => {
    // 3.80 up to 4 oz and 5.20 up to 12 oz; 8.50 for a pound, the least that volume is billed as; 3.00 more for being small
    const itself = market(pouch, size(5, 2, 0.1));
    expect([priceAt(itself, 'light', 3), priceAt(itself, 'by-weight', 3)]).toEqual([null, 1150]);
    const small: readonly [number, number, number][] = [
      [5, 2, 0.1],
      [2, 5, 0.1],
      [6, 3, 0.25],
      [9, 5, 0.45],
      [9, 4.9, 0.5],
      [8.9, 5, 0.5],
    ];
    for (const sides of small) {
      const bound = least(pouch, ...sides);
      expect([priceAt(bound, 'light', 3), priceAt(bound, 'light', 12)]).toEqual([380, 520]);
      expect(priceAt(bound, 'by-weight', 3)).toBe(850);
    }
  });

  it('are its own for a carton, which filling does not change', () => {
    expect(priceAt(least(carton, 4, 8, 1), 'by-weight', 3)).toBe(1150);
  });

  it('say nothing of a least mass: with more in it, it may be taken', () => {
    expect(market(pouch, size(10, 12, 1)).steps.find(({ service }) => service === 'by-weight')?.least).toBeDefined();
    for (const bound of [least(pouch, 10, 12, 1), least(pouch, 5, 2, 0.1), least(carton, 4, 8, 1)]) {
      expect(bound.steps.every((each) => each.least === undefined)).toBe(true);
    }
  });

  /** What a book of its own says. */
  const of = (card: RateCard) => marketFor({ rates: { cards: [card], places: () => null } }, route, DAY);

  it('are the very same object where nothing asks more of what is small, so that nothing is reckoned twice', () => {
    const { market: asks, leastPrices } = of(CARD);
    for (const sides of [size(10, 12, 1), size(12, 10, 1), size(6, 3, 0.25), size(3, 6, 0.25)]) {
      expect(leastPrices(pouch, sides)).toBe(asks(pouch, sides));
    }
    expect(leastPrices(carton, size(4, 8, 1))).toBe(asks(carton, size(4, 8, 1)));
  });

  it('are those of a larger one where all that a card has is a least size, in any direction', () => {
    // `light` takes nothing below 6 x 3 x 0.25 in
    const { market: asks, leastPrices } = of(CARD);
    const small: readonly [number, number, number][] = [
      [5.5, 3, 0.25],
      [6, 2.5, 0.25],
      [2.5, 6, 0.25],
      [6, 3, 0.2],
    ];
    for (const sides of small) {
      expect(priceAt(asks(pouch, size(...sides)), 'light', 3)).toBeNull();
      expect(priceAt(leastPrices(pouch, size(...sides)), 'light', 3)).toBe(380);
    }
  });

  it('are at each mass the lesser of its own and of the larger one’s', () => {
    // 50 cents more below 9 in; volume in cubic inches / 139 up to whole pounds: 8 x 8 x 8 are 3.7, 9 x 8 x 8 are 4.1
    const cheap: Adjustment = { ...tiny, amount: { kind: 'amount', minor: 50 } };
    // and 1.00 more for a dwelling, which says nothing of a size
    const home: Adjustment = {
      ...tiny,
      id: 'home',
      when: [{ when: 'residential' }],
      amount: { kind: 'amount', minor: 100 },
    };
    const services = CARD.services
      .filter(({ id }) => id === 'by-weight')
      .map((each) => ({ ...each, surcharges: [home, cheap] }));
    const { market: asks, leastPrices } = of({ ...CARD, services });
    const wide = aContainer('pouch', [15 * INCH, 20 * INCH], { id: 'wide' });
    const at = (prices: Prices, pounds: number) => priceAt(prices, 'by-weight', pounds * 16);
    // 8.50 for a pound and 0.90 for each more: four are 11.20, five 12.10, six 13.00
    const own = asks(wide, size(8, 8, 8));
    expect([at(own, 3), at(own, 5), at(own, 6), at(own, 20)]).toEqual([1170, 1260, 1350, 2610]);
    const larger = asks(wide, size(8, 9, 8));
    expect([at(larger, 3), at(larger, 5), at(larger, 6), at(larger, 20)]).toEqual([1210, 1210, 1300, 2560]);
    const least = leastPrices(wide, size(8, 8, 8));
    expect([at(least, 3), at(least, 4), at(least, 5), at(least, 6), at(least, 20), at(least, 21)]).toEqual([
      1170,
      1170,
      1210,
      1300,
      2560,
      null,
    ]);
    const [list] = least.steps;
    expect(list?.steps.map(({ ceiling }) => toGrams(ceiling) / 453.59237)).toEqual(
      Array.from({ length: 17 }, (_, index) => expect.closeTo(index + 4, 6) as number),
    );
  });

  it('are never undercut by a larger one, whatever it weighs', () => {
    const side = (most: number) => fc.integer({ min: 1, max: most * 4 }).map((quarters) => quarters / 4);
    const more = fc.oneof(fc.constant(0), side(9));
    fc.assert(
      fc.property(side(12), side(15), side(3), more, more, more, (width, length, thickness, a, b, c) => {
        // A pouch lies flat: it is no thicker than wide.
        const thick = Math.min(thickness + c, width + a, length + b);
        const bound = least(pouch, width, length, Math.min(thickness, thick));
        const { steps } = market(pouch, size(width + a, length + b, thick));
        for (const { service } of steps) {
          for (const ounces of [1, 4, 4.1, 8, 12, 15.9, 16, 17, 100, 320]) {
            const price = priceAt({ steps }, service, ounces);
            if (price !== null) expect(priceAt(bound, service, ounces) ?? Infinity).toBeLessThanOrEqual(price);
          }
        }
      }),
      { numRuns: runs(200) },
    );
  });
});
