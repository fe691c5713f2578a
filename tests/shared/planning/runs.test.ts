import { describe, expect, it } from 'vitest';
import { bySku, CARD, CONTAINERS, DAY, orderOf, piece, smallShop } from './small-shop.ts';
import type { Piece } from '#shared/garments/types.ts';
import { itemsOf, type Item } from '#shared/planning/item.ts';
import { boundsOf, cheapestParcel } from '#shared/planning/parcel-search.ts';
import { cheapestRuns } from '#shared/planning/runs.ts';
import type { Scene } from '#shared/planning/scene.ts';
import { surveyOrder } from '#shared/planning/survey.ts';
import type { Shop } from '#shared/shop/shop.ts';
import { parseLength } from '#shared/units/length.ts';
import { massFromGrams } from '#shared/units/mass.ts';

const only = (...ids: string[]) => smallShop({ containers: new Map(ids.map((id) => [id, CONTAINERS.get(id)!])) });

function asked(pieces: readonly Piece[], shop: Shop): { readonly items: readonly Item[]; readonly scene: Scene } {
  const first = pieces.slice(0, 1);
  const { scene } = surveyOrder({ order: orderOf(first), pieces: bySku(first), shop, day: DAY });
  return { items: itemsOf(orderOf(pieces), bySku(pieces), shop), scene };
}

const inside = { width: parseLength('8 in'), length: parseLength('13 in'), depth: parseLength('5 in') };
/** Shoes, 200 x 320 x 110 mm, have room in it and nothing else besides. */
const BOX = { ...CONTAINERS.get('carton-small')!, id: 'box', inside, outside: inside };

const tall = { ...inside, depth: parseLength('14 in') };

/** With one service, which takes a pound at most. */
const light = (shop: Shop): Shop => ({
  ...shop,
  rates: { cards: [{ ...CARD, services: CARD.services.slice(0, 1) }], places: () => null },
});

/** The cheapest of all ways to cut a row, each tried: after every piece there is a cut or there is none. */
function leastOfCuts(row: readonly Item[], scene: Scene, longest = row.length): number {
  const cost = new Map<string, number>();
  const costOf = (from: number, to: number): number => {
    const key = `${String(from)}-${String(to)}`;
    if (!cost.has(key)) {
      cost.set(key, cheapestParcel(boundsOf(row.slice(from, to), scene).bounded, scene)?.cost.total ?? Infinity);
    }
    return cost.get(key)!;
  };
  let least = Infinity;
  for (let cuts = 0; cuts < 2 ** (row.length - 1); cuts++) {
    const ends = row.flatMap((_, index) => (index + 1 === row.length || (cuts >> index) & 1 ? [index + 1] : []));
    const runs = ends.map((end, index): [number, number] => [ends[index - 1] ?? 0, end]);
    if (runs.some(([from, to]) => to - from > longest)) continue;
    least = Math.min(
      least,
      runs.reduce((sum, [from, to]) => sum + costOf(from, to), 0),
    );
  }
  return least;
}

const tee = (index: number, grams: number) => piece(`T${String(index)}`, 't-shirt', { mass: massFromGrams(grams) });
const byMass = (items: readonly Item[]) => items.toSorted((a, b) => a.mass.mean - b.mass.mean);
const byThickness = (items: readonly Item[]) => items.toSorted((a, b) => a.ideal.thickness - b.ideal.thickness);

describe('dividing a large order into runs', () => {
  it.each<[string, readonly Piece[], Shop]>([
    [
      // a carton of 5 oz, 142 g: three of 20 g go together below 8 oz, one of 300 g fills a pound
      'all as thick, which only from light to heavy fill the brackets',
      [20, 300, 21, 301, 22, 302].map((grams, index) =>
        piece(`H${String(index)}`, 'shoes', { mass: massFromGrams(grams) }),
      ),
      light(smallShop({ containers: new Map([['tall', { ...BOX, inside: tall, outside: tall }]]) })),
    ],
    [
      // each pair of shoes fills a box; t-shirts go together
      'of different thicknesses, whose masses alternate',
      [90, 100, 110, 120, 130].map((grams, index) =>
        index % 2 === 0 ? tee(index, grams) : piece(`H${String(index)}`, 'shoes', { mass: massFromGrams(grams) }),
      ),
      light(
        smallShop({
          containers: new Map([
            ['pouch-small', CONTAINERS.get('pouch-small')!],
            ['box', BOX],
          ]),
        }),
      ),
    ],
    ['that are alike', Array.from({ length: 6 }, (_, index) => tee(index, 160)), only('card-flat', 'pouch-small')],
  ])('costs the least of all cuts, by mass or by thickness, of pieces %s', (_, pieces, shop) => {
    const { items, scene } = asked(pieces, shop);
    const { split, proven, lowerBound } = cheapestRuns(items, scene, null);
    const least = Math.min(...[byMass(items), byThickness(items)].map((row) => leastOfCuts(row, scene)));
    expect(split?.total).toBeCloseTo(least, 6);
    expect(split?.candidates.reduce((sum, { cost }) => sum + cost.total, 0)).toBeCloseTo(least, 6);
    const packed = split?.candidates.flatMap(({ packing }) => packing.items.map((each) => each.piece.sku));
    expect(packed?.toSorted()).toEqual(pieces.map(({ sku }) => sku).toSorted());
    expect(proven).toBe(false);
    expect(lowerBound).toBeLessThanOrEqual(least + 1e-6);
    expect(lowerBound).toBeGreaterThan(0);
  });

  it('puts eight pieces into one parcel at most', () => {
    const pieces = Array.from({ length: 10 }, (_, index) => tee(index, 100));
    const { items, scene } = asked(pieces, only('carton-large'));
    const { split } = cheapestRuns(items, scene, null);
    const sizes = split?.candidates.map(({ packing }) => packing.items.length) ?? [];
    expect(Math.max(...sizes)).toBe(8);
    expect(sizes.reduce((sum, size) => sum + size, 0)).toBe(10);
    expect(split?.total).toBeCloseTo(leastOfCuts(byMass(items), scene, 8), 6);
  });

  it('is not done where one parcel is as cheap, nor where some piece goes nowhere', () => {
    const pieces = Array.from({ length: 4 }, (_, index) => tee(index, 100));
    const { items, scene } = asked(pieces, only('carton-large'));
    const single = cheapestParcel(boundsOf(items, scene).bounded, scene);
    expect(cheapestRuns(items, scene, single).split).toBeNull();
    // ten are cut into two runs at least, which cost more than one parcel of them all
    const ten = asked([...pieces, ...[5, 6, 7, 8, 9, 10].map((index) => tee(index, 100))], only('carton-large'));
    const whole = cheapestParcel(boundsOf(ten.items, ten.scene).bounded, ten.scene);
    expect(cheapestRuns(ten.items, ten.scene, null).split?.total).toBeGreaterThan(whole!.cost.total);
    expect(cheapestRuns(ten.items, ten.scene, whole).split).toBeNull();
    // one run of them all is no division
    expect(cheapestRuns(items, scene, null).split).toBeNull();
    const oar = asked([...pieces, piece('O1', 'shoes', { measured: { length: 2000 } })], only('carton-large'));
    expect(cheapestRuns(oar.items, oar.scene, null)).toMatchObject({ split: null, lowerBound: Infinity });
  });
});

// 13.90 for the large carton's tier, 1.18 for it and 45 s of work at half a cent a second; 20 lb, 9,071.8 g, at most.
const IN_CARTON = 1390 + 118 + 22.5;

describe('what any plan of a large order costs at least', () => {
  const bound = (pieces: readonly Piece[], shop: Shop) => {
    const { items, scene } = asked(pieces, shop);
    return cheapestRuns(items, scene, null).lowerBound;
  };
  const shoes = (count: number, grams: number) =>
    Array.from({ length: count }, (_, index) => piece(`H${String(index)}`, 'shoes', { mass: massFromGrams(grams) }));

  it('is as many parcels as its mass needs, two at least where it does not go into one', () => {
    // five pairs have no room in one carton: 1 kg is one parcel's mass, 15 kg are two parcels', 30 kg four
    expect(bound(shoes(5, 200), only('carton-large'))).toBeCloseTo(2 * IN_CARTON, 6);
    expect(bound(shoes(5, 3000), only('carton-large'))).toBeCloseTo(2 * IN_CARTON, 6);
    expect(bound(shoes(5, 6000), only('carton-large'))).toBeCloseTo(4 * IN_CARTON, 6);
  });

  it('has the work for every piece besides, in the cheapest wrap', () => {
    // tissue: 6 cents and 8 seconds
    const tissue = smallShop().wraps.get('tissue')!;
    const velvet = { ...tissue, id: 'velvet', costPerPiece: { minor: 90, currency: 'USD' } };
    const shop = { ...only('carton-large'), wraps: new Map([tissue, velvet].map((each) => [each.id, each])) };
    expect(bound(shoes(5, 6000), shop)).toBeCloseTo(4 * IN_CARTON + 5 * (6 + 4), 6);
  });

  it('is one parcel of the dearest piece, and the others of the cheapest', () => {
    // A t-shirt goes into a large card at 9.05 whatever it weighs and 15 s of work; its two steps are 4 s each.
    const size = { width: parseLength('25 in'), length: parseLength('25 in') };
    const card = { ...CONTAINERS.get('card-flat')!, inside: size, outside: size };
    const shop = smallShop({ containers: new Map([...only('carton-large').containers, [card.id, card]]) });
    const pieces = shoes(6, 3000).with(2, tee(1, 150));
    // 15,150 g are two parcels' mass
    expect(bound(pieces, shop)).toBeCloseTo(IN_CARTON + 905 + 7.5 + 4, 6);
    // 30,150 g are four
    const heavy = shoes(6, 6000).with(2, tee(1, 150));
    expect(bound(heavy, shop)).toBeCloseTo(3 * IN_CARTON + 905 + 7.5 + 4, 6);
  });

  it('is what one container for them all would cost at its best, where that is less', () => {
    // 150 g and 12 oz of carton are above 1 lb: even one of them pays 13.90
    const pieces = Array.from({ length: 12 }, (_, index) => tee(index, 150));
    const { items, scene } = asked(pieces, only('carton-large'));
    const single = cheapestParcel(boundsOf(items, scene).bounded, scene);
    // folded in four steps of 4 s each: in two they are 510 mm wide, the carton 330 mm
    expect(single?.cost.total).toBeCloseTo(IN_CARTON + 12 * 8, 6);
    expect(cheapestRuns(items, scene, single).lowerBound).toBeCloseTo(IN_CARTON + 12 * 8, 6);
  });
});
