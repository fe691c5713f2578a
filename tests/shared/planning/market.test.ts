import { describe, expect, it } from 'vitest';
import { CARD, CONTAINERS, DAY, smallShop } from './small-shop.ts';
import { marketFor, type RouteMarket } from '#shared/planning/market.ts';
import { ratedParcel } from '#shared/planning/rated-parcel.ts';
import type { Fit } from '#shared/fitting/types.ts';
import { daysLater } from '#shared/rating/day.ts';
import { priceSteps } from '#shared/rating/price-steps.ts';
import type { RateBook } from '#shared/rating/rate-card.ts';
import type { Day, Route } from '#shared/rating/types.ts';
import { seeded } from '#tests/support/seeded.ts';

const INCH = 25.4;
const size = (width: number, length: number, thickness: number): Fit['filled'] => ({
  width: width * INCH,
  length: length * INCH,
  thickness: thickness * INCH,
});
const SIZE = size(10, 12, 1);
const pouch = CONTAINERS.get('pouch-large')!;
const from = smallShop().from;
const to = (postcode: string): Route => ({ from, to: { postcode, country: 'US' } });

/** A book of its own, of which nothing is remembered yet: its second card counts only from a later day on. */
const book = (): RateBook => ({
  cards: [CARD, { ...CARD, carrier: 'late-post', from: '2027-01-01' }],
  places: () => null,
});
const asked = (rates: RateBook, route = to('60601'), day: Day = DAY): RouteMarket => marketFor({ rates }, route, day);
const pricesIn = (rates: RateBook, route?: Route, day?: Day) => asked(rates, route, day).market(pouch, SIZE);

describe('what services ask for a filled container', () => {
  it('is what the rate cards say, whatever was asked before', () => {
    const rates = book();
    const route = to('60601');
    const { market } = asked(rates, route);
    const uniform = seeded(31);
    const containers = [...CONTAINERS.values()];
    for (let i = 0; i < 300; i++) {
      const container = containers[Math.floor(uniform() * containers.length)]!;
      // few different sides, so that width and length change places and sizes come again
      const side = () => 3 + Math.floor(uniform() * 8) * 2.5;
      const filled = size(side(), side(), [0.2, 1, 2.5][Math.floor(uniform() * 3)]!);
      const { steps } = priceSteps(rates, ratedParcel(container, filled), route, DAY);
      expect(market(container, filled).steps).toEqual(steps);
    }
  });

  it('is one object for one size, and for every container and size of the same prices', () => {
    const { market } = asked(book());
    const prices = market(pouch, SIZE);
    expect(market(pouch, SIZE)).toBe(prices);
    expect(market(pouch, { ...SIZE })).toBe(prices);
    expect(market(CONTAINERS.get('pouch-middle')!, SIZE)).toBe(prices);
    expect(market(pouch, size(10, 12, 9))).not.toBe(prices);
    expect(market(pouch, size(14, 20, 1))).not.toBe(prices);
  });

  it('is remembered for every address that pays the same, and for none that pays another price or day', () => {
    const rates = book();
    const prices = pricesIn(rates);
    expect(pricesIn(rates, to('97201'))).toBe(prices);
    expect(pricesIn(rates, to('97201'), '2027-01-02')).not.toBe(prices);
    expect(pricesIn(rates, to('97201'), '2027-01-02').steps.map(({ carrier }) => carrier)).toContain('late-post');
    expect(prices.steps.map(({ carrier }) => carrier)).not.toContain('late-post');
    expect(pricesIn(rates, { zone: 'elsewhere' })).not.toBe(prices);
    expect(pricesIn(book())).not.toBe(prices);
  });

  it('is forgotten of the day that was longest not asked, so that a station that runs for years does not fill up', () => {
    const rates = { ...book(), cards: [{ ...CARD, services: CARD.services.slice(0, 1) }] };
    const dayAt = (index: number) => daysLater(DAY, index);
    const first = Array.from({ length: 500 }, (_, index) => pricesIn(rates, undefined, dayAt(index)));
    // all 500 are there; the first one is asked again, so the second is the oldest
    expect(pricesIn(rates, undefined, dayAt(0))).toBe(first[0]);
    const next = pricesIn(rates, undefined, dayAt(500));
    expect(pricesIn(rates, undefined, dayAt(0))).toBe(first[0]);
    expect(pricesIn(rates, undefined, dayAt(2))).toBe(first[2]);
    expect(pricesIn(rates, undefined, dayAt(500))).toBe(next);
    expect(pricesIn(rates, undefined, dayAt(1))).not.toBe(first[1]);
  });
});
