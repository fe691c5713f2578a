import { describe, expect, it } from 'vitest';
import { CARD, DAY, orderOf, piece, smallShop } from './small-shop.ts';
import { zonesWithin, type ZoneWeight } from '#shared/planning/destination-zones.ts';
import { estimatePiece } from '#shared/planning/estimate.ts';
import { ESTIMATE_WARNINGS, warningWords } from '#shared/planning/estimate-warnings.ts';
import { isPlanError } from '#shared/planning/plan-error.ts';
import { planOrder } from '#shared/planning/plan-order.ts';
import type { RateCard, Service } from '#shared/rating/rate-card.ts';
import { LANGUAGES } from '#shared/words/language.ts';
import { massFromGrams, parseMass, toGrams } from '#shared/units/mass.ts';
import { money } from '#shared/units/money.ts';

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

describe('what is promised where the zones differ', () => {
  const nothing = money(0, 'USD');
  /** What each zone pays in a container, in cents. */
  const flat = (id: string, fees: Readonly<Record<string, readonly number[]>>): Service => ({
    ...CARD.services[2]!,
    id,
    prices: [
      {
        rule: 'flat-fee',
        zones: ['near', 'middle', 'far'],
        fees: Object.entries(fees).map(([container, prices]) => ({ container, prices })),
      },
    ],
  });
  /** By weight, with a bracket just above the parcel: 160 g and 0.4 oz of pouch and label are 6.04 oz. */
  const close: Service = {
    ...CARD.services[1]!,
    id: 'close',
    prices: [
      {
        rule: 'weight-bracket',
        zones: ['near', 'middle', 'far'],
        brackets: ['6.05 oz', '20 lb'].map((upTo, i) => ({
          upTo: parseMass(upTo),
          prices: [2000, 520 + 100 * i, 2000],
        })),
        dimensional: [],
        fallingPrices: false,
      },
    ],
  };
  const differing = (services: readonly Service[], weights: readonly [near: number, middle: number, far: number]) =>
    estimatePiece({
      piece: piece('T1', 't-shirt', { mass: massFromGrams(160) }),
      shop: {
        ...smallShop({
          rates: { cards: [{ ...zoned, services }], places: () => null },
          labour: { perHour: nothing, repackSeconds: 0 },
        }),
        language: 'en',
      },
      day: DAY,
      zones: ['near', 'middle', 'far'].map((zone, index) => ({ zone, weight: weights[index]! })),
    });
  // near and in the middle the pouch at 9 cents is cheaper, far away the carton at 62
  const film = flat('film', { 'pouch-small': [500, 520, 900] });
  const box = flat('box', { 'carton-small': [900, 900, 600] });

  it('is the container that most destinations have, its service and its mass', () => {
    const { container, service, mass, zones: all, warnings } = differing([film, box], [1, 1, 3]);
    expect([container.id, service]).toEqual(['carton-small', 'box']);
    // 160 g, 5 oz of carton, 0.1 oz of label
    expect(mass.mean).toBeCloseTo(160 + 5.1 * 28.349523125, 6);
    expect(all.map(({ zone, cost }) => [zone, cost.minor])).toEqual([
      ['near', 509],
      ['middle', 529],
      ['far', 662],
    ]);
    expect(warnings).toContainEqual({
      code: 'container-by-zone',
      values: { containers: 'pouch-small, carton-small' },
    });
    const nearer = differing([film, box], [2, 2, 3]);
    expect([nearer.container.id, nearer.service]).toEqual(['pouch-small', 'film']);
    expect(nearer.mass.mean).toBeCloseTo(160 + 0.4 * 28.349523125, 6);
  });

  it('is of two that as many have that of the cheaper zone', () => {
    expect(differing([film, box], [1, 1, 2]).container.id).toBe('pouch-small');
    expect(differing([film, box], [2, 0.1, 1.9]).container.id).toBe('pouch-small');
  });

  it('is the service that most have in that container, whatever goes in others', () => {
    // far away the same service takes the carton
    const both = flat('film', { 'pouch-small': [500, 900, 900], 'carton-small': [900, 900, 600] });
    const found = differing([both, close], [2, 3, 4]);
    expect([found.container.id, found.service]).toEqual(['pouch-small', 'close']);
    // its bracket is what is warned of
    expect(found.warnings.map(({ code }) => code)).toContain('under-a-bracket');
    const other = differing([both, close], [3, 2, 4]);
    expect([other.container.id, other.service]).toEqual(['pouch-small', 'film']);
    expect(other.warnings.map(({ code }) => code)).not.toContain('under-a-bracket');
  });

  it('asks for one zone at least', () => {
    expect(() => estimate({ zones: [] })).toThrow('estimate: expected at least one zone, found none');
  });

  it('is no less than each zone costs, to the next whole cent', () => {
    const labour = { perHour: money(1, 'USD'), repackSeconds: 0 };
    const [near] = estimatePiece({
      piece: tee,
      shop: smallShop({ rates: { cards: [{ ...zoned, services: [film] }], places: () => null }, labour }),
      day: DAY,
      zones: [{ zone: 'near', weight: 1 }],
    }).zones;
    expect(near.cost.minor).toBe(510);
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
