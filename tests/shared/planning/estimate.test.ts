import { describe, expect, it } from 'vitest';
import { CARD, DAY, orderOf, piece, smallShop } from './small-shop.ts';
import { zonesWithin, type ZoneWeight } from '#shared/planning/destination-zones.ts';
import { estimatePiece } from '#shared/planning/estimate.ts';
import { ESTIMATE_WARNINGS, warningWords } from '#shared/planning/estimate-warnings.ts';
import { isPlanError } from '#shared/planning/plan-error.ts';
import { planOrder } from '#shared/planning/plan-order.ts';
import type { RateCard } from '#shared/rating/rate-card.ts';
import { LANGUAGES } from '#shared/words/language.ts';
import { toGrams } from '#shared/units/mass.ts';

/** The small shop's card with two zones, the far one 3.00 dearer by every bracket. */
const zoned: RateCard = {
  ...CARD,
  zones: [
    {
      by: 'distance',
      unit: 'mi',
      country: 'US',
      bands: [{ upTo: 300, zone: 'near' }, { zone: 'far' }],
    },
  ],
  services: CARD.services.map((service) => ({
    ...service,
    prices: service.prices.map((rule) =>
      rule.rule === 'weight-bracket'
        ? {
            ...rule,
            zones: ['near', 'far'],
            brackets: rule.brackets.map(({ upTo, prices: [price = 0] }) => ({ upTo, prices: [price, price + 300] })),
          }
        : { ...rule, zones: ['elsewhere'] },
    ),
  })),
};
const shop = smallShop({ rates: { cards: [zoned], places: () => null } });
const zones = zonesWithin(shop.from.country, shop.rates);
const tee = piece('T1', 't-shirt');
const estimate = (more: { readonly zones?: readonly ZoneWeight[]; readonly share?: number } = {}) =>
  estimatePiece({ piece: tee, shop, day: DAY, zones, ...more });

describe('zonesWithin', () => {
  it('knows every zone of the cards once, and none of another country', () => {
    expect(zones.length).toBeGreaterThan(0);
    expect(new Set(zones.map(({ zone }) => zone)).size).toBe(zones.length);
    const abroad = { ...CARD, zones: [{ by: 'flat', zone: 'far', countries: ['ZZ'] }] } as const;
    const book = { ...shop.rates, cards: [abroad] };
    expect(zonesWithin('US', book)).toEqual([]);
    expect(zonesWithin('ZZ', book)).toEqual([{ zone: 'far', weight: 1 }]);
  });
});

describe('estimatePiece', () => {
  it('has for every zone the very plan of an order that goes there', () => {
    for (const { zone, parcel, cost } of estimate().zones) {
      const order = orderOf([tee]);
      const plan = planOrder({ order, pieces: new Map([['T1', tee]]), shop, day: DAY, route: { zone } });
      expect(parcel.container).toBe(plan.parcels[0]?.container);
      expect(parcel.offer.price).toEqual(plan.parcels[0]?.offer.price);
      expect(cost.minor).toBe(Math.ceil(plan.cost.total - 1e-6));
    }
  });

  it('declares a mass that 19 of 20 parcels keep, in whole ounces', () => {
    const { declared, mass } = estimate();
    expect(toGrams(declared)).toBeGreaterThanOrEqual(mass.mean + 1.6 * mass.sd);
    expect(toGrams(declared)).toBeLessThan(mass.mean + 1.7 * mass.sd + 28.35);
    expect((toGrams(declared) / 28.349523125) % 1).toBeCloseTo(0, 9);
  });

  it('charges what covers the share of destinations asked for, by their weight', () => {
    const all = estimate({ share: 1 });
    const [cheapest] = all.zones;
    const dearest = all.zones.at(-1)!;
    expect([cheapest.zone, dearest.zone]).toEqual(['near', 'far']);
    expect(dearest.cost.minor - cheapest.cost.minor).toBe(300);
    expect(all.charge).toEqual(dearest.cost);
    expect(estimate({ share: 0.001 }).charge).toEqual(cheapest.cost);
    const mostlyNear = [
      { zone: cheapest.zone, weight: 9 },
      { zone: dearest.zone, weight: 1 },
    ];
    expect(estimate({ zones: mostlyNear }).charge).toEqual(cheapest.cost);
    expect(estimate({ zones: mostlyNear, share: 0.91 }).charge).toEqual(dearest.cost);
  });

  it('names zones that nothing goes to, and fails where there is no other', () => {
    const found = estimate({ zones: [...zones, { zone: 'nowhere', weight: 1 }] });
    expect(found.unserved).toEqual(['nowhere']);
    expect(found.warnings.map(({ code }) => code)).toContain('unserved');
    try {
      estimate({ zones: [{ zone: 'nowhere', weight: 1 }] });
      expect.unreachable();
    } catch (error) {
      expect(isPlanError(error, 'nothing-fits')).toBe(true);
    }
  });

  it('warns of a piece that nobody weighed, and not of one that somebody did', () => {
    const codes = (more: Parameters<typeof piece>[2]) =>
      estimatePiece({ piece: piece('T1', 't-shirt', more), shop, day: DAY, zones }).warnings.map(({ code }) => code);
    const { mass } = estimate();
    expect(codes({})).toContain('not-weighed');
    expect(codes({ mass: Math.round(mass.mean * 16e9) as never })).not.toContain('not-weighed');
  });

  it('says how far under the bracket a piece lies that may be over it', () => {
    const [cheapest] = estimate().zones;
    const { steps } = cheapest.parcel.prices;
    const ceiling = toGrams(steps[0]!.ceiling);
    // What the parcel adds to the piece stays the same whatever the piece weighs.
    const own = cheapest.parcel.pieces[0]!.mass.mean;
    const around = cheapest.parcel.mass.mean - own;
    const weighing = (grams: number) => Math.round((ceiling - around + grams) * 16e9) as never;
    const warned = (grams: number) =>
      estimatePiece({ piece: piece('T1', 't-shirt', { mass: weighing(grams) }), shop, day: DAY, zones }).warnings.map(
        ({ code }) => code,
      );
    expect(warned(-0.2)).toContain('under-a-bracket');
    expect(warned(0.2)).toContain('over-a-bracket');
    expect(warned(-60)).not.toContain('under-a-bracket');
  });
});

describe('warningWords', () => {
  it('has a sentence for every code in every language', () => {
    for (const code of ESTIMATE_WARNINGS) {
      for (const language of LANGUAGES) {
        const values = {
          by: '12 g',
          ceiling: '100 g',
          less: '$1.00',
          what: 'size',
          container: 'x',
          containers: 'x, y',
        };
        expect(warningWords({ code, values: { ...values, zones: '5' } }, language)).not.toMatch(/[{}]|undefined/);
      }
    }
    const values = { by: '12 g', ceiling: '100 g' };
    expect(warningWords({ code: 'under-a-bracket', values }, 'en')).toBe('12 g under the 100 g bracket: weigh it');
  });
});
