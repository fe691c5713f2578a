import { describe, expect, it } from 'vitest';
import { containersSchema, toContainers } from '#config/schema/containers.ts';
import { clothsSchema } from '#config/schema/cloths.ts';
import { garmentsSchema } from '#config/schema/garments.ts';
import { recipesSchema } from '#config/schema/recipes.ts';
import { fitStack } from '#shared/fitting/fit-stack.ts';
import { foldsOf } from '#shared/folding/fold-piece.ts';
import { pieceMass } from '#shared/garments/mass.ts';
import { outlineArea } from '#shared/garments/outlines/outline-of.ts';
import { demoContainers, demoRecipes, demoWardrobe } from '#tests/support/demo-wardrobe.ts';

const wardrobe = demoWardrobe();
const recipes = demoRecipes();
const { containers, wraps } = demoContainers();
const kinds = [...wardrobe.kinds.values()];

describe('the demo shop', () => {
  it('has 24 kinds, 12 containers and 3 wraps', () => {
    expect(kinds.length).toBe(24);
    expect(containers.size).toBeGreaterThanOrEqual(12);
    expect([...wraps.keys()]).toEqual(['none', 'tissue', 'tissue-inner-bag']);
  });

  it.each(kinds.map((kind) => [kind.id, kind] as const))('%s folds in every size by every recipe', (id, kind) => {
    expect(wardrobe.cloths.has(kind.defaultCloth)).toBe(true);
    for (const size of Object.keys(kind.sizes)) {
      const folds = foldsOf({ sku: 's', title: 't', kind: id, size }, wardrobe, recipes);
      expect(folds.length).toBe(Math.max(1, kind.recipes.length));
      for (const { block, steps } of folds) {
        expect(block.width).toBeGreaterThan(30);
        expect(block.length).toBeGreaterThan(30);
        expect(block.thickness).toBeGreaterThanOrEqual(block.pressedThickness);
        expect(block.pressedThickness).toBeGreaterThan(3);
        expect(block.pressedThickness).toBeLessThan(300);
        for (const step of steps) expect(step.words.en.length).toBeLessThanOrEqual(50);
      }
    }
  });

  it.each(kinds.filter((kind) => kind.outline !== 'block').map((kind) => [kind.id, kind] as const))(
    "%s weighs roughly what its outline's cloth weighs",
    (id, kind) => {
      const cloth = wardrobe.cloths.get(kind.defaultCloth)!;
      const area = outlineArea(kind, kind.sizes[kind.defaultSize]!) * 1e-6;
      const companions = new Set(
        kind.recipes
          .flatMap((recipe) => recipes.get(recipe)!.steps)
          .flatMap(({ action }) => (action.do === 'lay-on' ? [action.kind] : [])),
      );
      let clothArea = area * kind.clothLayers;
      for (const other of companions) {
        const part = wardrobe.kinds.get(other)!;
        clothArea += outlineArea(part, part.sizes[part.defaultSize]!) * 1e-6 * part.clothLayers;
      }
      const byCloth = clothArea * cloth.arealMass;
      const { mean } = pieceMass({ sku: 's', title: 't', kind: id }, wardrobe);
      expect(byCloth / mean).toBeGreaterThan(0.6);
      expect(byCloth / mean).toBeLessThan(1.4);
    },
  );

  const uncreased = kinds.flatMap(({ id, uncreased: ids = [] }) => ids.map((recipe) => [id, recipe] as const));

  it.each(uncreased)(
    '%s of cloth that must not be creased is rolled, by %s, and goes into something',
    (kind, recipe) => {
      const piece = { sku: 's', title: 't', kind, cloth: 'sequins' };
      const folds = foldsOf(piece, wardrobe, recipes);
      expect(folds.map((fold) => fold.recipe)).toEqual([recipe]);
      const [fold] = folds;
      expect(fold?.block.thickness).toBeCloseTo(fold?.block.length ?? 0, 9);
      const fits = [...containers.values()].map((each) => fitStack([fold!.block], each, wraps.get('none')!).verdict);
      expect(fits).toContain('easy');
    },
  );

  it('says of every step what to do, and of a recipe at least one reason and what a roll must not be', () => {
    for (const { id, steps } of recipes.values()) {
      expect(
        steps.some(({ why }) => why !== undefined),
        id,
      ).toBe(true);
      for (const { action, avoid } of steps) if (action.do === 'roll') expect(avoid, id).toBeDefined();
    }
    for (const { id, steps = [] } of wraps.values()) {
      expect(steps.length, id).toBe(id === 'none' ? 0 : id === 'tissue' ? 1 : 2);
      for (const step of steps) expect([step.why, step.avoid]).not.toContain(undefined);
    }
  });

  it('has at least two recipes for every kind that folds, each used by a kind', () => {
    const used = new Set(kinds.flatMap((kind) => [...kind.recipes, ...(kind.uncreased ?? [])]));
    for (const kind of kinds) if (kind.outline !== 'block') expect(kind.recipes.length).toBeGreaterThanOrEqual(2);
    expect([...recipes.keys()].filter((id) => !used.has(id))).toEqual([]);
  });

  it('packs a T-shirt in the smallest pouch and jeans in a padded envelope of the carrier', () => {
    const verdicts = (kind: string, container: string) =>
      foldsOf({ sku: 's', title: 't', kind }, wardrobe, recipes).map(
        ({ block }) => fitStack([block], containers.get(container)!, wraps.get('none')!).verdict,
      );
    const into = (kind: string, container: string) => verdicts(kind, container).some((verdict) => verdict !== 'no');
    expect(into('t-shirt', 'pouch-10x13')).toBe(true);
    expect(into('t-shirt', 'card-own-9x12')).toBe(true);
    expect(into('jeans', 'merrow-padded-flat')).toBe(true);
    expect(into('jeans', 'merrow-card-flat')).toBe(false);
    expect(into('hoodie', 'merrow-card-flat')).toBe(false);
    expect(verdicts('hoodie', 'pouch-10x13')).not.toContain('easy');
  });
});

describe('bad files say where and what', () => {
  const text = { en: 'x', es: 'x' };
  const kind = {
    name: text,
    outline: 'top',
    sizes: { M: { width: '50 cm', length: '70 cm' } },
    defaultSize: 'M',
    defaultCloth: 'jersey',
    mass: { mean: '160 g', sd: '20 g' },
    clothLayers: 2,
    recipes: ['r'],
    source: 'test',
  };
  const problems = (result: { success: boolean; error?: { issues: { path: PropertyKey[]; message: string }[] } }) =>
    (result.error?.issues ?? []).map((issue) => `${issue.path.join('.')}: ${issue.message}`);

  it('takes a good kind', () => {
    expect(garmentsSchema.safeParse({ kinds: { tee: kind } }).success).toBe(true);
  });

  it.each([
    [{ sizes: { M: { width: '-50 cm', length: '70 cm' } } }, 'kinds.tee.sizes.M.width: expected a length above 0'],
    [{ sizes: { M: { width: 'wide', length: '70 cm' } } }, 'found "wide"'],
    [{ defaultSize: 'Q' }, 'kinds.tee.defaultSize: expected one of the sizes M, found "Q"'],
    [{ outline: 'block' }, 'kinds.tee.sizes.M: expected height'],
    [{ outline: 'legs' }, 'kinds.tee.sizes.M: expected inseam'],
    [{ recipes: [] }, 'kinds.tee.recipes: expected at least one'],
    [{ mass: { mean: '0 g', sd: '1 g' } }, 'kinds.tee.mass.mean: expected a mass above 0'],
    [{ colour: 'red' }, 'Unrecognized key'],
  ])('a kind with %j', (change, message) => {
    const found = problems(garmentsSchema.safeParse({ kinds: { tee: { ...kind, ...change } } }));
    expect(found.join('\n')).toContain(message);
  });

  it.each(['1/3', '3/3', '2', 'half', '0/0', '-1/2'])('a recipe that folds to %s', (to) => {
    const step = { do: 'fold-width', from: 'left', to, words: text, spoken: text };
    const found = problems(recipesSchema.safeParse({ recipes: { r: { name: text, steps: [step] } } }));
    expect(found.join('\n')).toContain(`found "${to}"`);
    expect(found.join('\n')).toContain('recipes.r.steps.0.to');
  });

  it('a cloth that is thicker pressed than free', () => {
    const cloth = {
      name: text,
      arealMass: 100,
      thicknessFree: 0.3,
      thicknessPressed: 0.4,
      thicknessSpread: 0.1,
      bendingLength: 14,
      source: 'test',
    };
    const found = problems(clothsSchema.safeParse({ cloths: { c: cloth } }));
    expect(found.join('\n')).toContain('cloths.c.thicknessFree: expected a thickness above thicknessPressed');
    const loose = { ...cloth, thicknessFree: 2, bendingLength: -1 };
    const more = problems(clothsSchema.safeParse({ cloths: { c: loose } })).join('\n');
    expect(more).toContain('cloths.c.bendingLength');
    const giving = problems(clothsSchema.safeParse({ cloths: { c: { ...cloth, thicknessFree: 2 } } }));
    expect(giving.join('\n')).toContain('cloths.c.thicknessFree: expected at most 4.6 times thicknessPressed');
  });

  it('a carton without depth, a pouch larger inside than outside, a cost that is no money', () => {
    const base = {
      name: text,
      inside: { width: '10 in', length: '13 in' },
      outside: { width: '10 in', length: '13 in' },
      mass: '10 g',
      massSd: '1 g',
      cost: '0.10',
      seconds: 10,
    };
    const found = problems(
      containersSchema.safeParse({
        containers: {
          a: { ...base, type: 'carton' },
          b: { ...base, type: 'pouch', outside: { width: '9 in', length: '13 in' } },
          c: { ...base, type: 'pouch', cost: '10 cents' },
          d: { ...base, type: 'pouch', closing: '13 in' },
        },
        wraps: {},
      }),
    ).join('\n');
    expect(found).toContain('containers.a.inside: expected a depth for a carton');
    expect(found).toContain('containers.b.outside.width: expected an outside no smaller than the inside');
    expect(found).toContain('containers.c.cost: money: expected an amount such as 4.10, found "10 cents"');
    expect(found).toContain('containers.d.closing: expected less than the inside length');
  });

  it("costs are in the shop's currency", () => {
    const parsed = containersSchema.parse({
      containers: {
        a: {
          name: text,
          type: 'pouch',
          inside: { width: '25 cm', length: '35 cm' },
          outside: { width: '25 cm', length: '35 cm' },
          mass: '10 g',
          massSd: '1 g',
          cost: '0.12',
          seconds: 10,
        },
      },
      wraps: {},
    });
    expect(toContainers(parsed, 'EUR').get('a')!.cost).toEqual({ minor: 12, currency: 'EUR' });
  });
});
