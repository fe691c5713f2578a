import { describe, expect, it } from 'vitest';
import { bySku, CARD, CONTAINERS, DAY, orderOf, piece, smallShop } from './small-shop.ts';
import { planOrder } from '#shared/planning/plan-order.ts';
import type { RateCard, Service } from '#shared/rating/rate-card.ts';
import { massFromGrams, parseMass } from '#shared/units/mass.ts';
import { money } from '#shared/units/money.ts';

const TEE = piece('T1', 't-shirt', { size: 'M', mass: massFromGrams(160) });

/** A card with one service, `parcel`, at so many cents up to so many ounces. */
function card(carrier: string, ...brackets: readonly (readonly [ounces: number, cents: number])[]): RateCard {
  const most = parseMass(`${String(brackets.at(-1)![0])} oz`);
  const service: Service = {
    ...CARD.services[0]!,
    id: 'parcel',
    limits: [{ limit: 'largest-mass', most }],
    prices: [
      {
        rule: 'weight-bracket',
        zones: null,
        brackets: brackets.map(([ounces, cents]) => ({ upTo: parseMass(`${String(ounces)} oz`), prices: [cents] })),
        dimensional: [],
        fallingPrices: false,
      },
    ],
  };
  return { ...CARD, carrier, services: [service] };
}

const planned = (cards: readonly RateCard[], mass: number) => {
  const one = { ...TEE, mass: massFromGrams(mass) };
  const shop = smallShop({
    containers: new Map([...CONTAINERS].slice(0, 1)),
    rates: { cards, places: () => null },
    additions: [{ name: 'label', mass: parseMass('0.1 oz'), plusMinus: parseMass('0.2 oz') }],
  });
  return planOrder({ order: orderOf([one]), pieces: bySku([one]), shop, day: DAY }).parcels[0]!;
};

describe('a parcel of a plan', () => {
  // Two carriers call a service by the same name. The pouch and the label are 0.4 oz.
  const steep = card('steep-post', [8, 500], [16, 5000]);
  const even = card('even-post', [16, 600]);

  it('has the offer of the carrier that it was planned for, though another’s of that name is cheaper at its expected mass', () => {
    // 6.4 oz: surely below 8 oz; 7.99 oz: half of such parcels pay 50.00
    expect(planned([steep, even], 170).offer).toMatchObject({ carrier: 'steep-post', price: money(500, 'USD') });
    const parcel = planned([steep, even], 215.17);
    expect(parcel.mass.mean / 28.349523125).toBeCloseTo(7.99, 2);
    expect(parcel.prices.carrier).toBe('even-post');
    expect(parcel.offer).toMatchObject({ service: 'parcel', carrier: 'even-post', price: money(600, 'USD') });
  });

  it('has every other carrier’s and service’s prices besides, and not its own', () => {
    const others = (...cards: RateCard[]) =>
      planned(cards, 170).otherServices.map(({ carrier, service }) => `${carrier} ${service}`);
    expect(others(steep, even)).toEqual(['even-post parcel']);
    // `light` at 4.40 is planned
    expect(others(CARD, steep)).toEqual(['test-post by-weight', 'test-post cubic-soft', 'steep-post parcel']);
  });
});

describe('a plan that was not chosen', () => {
  it('is worked out in full when somebody looks at it, and then only once', () => {
    const request = { order: orderOf([TEE]), pieces: bySku([TEE]), shop: smallShop(), day: DAY };
    const [next] = planOrder(request).alternatives;
    const again = planOrder({ ...request, without: ['pouch-small'] });
    expect(next?.parcels).toEqual(again.parcels);
    expect(next?.cost).toEqual(again.cost);
    expect(next?.parcels).toBe(next?.parcels);
  });
});
