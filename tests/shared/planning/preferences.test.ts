import { describe, expect, it } from 'vitest';
import { bruteForceCost } from './brute-force.ts';
import { randomOrder, randomShop, type RandomOrder } from './random-orders.ts';
import { bySku, DAY, orderOf, piece, smallShop } from './small-shop.ts';
import type { Piece } from '#shared/garments/types.ts';
import { isPlanError } from '#shared/planning/plan-error.ts';
import { planOrder } from '#shared/planning/plan-order.ts';
import type { Order, OrderPlan } from '#shared/planning/types.ts';
import type { PriceSteps } from '#shared/rating/types.ts';
import type { Shop, ShopPreferences } from '#shared/shop/shop.ts';
import { massFromGrams, toGrams } from '#shared/units/mass.ts';
import { money } from '#shared/units/money.ts';
import { seeded } from '#tests/support/seeded.ts';

const usd = (minor: number) => money(minor, 'USD');
const pick = <Thing>(list: readonly Thing[], uniform: () => number): Thing =>
  list[Math.floor(uniform() * list.length)]!;

/** Pieces with values, or without, at and around the sums from which the shop prefers something. */
function valued({ pieces, order }: RandomOrder, uniform: () => number): RandomOrder {
  const values = [undefined, 1000, 7999, 8000, 12_000, 30_000];
  const dear = pieces.map((each): Piece => {
    const value = pick(values, uniform);
    return value === undefined ? each : { ...each, value: usd(value) };
  });
  return { pieces: dear, order, bySku: bySku(dear) };
}

function preferring(shop: Shop, uniform: () => number): Shop {
  const preferences: ShopPreferences = {
    ...(uniform() < 0.6 ? { wrapAbove: { value: usd(8000), wraps: ['tissue'] } } : {}),
    ...(uniform() < 0.7 ? { doubleBagAbove: usd(12_000) } : {}),
    ...(uniform() < 0.5 ? { promise: uniform() < 0.5 ? ('must' as const) : ('prefer' as const) } : {}),
  };
  const outOfStock = [...shop.containers.keys()].filter(() => uniform() < 0.2);
  return { ...shop, preferences, outOfStock };
}

/** Days that the services of the small shop take at most, read off its card by eye. */
const MOST_DAYS: Readonly<Record<string, number>> = {
  light: 5,
  'by-weight': 3,
  'flat-card': 3,
  'cubic-soft': 3,
  'cubic-box': 3,
};

interface Promised {
  readonly service?: string;
  readonly arriveBy?: string;
}

/** Whether a service keeps what was promised, in this test's own words. DAY is 2026-11-25. */
function keeps({ service, arriveBy }: Promised, shop: Shop, { service: id }: PriceSteps): boolean {
  const days = MOST_DAYS[id] ?? NaN;
  const hasCard = shop.containers.has('card-flat') && shop.outOfStock?.includes('card-flat') !== true;
  const offered = service !== undefined && service in MOST_DAYS && (service !== 'flat-card' || hasCard);
  const quick = !offered || days <= (MOST_DAYS[service] ?? NaN);
  const there = new Date(Date.UTC(2026, 10, 25 + days)).toISOString().slice(0, 10);
  return quick && (arriveBy === undefined || there <= arriveBy);
}

describe('planOrder against trying everything, with what the shop prefers, what has run out and what was promised', () => {
  it.each([
    [1, 260],
    [2, 160],
    [3, 50],
    [4, 14],
  ])('finds the least cost of orders of %d pieces, %d times', (size, orders) => {
    const uniform = seeded(7000 + size);
    const seen = { doubled: 0, wrapped: 0, kept: 0, broken: 0, refused: 0 };
    for (let i = 0; i < orders; i++) {
      const shop = preferring(randomShop(uniform), uniform);
      const { order, pieces, bySku: known } = valued(randomOrder(size, uniform), uniform);
      const service = pick([undefined, undefined, 'light', 'by-weight', 'flat-card', 'by-balloon'], uniform);
      const arriveBy = pick([undefined, undefined, '2026-11-26', '2026-11-28', '2026-11-30'], uniform);
      const promised: Promised = { ...(service && { service }), ...(arriveBy && { arriveBy }) };
      const setting = { shop, route: { from: shop.from, to: order.to }, day: DAY };
      const kept = bruteForceCost(pieces, { ...setting, mayUse: (steps) => keeps(promised, shop, steps) });
      const must = shop.preferences?.promise === 'must';
      const least = kept < Infinity || must ? kept : bruteForceCost(pieces, { ...setting, mayUse: () => true });
      const plan = () => planOrder({ order: { ...order, ...promised }, pieces: known, shop, day: DAY });
      if (least === Infinity) {
        expect(plan).toThrow();
        seen.refused++;
        continue;
      }
      const found = plan();
      expect(Math.abs(found.cost.total - least), JSON.stringify({ pieces, promised })).toBeLessThan(1e-6);
      if (service !== undefined || arriveBy !== undefined) {
        expect(found.promise, JSON.stringify(promised)).toMatchObject(promised);
        if (service !== 'by-balloon' && service !== 'flat-card') expect(found.promise?.kept).toBe(kept < Infinity);
        seen[found.promise?.kept === true ? 'kept' : 'broken']++;
      }
      if (found.parcels.some(({ container }) => container.doubled !== undefined)) seen.doubled++;
      if (found.parcels.some(({ wrap }) => wrap.id === 'tissue')) seen.wrapped++;
    }
    // Each of them happened, so that the comparison says something about it.
    if (size < 3) for (const count of Object.values(seen)) expect(count, JSON.stringify(seen)).toBeGreaterThan(0);
  });
});

const TEE = piece('T1', 't-shirt', { size: 'M', mass: massFromGrams(160) });
const DEAR = { ...TEE, value: usd(15_000) };

function plan(pieces: readonly Piece[], shop: Shop, order: Partial<Order> = {}): OrderPlan {
  return planOrder({ order: orderOf(pieces, order), pieces: bySku(pieces), shop, day: DAY });
}

const withPreferences = (preferences: ShopPreferences, more: Partial<Shop> = {}): Shop => ({
  ...smallShop(),
  preferences,
  ...more,
});

describe('what a shop prefers', () => {
  it('wraps from the value on, and not below it or without one', () => {
    const shop = withPreferences({ wrapAbove: { value: usd(8000), wraps: ['tissue'] } });
    const wrapOf = (value: number | null) =>
      plan([value === null ? TEE : { ...TEE, value: usd(value) }], shop).parcels[0]?.wrap.id;
    expect([wrapOf(8000), wrapOf(7999), wrapOf(null)]).toEqual(['tissue', 'none', 'none']);
  });

  it('puts what is worth it into one pouch in another, weighs both and says why not one', () => {
    const shop = withPreferences({ doubleBagAbove: usd(12_000) });
    const { parcels, whyNot } = plan([DEAR], shop);
    const [parcel] = parcels;
    expect(parcel?.container.doubled).toEqual({ outer: 'pouch-middle', inner: 'pouch-small' });
    const bags = ['pouch-middle', 'pouch-small'].map((id) => toGrams(shop.containers.get(id)!.mass));
    expect(parcel?.mass.mean).toBeCloseTo(160 + bags[0]! + bags[1]! + 0.1 * 28.349523125, 9);
    expect(whyNot).toContainEqual({ container: 'pouch-small', code: 'wants-double-bag', values: {} });
    expect(plan([TEE], shop).parcels[0]?.container.id).toBe('pouch-small');
  });

  it('takes no double bag when one of its two pouches has run out', () => {
    const preferences = { doubleBagAbove: usd(12_000) };
    const bags = (outOfStock: readonly string[]) => {
      const [parcel] = plan([DEAR], withPreferences(preferences, { outOfStock })).parcels;
      return parcel?.container.doubled ?? parcel?.container.type;
    };
    expect(bags(['pouch-small'])).toEqual({ outer: 'pouch-large', inner: 'pouch-middle' });
    expect(bags(['pouch-middle'])).toEqual({ outer: 'pouch-large', inner: 'pouch-small' });
    expect(bags(['pouch-middle', 'pouch-large'])).not.toHaveProperty('inner');
  });

  it('after too tight offers no double bag with the same pouch inside: it holds no more', () => {
    const shop = withPreferences({ doubleBagAbove: usd(12_000) });
    const [first] = plan([DEAR], shop).parcels;
    const again = planOrder({
      order: orderOf([DEAR]),
      pieces: bySku([DEAR]),
      shop,
      day: DAY,
      without: [first!.container.id],
    });
    for (const each of [again, ...again.alternatives]) {
      expect(each.parcels[0]?.container.doubled?.inner).not.toBe('pouch-small');
    }
  });

  it('keeps a promised day where a service is sure to be there, and says when none is', () => {
    const shop = withPreferences({});
    expect(plan([TEE], shop, { arriveBy: '2026-11-30' }).parcels[0]?.offer.service).toBe('light');
    const sooner = plan([TEE], shop, { arriveBy: '2026-11-28' });
    expect(sooner.parcels[0]?.offer.service).toBe('cubic-soft');
    expect(sooner.promise).toEqual({ arriveBy: '2026-11-28', kept: true });
    const late = { container: 'pouch-small', service: 'light', code: 'later-than-promised' };
    expect(sooner.whyNot).toContainEqual({ ...late, values: { by: '2026-11-28', days: '5' } });
    const never = plan([TEE], shop, { arriveBy: '2026-11-27' });
    expect(never.promise).toEqual({ arriveBy: '2026-11-27', kept: false });
    expect(never.cost.total).toBe(plan([TEE], shop).cost.total);
  });

  it('refuses the order where a promise must be kept and cannot', () => {
    const shop = withPreferences({ promise: 'must' });
    try {
      plan([TEE], shop, { arriveBy: '2026-11-27' });
      expect.unreachable();
    } catch (error) {
      expect(isPlanError(error, 'nothing-fits')).toBe(true);
    }
  });
});
