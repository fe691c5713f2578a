import { describe, expect, it } from 'vitest';
import { bySku, CARD, CONTAINERS, DAY, orderOf, piece, smallShop } from './small-shop.ts';
import type { Container } from '#shared/fitting/types.ts';
import type { Piece } from '#shared/garments/types.ts';
import { isPlanError } from '#shared/planning/plan-error.ts';
import { planOrder } from '#shared/planning/plan-order.ts';
import { surveyOrder } from '#shared/planning/survey.ts';
import type { Order } from '#shared/planning/types.ts';
import type { Shop } from '#shared/shop/shop.ts';
import { parseLength } from '#shared/units/length.ts';
import { massFromGrams } from '#shared/units/mass.ts';
import { money } from '#shared/units/money.ts';

const TEE = piece('T1', 't-shirt', { size: 'M', mass: massFromGrams(160) });
const SHOES = piece('H1', 'shoes');
const shop = smallShop();

const plan = (pieces: readonly Piece[], order: Partial<Order> = {}, within: Shop = shop, without?: readonly string[]) =>
  planOrder({
    order: orderOf(pieces, order),
    pieces: bySku(pieces),
    shop: within,
    day: DAY,
    ...(without && { without }),
  });

// DAY is 2026-11-25; `light` takes up to 5 days, every other service 3 (small-shop.ts).
describe('what was promised', () => {
  it.each<[string, readonly Piece[], Partial<Order>, unknown]>([
    ['nothing', [TEE], {}, undefined],
    ['a service that takes it', [TEE], { service: 'light' }, { service: 'light', kept: true }],
    ['a service, by a cheaper one as quick', [TEE], { service: 'by-weight' }, { service: 'by-weight', kept: true }],
    ['a day', [TEE], { arriveBy: '2026-11-30' }, { arriveBy: '2026-11-30', kept: true }],
    ['a day that no service is sure of', [TEE], { arriveBy: '2026-11-27' }, { arriveBy: '2026-11-27', kept: false }],
    ['a service that nobody sells', [TEE], { service: 'by-balloon' }, { service: 'by-balloon', kept: false }],
    [
      'a service that nobody sells, and a day that can be kept',
      [TEE],
      { service: 'by-balloon', arriveBy: '2026-11-30' },
      { service: 'by-balloon', arriveBy: '2026-11-30', kept: false },
    ],
    [
      'a service and a day',
      [TEE],
      { service: 'light', arriveBy: '2026-11-28' },
      { service: 'light', arriveBy: '2026-11-28', kept: true },
    ],
    [
      'a service, by a day that none keeps',
      [TEE],
      { service: 'light', arriveBy: '2026-11-26' },
      { service: 'light', arriveBy: '2026-11-26', kept: false },
    ],
  ])('is told of %s', (_, pieces, order, promise) => {
    const planned = plan(pieces, order);
    expect(planned.promise).toStrictEqual(promise);
    expect('promise' in planned).toBe(promise !== undefined);
  });

  it('is kept at any price where it can be, and costs nothing where it cannot', () => {
    expect(plan([TEE], { arriveBy: '2026-11-28' }).parcels[0]?.offer.service).toBe('cubic-soft');
    expect(plan([TEE], { arriveBy: '2026-11-27' }).cost.total).toBe(plan([TEE]).cost.total);
  });

  it('is a reason to refuse the order only where the shop says that it must be kept', () => {
    const must = { ...shop, preferences: { promise: 'must' } } as const;
    const prefer = { ...shop, preferences: { promise: 'prefer' } } as const;
    const late = { arriveBy: '2026-11-27' };
    let refused: unknown;
    try {
      plan([TEE], late, must);
    } catch (error) {
      refused = error;
    }
    expect(isPlanError(refused, 'nothing-fits') && refused.message).toBe(
      'order A-1: no container takes its pieces and can be sent to this address',
    );
    expect(plan([TEE], late, prefer).promise?.kept).toBe(false);
    expect(plan([TEE], { arriveBy: '2026-11-30' }, must).promise?.kept).toBe(true);
    // what nobody sells cannot be kept: the order goes, and says so
    expect(plan([TEE], { service: 'by-balloon' }, must).promise?.kept).toBe(false);
  });

  it('is kept by a service that only refuses a pouch as it lies empty: without thickness, or as wide as it then is', () => {
    const film = (...ids: string[]) =>
      smallShop({ containers: new Map([...CONTAINERS].filter(([id]) => ids.includes(id))) });
    // `by-weight` bills by volume, of which a pouch without thickness has none
    const paid = plan([TEE], { service: 'by-weight' }, film('pouch-small', 'pouch-middle'));
    expect(paid.promise).toEqual({ service: 'by-weight', kept: true });
    expect(paid.parcels[0]?.offer.service).toBe('cubic-soft');
    // `cubic-soft` ends at 31 in: 15 + 20 in are above it, and shoes draw them in
    const shoes = plan([SHOES], { service: 'cubic-soft' }, film('pouch-large'));
    expect(shoes.parcels[0]?.offer.service).toBe('cubic-soft');
    expect(shoes.promise).toEqual({ service: 'cubic-soft', kept: true });
  });
});

describe('containers that are out of the question', () => {
  const usd = (minor: number) => money(minor, 'USD');
  const leftOut = (pieces: readonly Piece[], within: Shop, without?: readonly string[]) =>
    surveyOrder({
      order: orderOf(pieces),
      pieces: bySku(pieces),
      shop: within,
      day: DAY,
      ...(without && { without }),
    }).leftOut;

  it('are those that the packer found too tight, before those that have run out', () => {
    const short = { ...shop, outOfStock: ['pouch-middle', 'pouch-small', 'no longer there'] };
    expect(leftOut([TEE], shop)).toEqual([]);
    expect(leftOut([TEE], short, ['pouch-small', 'carton-small'])).toEqual([
      { container: 'pouch-small', code: 'left-out' },
      { container: 'pouch-middle', code: 'out-of-stock' },
      { container: 'carton-small', code: 'left-out' },
    ]);
    expect(plan([TEE], {}, shop, ['pouch-small']).parcels[0]?.container.id).not.toBe('pouch-small');
    const planned = plan([TEE], {}, short);
    expect(planned.parcels[0]?.container.id).not.toMatch(/pouch-(small|middle)/);
    expect(planned.whyNot.filter(({ container }) => container === 'pouch-small')).toEqual([
      { container: 'pouch-small', code: 'out-of-stock', values: {} },
    ]);
  });

  it('are single films for what is worth so much; one pouch in another is named by neither', () => {
    const doubling = { ...shop, preferences: { doubleBagAbove: usd(12_000) } };
    const dear = { ...TEE, value: usd(12_000) };
    expect(leftOut([dear], doubling)).toEqual(
      ['pouch-small', 'pouch-middle', 'pouch-large'].map((container) => ({ container, code: 'wants-double-bag' })),
    );
    expect(leftOut([TEE], doubling)).toEqual([]);
    expect(leftOut([dear], { ...doubling, outOfStock: ['pouch-large'] })).toContainEqual({
      container: 'pouch-large',
      code: 'out-of-stock',
    });
    const [parcel] = plan([dear], {}, doubling).parcels;
    expect(parcel?.container.doubled).toEqual({ outer: 'pouch-middle', inner: 'pouch-small' });
  });
});

describe('one parcel or several', () => {
  it('is one where that is cheaper', () => {
    const { parcels, proven } = plan([TEE, { ...TEE, sku: 'T2' }]);
    expect(parcels.map(({ pieces }) => pieces.length)).toEqual([2]);
    expect(proven).toBe(true);
    expect('lowerBound' in plan([TEE])).toBe(false);
  });

  it('is several where no one container takes them all', () => {
    const inside = { width: parseLength('8 in'), length: parseLength('13 in'), depth: parseLength('5 in') };
    const box = { ...CONTAINERS.get('carton-small')!, inside, outside: inside };
    const { parcels, alternatives, whyNot, proven } = plan(
      [SHOES, { ...SHOES, sku: 'H2' }],
      {},
      smallShop({ containers: new Map([[box.id, box]]) }),
    );
    const skus = parcels.map(({ pieces }) => pieces.map(({ piece: { sku } }) => sku));
    expect(skus.toSorted()).toEqual([['H1'], ['H2']]);
    expect([alternatives, proven]).toEqual([[], true]);
    expect(whyNot.map(({ container, code }) => [container, code])).toEqual([['carton-small', 'too-tight']]);
  });

  it('is several where that is cheaper, and the one container that takes them all is what else could be done', () => {
    // 300 g each are below 12 oz, 5.20; both are above 1 lb, and go by volume only: 13.90
    const heavy = ['T1', 'T2'].map((sku) => ({ ...TEE, sku, mass: massFromGrams(300) }));
    const services = CARD.services.filter(({ id }) => id === 'light' || id === 'cubic-box');
    const within = smallShop({
      containers: new Map(['pouch-small', 'carton-large'].map((id) => [id, CONTAINERS.get(id)!])),
      rates: { cards: [{ ...CARD, services }], places: () => null },
    });
    const { parcels, alternatives, whyNot, cost } = plan(heavy, {}, within);
    expect(parcels.map(({ container }) => container.id)).toEqual(['pouch-small', 'pouch-small']);
    expect(alternatives.map((each) => each.parcels.map(({ container }) => container.id))).toEqual([['carton-large']]);
    const more = ((alternatives[0]?.cost.total ?? 0) - cost.total) / 100;
    expect(more).toBeGreaterThan(1);
    expect(whyNot).toContainEqual({
      container: 'carton-large',
      code: 'dearer',
      values: { by: `$${more.toFixed(2)}`, with: 'cubic-box' },
    });
    expect(whyNot).toContainEqual({ container: 'pouch-small', code: 'no-service', values: {} });
  });

  it('tells of a container that is too small what comes nearest to fitting it, and of one that fits nothing of the kind', () => {
    const { tried } = surveyOrder({ order: orderOf([SHOES]), pieces: bySku([SHOES]), shop, day: DAY });
    const near = new Map(tried.map((each) => [each.container.id, each.near?.fit.limit ?? null]));
    // 320 mm are 12.6 in, 110 mm are 4.3 in
    expect(near.get('carton-small')).toBe('length');
    expect(near.get('carton-large')).toBeNull();
  });
});

describe('a day without prices', () => {
  it('is told apart from an order that nothing takes, and named', () => {
    const cards = [{ ...CARD, from: '2999-01-01' }];
    const early = smallShop({ rates: { cards, places: () => null } });
    expect(() => plan([TEE], {}, early)).toThrow('order A-1: expected a rate card in force on 2026-11-25, found none');
  });
});

describe('a container that is only just large enough', () => {
  it('is looked at although another of the same size is not there', () => {
    const inch = (text: string) => parseLength(text);
    const box = (id: string, length: string): [string, Container] => {
      const size = { width: inch('8 in'), length: inch(length), depth: inch('5 in') };
      return [id, { ...CONTAINERS.get('carton-small')!, id, inside: size, outside: size }];
    };
    const within = smallShop({ containers: new Map([box('short', '12.5 in'), box('long', '12.6 in')]) });
    // 200 x 320 x 110 mm are 7.87 x 12.598 x 4.33 in
    expect(plan([SHOES], {}, within).parcels[0]?.container.id).toBe('long');
  });
});
