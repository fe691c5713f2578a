import { describe, expect, it } from 'vitest';
import { bySku, CONTAINERS, DAY, orderOf, piece, smallShop } from './small-shop.ts';
import type { Piece } from '#shared/garments/types.ts';
import type { Item } from '#shared/planning/item.ts';
import { bestInContainer, boundsOf, cheapestParcel, compareCandidates } from '#shared/planning/parcel-search.ts';
import type { Scene } from '#shared/planning/scene.ts';
import { searchSplit } from '#shared/planning/split.ts';
import { surveyOrder } from '#shared/planning/survey.ts';
import type { Shop } from '#shared/shop/shop.ts';
import { parseLength } from '#shared/units/length.ts';
import { massFromGrams } from '#shared/units/mass.ts';
import { money } from '#shared/units/money.ts';

const only = (...ids: string[]) => smallShop({ containers: new Map(ids.map((id) => [id, CONTAINERS.get(id)!])) });

interface Asked {
  readonly items: readonly Item[];
  readonly scene: Scene;
}

function asked(pieces: readonly Piece[], shop: Shop): Asked {
  const { items, scene } = surveyOrder({ order: orderOf(pieces), pieces: bySku(pieces), shop, day: DAY });
  return { items, scene };
}

/** The cheapest parcel of all the pieces, container by container. */
function wholeOf({ items, scene }: Asked) {
  const [best] = scene.containers
    .filter((container) => scene.admits(container, items))
    .flatMap((container) => {
      const search = bestInContainer(items, container, scene);
      return search.found ? [search.candidate] : [];
    })
    .sort(compareCandidates);
  return best ?? null;
}

/** Every way to put things into groups: the first alone or with some of the others, and so on. */
function* partitions(things: readonly number[]): Generator<number[][]> {
  const [first, ...rest] = things;
  if (first === undefined) {
    yield [];
    return;
  }
  for (const groups of partitions(rest)) {
    yield [[first], ...groups];
    for (const [index, group] of groups.entries()) {
      yield [[first, ...group], ...groups.filter((_, other) => other !== index)];
    }
  }
}

/** The least cost over every partition, each group packed by itself; a group's cost is looked up. */
function leastOfAll({ items, scene }: Asked): { readonly total: number; readonly parcels: number } {
  const known = new Map<string, number>();
  const costOf = (group: readonly number[]) => {
    const key = group.toSorted((a, b) => a - b).join();
    let cost = known.get(key);
    if (cost === undefined) {
      const some = group.map((index) => items[index]!);
      cost = wholeOf({ items: some, scene })?.cost.total ?? Infinity;
      known.set(key, cost);
    }
    return cost;
  };
  let best = { total: Infinity, parcels: 0 };
  for (const groups of partitions(items.map((_, index) => index))) {
    const total = groups.reduce((sum, group) => sum + costOf(group), 0);
    const fewer = Math.abs(total - best.total) < 1e-9 && groups.length < best.parcels;
    if (total < best.total - 1e-9 || fewer) best = { total, parcels: groups.length };
  }
  return best;
}

const tee = (sku: string, grams = 160) => piece(sku, 't-shirt', { size: 'M', mass: massFromGrams(grams) });
const shoes = (sku: string) => piece(sku, 'shoes');

describe('dividing an order', () => {
  it.each<[string, readonly Piece[], Shop]>([
    ['three t-shirts and shoes', [tee('A'), tee('B', 220), tee('C'), shoes('D')], smallShop()],
    ['two pairs of shoes and a t-shirt', [shoes('A'), tee('B'), shoes('C')], only('carton-large', 'pouch-small')],
    ['heavy and light in films', ['A', 'B', 'C', 'D'].map((sku, i) => tee(sku, 120 + 90 * i)), only('pouch-small')],
    ['jackets', ['A', 'B', 'C'].map((sku) => piece(sku, 'jacket')), only('pouch-middle', 'pouch-large')],
    ['what only goes alone', [piece('A', 'sweater'), piece('B', 'sweater'), tee('C')], only('pouch-middle')],
  ])('costs the least of every way to do it: %s', (_, pieces, shop) => {
    const order = asked(pieces, shop);
    const single = wholeOf(order);
    const { split, proven, lowerBound } = searchSplit(order.items, order.scene, single);
    const least = leastOfAll(order);
    expect(proven).toBe(true);
    expect(Math.min(split?.total ?? Infinity, single?.cost.total ?? Infinity)).toBeCloseTo(least.total, 6);
    expect(lowerBound).toBeCloseTo(least.total, 6);
    expect(split === null ? 1 : split.candidates.length).toBe(least.parcels);
    if (split === null) return;
    expect(split.candidates.reduce((sum, { cost }) => sum + cost.total, 0)).toBeCloseTo(split.total, 6);
    const packed = split.candidates.flatMap(({ packing }) => packing.items.map((each) => each.piece.sku));
    expect(packed.toSorted()).toEqual(pieces.map(({ sku }) => sku));
  });

  it('is not done where one parcel costs as much', () => {
    // nothing costs anything but a postage of nothing by the piece
    const nothing = money(0, 'USD');
    const free = { ...CONTAINERS.get('card-flat')!, cost: nothing, seconds: 0 };
    const size = { width: parseLength('25 in'), length: parseLength('25 in') };
    const { thicknessCap: _, ...large } = { ...free, inside: size, outside: size };
    const shop = smallShop({
      containers: new Map([[large.id, large]]),
      labour: { perHour: nothing, repackSeconds: 0 },
    });
    const rates = shop.rates.cards.map((card) => ({
      ...card,
      services: card.services.map((service) => ({
        ...service,
        prices: service.prices.map((rule) =>
          rule.rule === 'flat-fee' ? { ...rule, fees: rule.fees.map((fee) => ({ ...fee, prices: [0] })) } : rule,
        ),
      })),
    }));
    const order = asked([tee('A'), tee('B')], { ...shop, rates: { cards: rates, places: () => null } });
    const single = wholeOf(order);
    expect(single?.cost.total).toBe(0);
    expect(searchSplit(order.items, order.scene, single)).toEqual({ split: null, proven: true, lowerBound: 0 });
  });

  it('of one piece there is none', () => {
    const order = asked([tee('A')], only('pouch-small'));
    const single = wholeOf(order)!;
    const none = { split: null, proven: true };
    expect(searchSplit(order.items, order.scene, single)).toEqual({ ...none, lowerBound: single.cost.total });
    expect(searchSplit(order.items, order.scene, null)).toEqual({ ...none, lowerBound: Infinity });
  });

  it('of what goes into nothing there is none', () => {
    const order = asked([tee('A'), tee('B')], only('pouch-small'));
    const nowhere = { ...order.scene, containers: [] };
    expect(searchSplit(order.items, nowhere, null)).toEqual({ split: null, proven: true, lowerBound: Infinity });
  });

  it('is exact up to ten pieces', () => {
    const proven = (count: number) => {
      const { items, scene } = asked([shoes('A')], only('pouch-large'));
      // no service takes one of them with another: groups are looked at and left at once
      const heavy = { ...items[0]!, mass: { mean: 6000, sd: 1 } };
      const many = Array.from({ length: count }, () => heavy);
      return searchSplit(many, scene, null).proven;
    };
    expect([proven(10), proven(11)]).toEqual([true, false]);
  });

  it('puts one pouch in another around pieces that together are worth it', () => {
    const order = asked([{ ...tee('A'), value: money(20_000, 'USD') }, tee('B')], {
      ...only('pouch-small', 'pouch-middle', 'pouch-large'),
      preferences: { doubleBagAbove: money(12_000, 'USD') },
    });
    const { split, lowerBound } = searchSplit(order.items, order.scene, null);
    expect(split?.candidates.map(({ packing }) => packing.container.doubled !== undefined).toSorted()).toEqual([
      false,
      true,
    ]);
    const alone = order.items.map((item) => cheapestParcel(boundsOf([item], order.scene).bounded, order.scene)!);
    expect(lowerBound).toBeCloseTo(
      alone.reduce((sum, { cost }) => sum + cost.total, 0),
      6,
    );
  });
});
