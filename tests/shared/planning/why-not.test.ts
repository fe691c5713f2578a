import { describe, expect, it } from 'vitest';
import { bySku, CARD, CONTAINERS, DAY, orderOf, piece, smallShop } from './small-shop.ts';
import type { Container, Fit } from '#shared/fitting/types.ts';
import { planOrder } from '#shared/planning/plan-order.ts';
import { isPlanError } from '#shared/planning/plan-error.ts';
import type { Scene } from '#shared/planning/scene.ts';
import type { Order, PlanRejection } from '#shared/planning/types.ts';
import { whyNot } from '#shared/planning/why-not.ts';
import type { Service } from '#shared/rating/rate-card.ts';
import type { Shop } from '#shared/shop/shop.ts';
import type { LengthUnit } from '#shared/units/length.ts';
import { massFromGrams, parseMass } from '#shared/units/mass.ts';
import { money } from '#shared/units/money.ts';
import { aContainer, NO_WRAP } from '#tests/support/demo-wardrobe.ts';

// Work costs nothing and every service has one price, so that every sum is one of prices and of containers.
const nothing = money(0, 'USD');
const TEE = piece('T1', 't-shirt', { size: 'M', mass: massFromGrams(200) });

function service(id: string, cents: number, more: Partial<Service> = {}): Service {
  const limits: Service['limits'] = [{ limit: 'largest-mass', most: parseMass('20 lb') }];
  return {
    ...CARD.services[0]!,
    id,
    days: [1, 3],
    limits,
    prices: [
      {
        rule: 'weight-bracket',
        zones: null,
        brackets: [{ upTo: parseMass('20 lb'), prices: [cents] }],
        dimensional: [],
        fallingPrices: false,
      },
    ],
    ...more,
  };
}

function pouch(id: string, cents: number): Container {
  return { ...CONTAINERS.get('pouch-middle')!, id, cost: money(cents, 'USD') };
}

function shopOf(services: readonly Service[], containers: readonly Container[], more: Partial<Shop> = {}): Shop {
  return {
    ...smallShop({
      containers: new Map(containers.map((each) => [each.id, each])),
      rates: { cards: [{ ...CARD, services }], places: () => null },
      labour: { perHour: nothing, repackSeconds: 0 },
      additions: [],
      units: { mass: 'g', massPlaces: 0, length: 'mm' },
    }),
    ...more,
  };
}

function reasons(shop: Shop, order: Partial<Order> = {}): readonly PlanRejection[] {
  try {
    return planOrder({ order: orderOf([TEE], order), pieces: bySku([TEE]), shop, day: DAY }).whyNot;
  } catch (error) {
    if (!isPlanError(error)) throw error;
    return error.whyNot;
  }
}

describe('why not another container', () => {
  it('tells by how much it is dearer in all, and with which service', () => {
    expect(reasons(shopOf([service('post', 500)], [pouch('one', 9), pouch('other', 59)]))).toStrictEqual([
      { container: 'other', code: 'dearer', values: { by: '$0.50', with: 'post' } },
    ]);
  });

  it('tells that it costs the same where it does to the cent', () => {
    expect(reasons(shopOf([service('post', 500)], [pouch('one', 9), pouch('other', 9)]))).toEqual([
      { container: 'other', code: 'no-cheaper', values: { with: 'post' } },
    ]);
    // 0.3 of a cent more: a second's work at 10.80 an hour
    const slower = { ...pouch('other', 9), seconds: 16 };
    const labour = { perHour: money(1080, 'USD'), repackSeconds: 0 };
    expect(reasons(shopOf([service('post', 500)], [slower, pouch('one', 9)], { labour }))).toEqual([
      { container: 'other', code: 'no-cheaper', values: { with: 'post' } },
    ]);
    // 0.6 of a cent is a cent
    const slowest = { ...pouch('other', 9), seconds: 17 };
    expect(reasons(shopOf([service('post', 500)], [slowest, pouch('one', 9)], { labour }))).toEqual([
      { container: 'other', code: 'dearer', values: { by: '$0.01', with: 'post' } },
    ]);
  });

  it('tells what lost in it as well', () => {
    const shop = shopOf([service('post', 500), service('fast', 625)], [pouch('one', 9), pouch('other', 59)]);
    expect(reasons(shop).filter(({ container }) => container === 'other')).toEqual([
      { container: 'other', code: 'dearer', values: { by: '$0.50', with: 'post' } },
      { container: 'other', service: 'fast', code: 'dearer', values: { by: '$1.25', than: 'post' } },
    ]);
  });

  it.each<[LengthUnit, number, string]>([
    ['mm', 15.2, '16 mm'],
    ['mm', 16, '16 mm'],
    ['mm', 0.02, '1 mm'],
    ['cm', 15.2, '1.6 cm'],
    ['cm', 0.02, '0.1 cm'],
    ['in', 15.2, '0.60 in'],
    ['in', 12.7, '0.50 in'],
    ['in', 0.02, '0.01 in'],
  ])('tells in %s that %d mm are lacking, never less than that nor nothing: %s', (length, lacks, by) => {
    const scene = { shop: shopOf([], [], { units: { mass: 'g', massPlaces: 0, length } }) } as unknown as Scene;
    const told = (limit: Fit['limit'], slack: Partial<Fit['slack']>) => {
      const fit = { limit, slack: { width: 7, length: 7, thickness: 7, ...slack } } as Fit;
      const tried = {
        container: aContainer('card', [1, 1], { id: 'tight' }),
        search: { found: false, noService: null },
        near: { folds: [], wrap: NO_WRAP, fit },
      } as const;
      return whyNot([tried], null, Infinity, [], scene, null);
    };
    for (const limit of ['width', 'length', 'thickness'] as const) {
      expect(told(limit, { [limit]: -lacks })).toEqual([
        { container: 'tight', code: 'too-tight', values: { limit, by } },
      ]);
    }
    expect(told('thickness-cap', { thickness: -lacks })).toEqual([
      { container: 'tight', code: 'too-tight', values: { limit: 'thickness-cap', by } },
    ]);
    expect(told('must-not-press', { width: -lacks })).toEqual([
      { container: 'tight', code: 'must-not-press', values: {} },
    ]);
  });

  it('tells of one without anything to wrap in nothing, for nothing was tried', () => {
    const tried = {
      container: aContainer('card', [1, 1]),
      search: { found: false, noService: null },
      near: null,
    } as const;
    expect(whyNot([tried], null, Infinity, [], {} as Scene, null)).toEqual([]);
  });
});

describe('why not another service', () => {
  const only = (services: readonly Service[], order: Partial<Order> = {}) =>
    reasons(shopOf(services, [pouch('one', 9)]), order);

  it('tells by how much it is dearer than the one that is used, or that it costs the same', () => {
    expect(only([service('post', 500), service('fast', 625), service('as-dear', 500)])).toEqual([
      { container: 'one', service: 'fast', code: 'dearer', values: { by: '$1.25', than: 'post' } },
      { container: 'one', service: 'as-dear', code: 'no-cheaper', values: { than: 'post' } },
    ]);
  });

  it('tells that the parcel is too light or too heavy for it, and from and up to where it goes', () => {
    // 200 g and half an ounce of pouch: 214 g
    const from = (least: string, most: string): Service['limits'] => [
      { limit: 'smallest-mass', least: parseMass(least) },
      { limit: 'largest-mass', most: parseMass(most) },
    ];
    expect(
      only([
        service('post', 500),
        service('heavy', 400, { limits: from('250 g', '2000 g') }),
        service('light', 400, { limits: [{ limit: 'largest-mass', most: parseMass('150 g') }] }),
        service('lighter', 400, { limits: from('50 g', '120 g') }),
      ]),
    ).toEqual([
      { container: 'one', service: 'heavy', code: 'too-light', values: { expected: '214 g', least: '250 g' } },
      { container: 'one', service: 'light', code: 'too-heavy', values: { expected: '214 g', most: '150 g' } },
      { container: 'one', service: 'lighter', code: 'too-heavy', values: { expected: '214 g', most: '120 g' } },
    ]);
  });

  it('tells the most that a service of many brackets takes, in the last of them', () => {
    const brackets = ['50 g', '100 g', '150 g'].map((upTo) => ({ upTo: parseMass(upTo), prices: [300] }));
    const stairs = service('stairs', 300, {
      limits: [{ limit: 'largest-mass', most: parseMass('150 g') }],
      prices: [{ ...(service('x', 1).prices[0] as object), brackets } as never],
    });
    expect(only([service('post', 500), stairs])).toEqual([
      { container: 'one', service: 'stairs', code: 'too-heavy', values: { expected: '214 g', most: '150 g' } },
    ]);
  });

  it('tells that it is slower than what was paid for, once, and that the card refuses such a parcel', () => {
    const told = only(
      [
        service('paid', 500),
        service('slow', 400, { days: [4, 9] }),
        service('slow-and-light', 300, {
          days: [4, 9],
          limits: [{ limit: 'largest-mass', most: parseMass('150 g') }],
        }),
        service('short', 300, {
          limits: [
            { limit: 'largest-mass', most: parseMass('20 lb') },
            { limit: 'longest-side', most: CONTAINERS.get('pouch-small')!.inside.width, measured: 'raw' },
          ],
        }),
      ],
      { service: 'paid' },
    );
    expect(told.map((each) => [each.service, each.code])).toEqual([
      ['short', 'over-longest-side'],
      ['slow', 'slower-than-paid'],
      ['slow-and-light', 'slower-than-paid'],
    ]);
    expect(told[1]?.values).toEqual({ paid: 'paid', days: '9' });
    expect(told[0]?.values['most']).toBe('9 in');
  });

  it('tells of a container that no service takes what each of them holds against it', () => {
    const light = service('light', 400, { limits: [{ limit: 'largest-mass', most: parseMass('150 g') }] });
    const short = service('short', 300, {
      limits: [
        { limit: 'largest-mass', most: parseMass('20 lb') },
        { limit: 'longest-side', most: CONTAINERS.get('pouch-small')!.inside.width, measured: 'raw' },
      ],
    });
    const told = only([light, short]);
    expect(told.map((each) => [each.container, each.service, each.code])).toEqual([
      ['one', undefined, 'no-service'],
      ['one', 'light', 'too-heavy'],
      ['one', 'short', 'over-longest-side'],
    ]);
    // a promise that must be kept: what is too slow is told so, and not as too heavy besides
    const must = { ...shopOf([light, { ...light, id: 'slow', days: [5, 9] }], [pouch('one', 9)]) };
    const kept = reasons({ ...must, preferences: { promise: 'must' } }, { service: 'light' });
    expect(kept.map((each) => [each.service, each.code])).toEqual([
      [undefined, 'no-service'],
      ['light', 'too-heavy'],
      ['slow', 'slower-than-paid'],
    ]);
  });
});
