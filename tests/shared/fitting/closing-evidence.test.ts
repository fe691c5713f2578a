import { describe, expect, it } from 'vitest';
import { closingEvidence } from '#shared/fitting/closing-evidence.ts';
import { closingScore, fitStack } from '#shared/fitting/fit-stack.ts';
import { probabilityOf } from '#shared/fitting/normal.ts';
import { foldsOf } from '#shared/folding/fold-piece.ts';
import { learnClosing, withFactors } from '#shared/garments/factor-learning.ts';
import { loadShop } from '#config/load.ts';
import { NO_WRAP, aBlock, aContainer } from '#tests/support/demo-wardrobe.ts';

const shop = loadShop('config');
const wrap = shop.wraps.get('none');
const pouch = shop.containers.get('pouch-10x13');
if (wrap === undefined || pouch === undefined) throw new Error('the demo shop has no such wrap or container');
const hoodie = { sku: 'H', title: 'Hoodie', kind: 'hoodie', size: 'S', cloth: 'fleece' };

const folds = foldsOf(hoodie, shop.wardrobe, shop.recipes);
const surest = folds.toSorted((a, b) => closingScore([b.block], pouch, wrap) - closingScore([a.block], pouch, wrap))[0];
if (surest === undefined) throw new Error('a hoodie has no fold');

it('gives the margin of the fit, which falls as the pieces get thicker', () => {
  const fold = surest;
  const evidence = closingEvidence([{ kind: 'hoodie', block: fold.block }], pouch, wrap, false);
  const slope = evidence?.slopes.get('hoodie') ?? 0;
  expect(slope).toBeGreaterThan(0);
  const score = closingScore([fold.block], pouch, wrap);
  expect((evidence?.intercept ?? 0) - slope).toBeCloseTo(score, 9);
  expect(probabilityOf(score)).toBe(fitStack([fold.block], pouch, wrap).probability);
});

it('makes the next hoodie less likely to fit after one was too tight, and more after one closed', () => {
  const chance = (wardrobe: typeof shop.wardrobe) => {
    const blocks = foldsOf(hoodie, wardrobe, shop.recipes).map((fold) => fitStack([fold.block], pouch, wrap));
    return Math.max(...blocks.map((fit) => fit.probability));
  };
  const before = chance(shop.wardrobe);
  const after = (closed: boolean) => {
    const evidence = closingEvidence([{ kind: 'hoodie', block: surest.block }], pouch, wrap, closed);
    if (evidence === null) throw new Error('the margin does not depend on the thickness');
    const { beliefs } = learnClosing(new Map(), evidence);
    const factors = [...beliefs].map(([kind, belief]): [string, typeof belief] => [kind, { ...belief, sd: 0 }]);
    return chance(withFactors(shop.wardrobe, new Map(factors)));
  };
  expect(before).toBeGreaterThan(0.01);
  expect(before).toBeLessThan(0.999999);
  expect(after(false)).toBeLessThan(before);
  expect(after(true)).toBeGreaterThan(before);
});

describe('the margin as a straight line, worked out by hand', () => {
  const carton = aContainer('carton', [200, 300, 50]);
  const packed = (thickness: number, thicknessSd: number, kind = 'shoes') => ({
    kind,
    block: aBlock([150, 250, thickness], { thicknessSd }),
  });

  it('of one piece in a carton', () => {
    // (50 - 40) / 2 = 5 now; a tenth thicker and as much less sure (50 - 44) / 2.2 = 2.727
    const evidence = closingEvidence([packed(40, 2)], carton, NO_WRAP, true);
    const slope = (5 - 6 / 2.2) / 0.1;
    expect(evidence?.slopes.get('shoes')).toBeCloseTo(slope, 9);
    expect(evidence?.intercept).toBeCloseTo(5 + slope, 9);
  });

  it('around what is believed already', () => {
    // twice 20 is 40 with a spread of 2; 2.1 times 20 is 42 with 2.1
    const evidence = closingEvidence([packed(20, 1)], carton, NO_WRAP, true, new Map([['shoes', 2]]));
    const slope = (5 - 8 / 2.1) / 0.1;
    expect(evidence?.slopes.get('shoes')).toBeCloseTo(slope, 9);
    expect(evidence?.intercept).toBeCloseTo(5 + 2 * slope, 9);
  });

  it('says nothing where nothing is spread', () => {
    expect(closingEvidence([packed(40, 0)], carton, NO_WRAP, true)).toBeNull();
  });

  it('says nothing of a kind that the margin does not depend on, or that it depends on without end', () => {
    const soft = { soft: true, mayPress: false } as const;
    // The width decides: 2 mm beside folds that are 4 mm more or less.
    const wide = { kind: 'shirt', block: aBlock([198, 250, 10], { ...soft, thicknessSd: 1 }) };
    expect(closingEvidence([wide], carton, NO_WRAP, true)).toBeNull();
    // Without any spread 48 mm go into 50 for certain, and a tenth more do not.
    const sure = { kind: 'shirt', block: aBlock([198, 250, 48], { ...soft, thicknessSd: 0 }) };
    expect(closingEvidence([sure], carton, NO_WRAP, true)).toBeNull();
  });
});
