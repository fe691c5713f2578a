import { describe, expect, it } from 'vitest';
import { compared } from '#shared/planning/comparison.ts';
import {
  addCosts,
  foldingCost,
  handlingCost,
  materialsCost,
  planCost,
  repackCost,
  wages,
} from '#shared/planning/cost.ts';
import { zonesWithin } from '#shared/planning/destination-zones.ts';
import { idealBlock } from '#shared/planning/ideal-block.ts';
import { parcelMass, toComeOf } from '#shared/planning/parcel-mass.ts';
import { worthwhileFolds } from '#shared/planning/worthwhile-folds.ts';
import type { OrderPlan } from '#shared/planning/types.ts';
import type { Container } from '#shared/fitting/types.ts';
import type { Fold, FoldedBlock } from '#shared/folding/types.ts';
import type { RateBook, ZoneRule } from '#shared/rating/rate-card.ts';
import type { RuleKind } from '#shared/rating/types.ts';
import type { Shop } from '#shared/shop/shop.ts';
import { lengthFromMillimetres } from '#shared/units/length.ts';
import { massFromGrams, toGrams } from '#shared/units/mass.ts';
import { NO_WRAP, aBlock, aContainer } from '#tests/support/demo-wardrobe.ts';

// Every amount is worked out by hand.
describe('what a parcel costs beside its postage', () => {
  // 18.00 an hour is half a cent a second
  const shop = { labour: { perHour: { minor: 1800, currency: 'USD' }, repackSeconds: 120 } } as unknown as Shop;
  const container = aContainer('pouch', [300, 400], { cost: { minor: 35, currency: 'USD' }, seconds: 20 });
  const wrap = { ...NO_WRAP, costPerPiece: { minor: 6, currency: 'USD' }, secondsPerPiece: 10 };

  it('is wages, container, wrap and folding at four seconds a step', () => {
    expect(wages(3600, shop)).toBe(1800);
    expect(materialsCost(container, wrap, 3)).toBe(53);
    expect(handlingCost(container, wrap, 3, shop)).toBe(25);
    expect(foldingCost(5, shop)).toBe(10);
    // two minutes and another container
    expect(repackCost(container, shop)).toBe(95);
  });

  it('adds up over its parts and over parcels', () => {
    const one = planCost('USD', { postage: 500, materials: 50, labour: 25, risk: 1.5 });
    expect(one).toEqual({ currency: 'USD', postage: 500, materials: 50, labour: 25, risk: 1.5, total: 576.5 });
    const other = planCost('USD', { postage: 1, materials: 2, labour: 3, risk: 4 });
    expect(addCosts('USD', [one, other])).toEqual({
      currency: 'USD',
      postage: 501,
      materials: 52,
      labour: 28,
      risk: 5.5,
      total: 586.5,
    });
    expect(addCosts('USD', []).total).toBe(0);
  });
});

describe('what a finished parcel weighs', () => {
  const label = { name: { en: 'label', es: 'etiqueta' }, mass: massFromGrams(3), plusMinus: massFromGrams(0.6) };
  const tape = { ...label, mass: massFromGrams(2), plusMinus: massFromGrams(0.3) };

  it('is everything in it, its spreads as squares, additions rectangular (GUM, JCGM 100:2008, 4.3.7 and 5.1.2)', () => {
    const container = aContainer('pouch', [300, 400], { mass: massFromGrams(10), massSd: massFromGrams(2) });
    const wrap = { ...NO_WRAP, massPerPiece: massFromGrams(5) };
    const { mean, sd } = parcelMass(
      [
        { mean: 200, sd: 3 },
        { mean: 100, sd: 6 },
      ],
      container,
      wrap,
      [label as never],
    );
    expect(mean).toBeCloseTo(323, 9);
    // 4 + 9 + 36 + 0.36 / 3 = 49.12
    expect(sd).toBeCloseTo(Math.sqrt(49.12), 9);
  });

  it('has to come what is put on after the weighing, half-widths together', () => {
    const { mass, plusMinus } = toComeOf([label, tape] as never);
    expect(toGrams(mass)).toBeCloseTo(5, 9);
    expect(toGrams(plusMinus)).toBeCloseTo(0.9, 9);
  });
});

describe('folds', () => {
  const fold = (
    recipe: string,
    steps: number,
    sides: [number, number, number],
    more: Partial<FoldedBlock> = {},
  ): Fold =>
    ({
      recipe,
      steps: Array.from({ length: steps }),
      block: aBlock(sides, { thicknessSd: 1, ...more }),
    }) as unknown as Fold;
  const kept = (...folds: Fold[]) => worthwhileFolds(folds).map(({ recipe }) => recipe);
  const plain = fold('plain', 3, [200, 300, 20]);

  it.each<[string, Fold, readonly string[]]>([
    ['the same again', fold('other', 3, [200, 300, 20]), ['plain']],
    ['the same, turned', fold('other', 3, [300, 200, 20]), ['plain']],
    ['smaller', fold('other', 3, [190, 300, 20]), ['other']],
    ['shorter', fold('other', 3, [200, 290, 20]), ['other']],
    ['quicker', fold('other', 2, [200, 300, 20]), ['other']],
    ['surer', fold('other', 3, [200, 300, 20], { thicknessSd: 0.5 }), ['other']],
    ['larger', fold('other', 3, [210, 300, 20]), ['plain']],
    ['longer', fold('other', 3, [200, 310, 20]), ['plain']],
    ['more work', fold('other', 4, [200, 300, 20]), ['plain']],
    ['less sure', fold('other', 3, [200, 300, 20], { thicknessSd: 2 }), ['plain']],
    ['thinner', fold('other', 3, [200, 300, 19], { pressedThickness: 20 }), ['plain', 'other']],
    ['thinner under a hand', fold('other', 3, [200, 300, 20], { pressedThickness: 15 }), ['plain', 'other']],
    ['soft', fold('other', 3, [200, 300, 20], { soft: true }), ['plain', 'other']],
    ['to be pressed', fold('other', 3, [200, 300, 20], { mayPress: true }), ['plain', 'other']],
    ['smaller and more work', fold('other', 4, [190, 300, 20]), ['plain', 'other']],
    ['narrower and longer', fold('other', 3, [190, 310, 20]), ['plain', 'other']],
  ])('beside a plain one, %s', (_, other, expected) => {
    expect(kept(plain, other)).toEqual(expected);
  });

  it('that are alike stand for each other: the preferred one stays', () => {
    const other = fold('other', 3, [200, 300, 20]);
    expect([kept(plain, other, fold('third', 3, [300, 200, 20])), kept(other, plain)]).toEqual([['plain'], ['other']]);
    const smaller = fold('smaller', 3, [190, 300, 20]);
    expect([kept(plain, smaller), kept(smaller, plain)]).toEqual([['smaller'], ['smaller']]);
  });

  it('are bettered by no measure of the ideal one', () => {
    const folds = [
      fold('a', 1, [200, 300, 20], { pressedThickness: 12, layers: 8 }),
      fold('b', 1, [350, 180, 25], { pressedThickness: 10, layers: 12, soft: true, mayPress: true }),
    ];
    expect(idealBlock(folds)).toEqual({
      width: 180,
      length: 300,
      thickness: 20,
      pressedThickness: 10,
      thicknessSd: 0,
      layers: 8,
      soft: true,
      mayPress: true,
    });
    expect(idealBlock(folds.slice(0, 1))).toMatchObject({ soft: false, mayPress: false });
  });
});

describe('the zones of a country', () => {
  const zones = (...rules: ZoneRule[]) =>
    zonesWithin('US', { cards: [{ zones: rules.slice(0, 1) }, { zones: rules.slice(1) }] } as unknown as RateBook);

  it('are those that any card knows there, once each, all alike', () => {
    const found = zones(
      { by: 'flat', zone: 'home', countries: ['CA', 'US'] } as never,
      { by: 'flat', zone: 'abroad', countries: ['CA'] } as never,
      { by: 'flat', zone: 'any' } as never,
      { by: 'distance', country: 'US', bands: [{ zone: '2' }, { zone: '1' }, { zone: '2' }] } as never,
      { by: 'distance', country: 'CA', bands: [{ zone: '9' }] } as never,
      { by: 'chart', country: 'US', rows: [{ zone: '3' }] } as never,
      { by: 'chart', country: 'CA', rows: [{ zone: '8' }] } as never,
    );
    expect(found).toEqual(['1', '2', '3', 'any', 'home'].map((zone) => ({ zone, weight: 1 })));
  });
});

describe('the trade’s rule of thumb', () => {
  type Way = { container: Partial<Container>; rule?: RuleKind; total: number; chance?: number; parcels?: number };
  const planOf = ({ container, rule = 'bracket' as RuleKind, total, chance = 1, parcels = 1 }: Way) => ({
    parcels: Array.from({ length: parcels }, () => ({
      container: aContainer(container.type ?? 'pouch', [1, 1], container),
      prices: { rule },
      fit: { probability: chance },
    })),
    cost: { total },
  });
  const ladder = (...ways: Way[]) => {
    const [plan, ...alternatives] = ways.map(planOf);
    return compared({ ...plan, alternatives } as unknown as OrderPlan);
  };
  const pouch = (grams: number) => ({ type: 'pouch', mass: massFromGrams(grams) }) as const;
  const padded = { type: 'pouch', wall: lengthFromMillimetres(3), mass: massFromGrams(1) } as const;
  const owned = { type: 'pouch', ownedBy: 'post', mass: massFromGrams(1) } as const;
  const card = { type: 'card', ownedBy: 'post', mass: massFromGrams(50) } as const;
  const own = { type: 'card', mass: massFromGrams(1) } as const;
  const carton = (grams: number) => ({ type: 'carton', mass: massFromGrams(grams) }) as const;

  it.each<[string, Way[], number | null]>([
    [
      'a plain pouch before a card',
      [
        { container: card, total: 1 },
        { container: pouch(90), total: 2 },
      ],
      2,
    ],
    [
      'the lightest of two',
      [
        { container: pouch(20), total: 1 },
        { container: pouch(10), total: 2 },
      ],
      2,
    ],
    [
      'a carrier’s card before a padded pouch',
      [
        { container: padded, total: 1 },
        { container: card, total: 2 },
      ],
      2,
    ],
    [
      'a padded pouch before one by its size',
      [
        { container: pouch(1), rule: 'cubic-soft', total: 1 },
        { container: padded, total: 2 },
      ],
      2,
    ],
    [
      'a carrier’s pouch before one by its size',
      [
        { container: pouch(1), rule: 'cubic-soft', total: 1 },
        { container: owned, total: 2 },
      ],
      2,
    ],
    [
      'a pouch by its size before a carton',
      [
        { container: carton(1), total: 1 },
        { container: pouch(9), rule: 'cubic-soft', total: 2 },
      ],
      2,
    ],
    [
      'a carton in the end',
      [
        { container: own, total: 1 },
        { container: carton(9), total: 2 },
      ],
      2,
    ],
    ['never a card of one’s own', [{ container: own, total: 1 }], null],
    ['never several parcels', [{ container: pouch(1), total: 1, parcels: 2 }], null],
    [
      'what closes nine times in ten before what does not',
      [
        { container: pouch(1), total: 1, chance: 0.89 },
        { container: card, total: 2, chance: 0.9 },
      ],
      2,
    ],
    [
      'the first rung where nothing closes surely',
      [
        { container: card, total: 1, chance: 0.5 },
        { container: pouch(1), total: 2, chance: 0.2 },
      ],
      2,
    ],
    [
      'a carrier’s pouch after its card',
      [
        { container: owned, total: 1 },
        { container: card, total: 2 },
      ],
      2,
    ],
    [
      'a carrier’s carton after every pouch',
      [
        { container: { ...carton(1), ownedBy: 'post' }, total: 1 },
        { container: padded, total: 2 },
      ],
      2,
    ],
  ])('takes %s', (_, ways, total) => {
    expect(ladder(...ways).ladder).toBe(total);
  });

  it('is told beside the cheapest carton', () => {
    const ways = [
      { container: pouch(1), total: 5 },
      { container: carton(1), total: 8 },
      { container: carton(2), total: 7 },
    ];
    expect(ladder(...ways)).toEqual({ planned: 5, ladder: 5, carton: 7 });
    expect(ladder(...ways.slice(0, 1)).carton).toBeNull();
  });
});
