import { expect, it } from 'vitest';
import { closingEvidence } from '#shared/fitting/closing-evidence.ts';
import { closingScore, fitStack } from '#shared/fitting/fit-stack.ts';
import { probabilityOf } from '#shared/fitting/normal.ts';
import { foldsOf } from '#shared/folding/fold-piece.ts';
import { learnClosing, withFactors } from '#shared/garments/factor-learning.ts';
import { loadShop } from '#config/load.ts';

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
