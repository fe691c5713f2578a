import { describe, expect, it } from 'vitest';
import { bySku, CARD, CONTAINERS, DAY, orderOf, piece, smallShop } from './small-shop.ts';
import type { Container } from '#shared/fitting/types.ts';
import type { Piece } from '#shared/garments/types.ts';
import { aBlock, aContainer } from '#tests/support/demo-wardrobe.ts';
import type { Fold } from '#shared/folding/types.ts';
import { itemFrom, itemsOf, type Item } from '#shared/planning/item.ts';
import { bestInContainer, boundsOf, cheapestParcel } from '#shared/planning/parcel-search.ts';
import { surveyOrder, type Survey } from '#shared/planning/survey.ts';
import type { Shop } from '#shared/shop/shop.ts';
import { lengthFromMillimetres, parseLength, toMillimetres } from '#shared/units/length.ts';
import { massFromGrams } from '#shared/units/mass.ts';
import { money } from '#shared/units/money.ts';

const TEE = piece('T1', 't-shirt', { size: 'M', mass: massFromGrams(160) });
const SWEATER = piece('S1', 'sweater');
const SHOES = piece('H1', 'shoes');

/** Pieces, and what is asked about while they are planned: the same for every piece of one order. */
function sceneOf(pieces: readonly Piece[], shop: Shop = smallShop()): Pick<Survey, 'items' | 'scene'> {
  const first = pieces.slice(0, 1);
  const { scene } = surveyOrder({ order: orderOf(first), pieces: bySku(first), shop, day: DAY });
  return { items: itemsOf(orderOf(pieces), bySku(pieces), shop), scene };
}

const only = (...containers: Container[]) =>
  smallShop({ containers: new Map(containers.map((each) => [each.id, each])) });

const found = (pieces: readonly Piece[], shop?: Shop) => {
  const { items, scene } = sceneOf(pieces, shop);
  return boundsOf(items, scene).bounded.map(({ packing, atLeast }) => ({
    in: packing.container.id,
    wrap: packing.wrap.id,
    atLeast,
  }));
};

describe('the bound on what a parcel costs', () => {
  // 18.00 an hour is half a cent a second; a fold takes four seconds a step.
  it('is what it costs where there is one way only: shoes in the large carton', () => {
    // 13 x 17 x 8 in are 1,768 in3, 1.023 ft3: the tier of 1.10 ft3 asks 13.90; the carton 1.18 and 45 s, tissue 6 c and 8 s
    const carton = only(CONTAINERS.get('carton-large')!);
    const [bare, wrapped, ...more] = found([SHOES], carton);
    expect(bare).toMatchObject({ in: 'carton-large', wrap: 'none' });
    expect(bare?.atLeast).toBeCloseTo(1390 + 118 + 22.5, 6);
    expect(wrapped).toMatchObject({ in: 'carton-large', wrap: 'tissue' });
    expect(wrapped?.atLeast).toBeCloseTo(1390 + 118 + 22.5 + 6 + 4, 6);
    expect(more).toEqual([]);
  });

  it('counts the quickest fold of every piece, and the wrap of each', () => {
    // a card at 9.05 whatever it weighs, 15 s; two t-shirts
    const twice = [TEE, { ...TEE, sku: 'T2' }];
    const size = { width: parseLength('25 in'), length: parseLength('25 in') };
    const shop = only({ ...CONTAINERS.get('card-flat')!, inside: size, outside: size });
    const { items } = sceneOf(twice, shop);
    const steps = items.map(({ folds }) => Math.min(...folds.map((fold) => fold.steps.length)));
    expect(steps[0]).toBeGreaterThan(0);
    const bare = 905 + 7.5 + 2 * (steps[0]! + steps[1]!);
    const atLeast = found(twice, shop).map((each) => each.atLeast);
    expect(atLeast[0]).toBeCloseTo(bare, 6);
    expect(atLeast[1]).toBeCloseTo(bare + 2 * (6 + 4), 6);
  });

  /** A card that a folded sweater goes into with a little spare length, so that it may not close. */
  function tightCard(): { readonly items: readonly Item[]; readonly scene: Survey['scene']; readonly card: Container } {
    const { items } = sceneOf([SWEATER]);
    const [fold] = items[0]!.folds;
    const { thicknessCap: _, ...uncapped } = CONTAINERS.get('card-flat')!;
    const length = fold!.block.length + toMillimetres(uncapped.closing) + 3;
    const inside = { width: lengthFromMillimetres(900), length: lengthFromMillimetres(length) };
    const card = { ...uncapped, inside, outside: inside };
    const { scene } = sceneOf([SWEATER], only(card));
    return { items: [itemFrom(items[0]!.piece, items[0]!.mass, [fold!])], scene, card };
  }

  it('has in it the risk that the surest fold does not close', () => {
    const { items, scene, card } = tightCard();
    const best = bestInContainer(items, card, scene);
    if (!best.found) throw new Error('expected the sweater to go into the card');
    expect(best.candidate.cost.risk).toBeGreaterThan(1);
    expect(best.candidate.cost.risk).toBeLessThan(30);
    const { bounded } = boundsOf(items, scene);
    expect(bounded[0]?.atLeast).toBeCloseTo(best.candidate.cost.total, 6);
  });

  it('leaves out the risk of a carton, which the cost has', () => {
    const { items, scene } = tightCard();
    const { length } = items[0]!.folds[0]!.block;
    const carton = aContainer('carton', [600, length + 3, 200], { cost: money(60, 'USD') });
    const best = bestInContainer(items, carton, scene);
    if (!best.found) throw new Error('expected the sweater to go into the carton');
    const { cost, fit } = best.candidate;
    expect(fit.probability).toBeLessThan(0.99);
    // two and a half minutes at half a cent a second, and another carton
    expect(cost.risk).toBeCloseTo((1 - fit.probability) * (75 + 60), 9);
    const [bound] = boundsOf(items, scene, [carton]).bounded;
    expect(bound?.atLeast).toBeCloseTo(cost.total - cost.risk, 6);
  });

  it('is asked for below a sum: then those alone come out that are less', () => {
    const { items, scene } = tightCard();
    const large = sceneOf([TEE, SWEATER]);
    for (const each of [{ items, scene }, large]) {
      const all = boundsOf(each.items, each.scene).bounded;
      expect(all.length).toBeGreaterThan(1);
      for (const below of all.flatMap(({ atLeast }) => [atLeast - 0.01, atLeast, atLeast + 0.01])) {
        const some = boundsOf(each.items, each.scene, each.scene.containers, below).bounded;
        expect(some.map(({ atLeast }) => atLeast)).toEqual(
          all.map(({ atLeast }) => atLeast).filter((atLeast) => atLeast < below),
        );
      }
    }
  });
});

describe('containers that are too small', () => {
  const tooSmall = (items: readonly Item[], scene: Survey['scene']) =>
    [...boundsOf(items, scene).tooSmall].map(({ id }) => id).toSorted();

  it('are those that a thing with corners does not go into', () => {
    // 200 x 320 x 110 mm: 7.9 x 12.6 x 4.3 in; around it film of 12 in is too narrow, film of 15 in is not
    const { items, scene } = sceneOf([SHOES]);
    expect(tooSmall(items, scene)).toEqual(['card-flat', 'carton-small', 'pouch-middle', 'pouch-small']);
    const bounded = boundsOf(items, scene).bounded.map(({ packing }) => packing.container.id);
    expect([...new Set(bounded)].toSorted()).toEqual(['carton-large', 'pouch-large']);
  });

  it('are none of those that the shop would not use for these pieces alone', () => {
    const { items, scene } = sceneOf([SHOES]);
    const never = { ...scene, admits: () => false };
    expect(boundsOf(items, never)).toEqual({ bounded: [], tooSmall: new Set() });
  });

  const upTo = (pieces: readonly Piece[], id: string) => {
    const { items, scene } = sceneOf(pieces, only(CONTAINERS.get(id)!, CONTAINERS.get('carton-large')!));
    return tooSmall(items, scene).includes(id);
  };
  const pairs = (count: number) => Array.from({ length: count }, (_, index) => piece(`H${String(index)}`, 'shoes'));

  it('are proven so for four things with corners; of five in a carton not, for more might go in than were tried', () => {
    expect([upTo(pairs(4), 'carton-small'), upTo(pairs(5), 'carton-small')]).toEqual([true, false]);
    // one pile in a pouch is no matter of trying
    expect(upTo(pairs(5), 'pouch-small')).toBe(true);
    // cloth is pressed into one pile: more of it takes more room
    const sweaters = Array.from({ length: 12 }, (_, index) => piece(`S${String(index)}`, 'sweater'));
    expect(upTo(sweaters, 'carton-small')).toBe(true);
    expect(upTo([...pairs(4), ...sweaters.slice(0, 8)], 'carton-small')).toBe(true);
  });
});

describe('the cheapest parcel of some pieces', () => {
  const nothing = money(0, 'USD');
  const free = (id: string, width: string, length: string): Container => {
    const size = { width: parseLength(width), length: parseLength(length) };
    return { ...CONTAINERS.get('pouch-large')!, id, inside: size, outside: size, cost: nothing, seconds: 0 };
  };
  const idle = (...containers: Container[]) => ({
    ...only(...containers),
    labour: { perHour: nothing, repackSeconds: 0 },
  });
  const cheapest = (shop: Shop, below?: number) => {
    const { items, scene } = sceneOf([TEE], shop);
    return cheapestParcel(boundsOf(items, scene).bounded, scene, below);
  };

  it('of equal cost is that of the lesser work, then of the smaller container, then the one named first', () => {
    // 387.0 in2 and 389.4 in2
    const pouches = [free('broad', '18 in', '21.5 in'), free('long', '17.7 in', '22 in')];
    for (const order of [pouches, pouches.toReversed()]) {
      const best = cheapest(idle(...order));
      expect(best?.packing.container.id).toBe('broad');
      expect(best?.folds[0]?.recipe).toBe('wide');
    }
    const alike = [free('one', '15 in', '20 in'), free('other', '15 in', '20 in')];
    expect(cheapest(idle(...alike))?.packing.container.id).toBe('one');
    expect(cheapest(idle(...alike.toReversed()))?.packing.container.id).toBe('other');
  });

  it('is that of the lesser work of several pieces together, where work costs nothing', () => {
    // Rigid, 10 and 12 in wide, folded once more 5 and 6 in: side by side in 17 in, one of them is folded once more.
    const card = aContainer('carton', [17 * 25.4, 12 * 25.4, 25.4], { cost: nothing, seconds: 0 });
    const shop = idle(card);
    const folded = (sku: string, wide: number, steps: readonly [number, number]) =>
      itemFrom(
        piece(sku, 'shoes'),
        { mean: 200, sd: 0 },
        steps.map((count, more): Fold => {
          const block = aBlock([(wide * 25.4) / (more + 1), 11 * 25.4, 20]);
          return { recipe: `${sku}-${String(more)}`, steps: Array.from({ length: count }), block } as unknown as Fold;
        }),
      );
    const { scene } = sceneOf([TEE], shop);
    const recipes = (...items: Item[]) => {
      const best = bestInContainer(items, card, scene);
      return best.found ? best.candidate.folds.map(({ recipe }) => recipe) : null;
    };
    const [easy, hard] = [folded('easy', 10, [1, 2]), folded('hard', 12, [1, 4])];
    expect(recipes(easy, hard)).toEqual(['easy-1', 'hard-0']);
    expect(recipes(hard, easy)).toEqual(['hard-0', 'easy-1']);
    // as much work one way as the other: the preferred one
    expect(recipes(folded('alike', 10, [2, 2]))).toEqual(['alike-0']);
  });

  it('is none where none costs less than was asked', () => {
    const shop = smallShop();
    const total = cheapest(shop)?.cost.total ?? NaN;
    expect(cheapest(shop, total + 0.01)?.cost.total).toBe(total);
    expect(cheapest(shop, total)).toBeNull();
  });
});

describe('a container that the pieces fit', () => {
  const inch = (amount: number) => lengthFromMillimetres(amount * 25.4);
  const longest = (most: number) => {
    const services = CARD.services
      .filter(({ id }) => id === 'by-weight')
      .map((each) => ({
        ...each,
        limits: [...each.limits, { limit: 'longest-side', most: inch(most), measured: 'raw' } as const],
      }));
    const film = aContainer('pouch', [15.4 * 25.4, 20.3 * 25.4], { id: 'film', closing: inch(1) });
    const shop = { ...only(film), rates: { cards: [{ ...CARD, services }], places: () => null } };
    const { scene } = sceneOf([TEE], { ...shop, containers: new Map([[film.id, film]]) });
    const block = aBlock([10 * 25.4, 15 * 25.4, 2.1 * 25.4]);
    const folds = [{ recipe: 'flat', steps: [], block } as unknown as Fold];
    return bestInContainer([itemFrom(piece('P1', 'shoes'), { mean: 200, sd: 0 }, folds)], film, scene);
  };

  it('is told apart from one that they do not fit, where no service takes it as it is filled', () => {
    // 20.3 - 2.1 = 18.2 in long
    expect(longest(18.3).found).toBe(true);
    for (const most of [18.1, 12]) {
      const search = longest(most);
      const stranded = search.found ? null : search.noService;
      expect(stranded?.packing.container.id).toBe('film');
      expect(stranded?.packing.wrap.id).toBe('none');
      expect((stranded?.fit.filled.length ?? 0) / 25.4).toBeCloseTo(18.2, 9);
    }
  });
});
