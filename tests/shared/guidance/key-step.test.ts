import { describe, expect, it } from 'vitest';
import { foldsOf } from '#shared/folding/fold-piece.ts';
import { keyStep } from '#shared/guidance/key-step.ts';
import { demoRecipes, demoWardrobe } from '#tests/support/demo-wardrobe.ts';

const wardrobe = demoWardrobe();
const recipes = demoRecipes();

describe('the key step', () => {
  it.each(['t-shirt', 'shirt', 'jeans', 'suit', 'scarf', 'dress'])(
    'of every fold of a %s gives it the footprint that it ends with',
    (kind) => {
      const folds = foldsOf({ sku: 'x', title: 'x', kind }, wardrobe, recipes);
      expect(folds.length).toBeGreaterThan(0);
      for (const fold of folds) {
        const key = keyStep(fold);
        const area = (index: number) => {
          const { width, length } = fold.steps[index]!.drawing.endsAs;
          return width * length;
        };
        expect(area(key)).toBeLessThan(area(key - 1));
        for (let later = key + 1; later < fold.steps.length; later++)
          expect(area(later)).toBeGreaterThanOrEqual(area(key));
      }
    },
  );

  it('of the usual T-shirt fold is the last fold before it is turned over', () => {
    const [thirds] = foldsOf({ sku: 'x', title: 'x', kind: 't-shirt' }, wardrobe, recipes);
    expect(thirds?.steps[keyStep(thirds)]?.words.en).toBe('Fold up again to the neck');
  });

  it('of a fold without steps is none', () => {
    expect(keyStep({ steps: [] })).toBe(-1);
  });
});
