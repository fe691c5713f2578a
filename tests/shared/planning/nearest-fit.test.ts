import { describe, expect, it } from 'vitest';
import { piece } from './small-shop.ts';
import type { Fold, FoldedBlock } from '#shared/folding/types.ts';
import type { Fit, Wrap } from '#shared/fitting/types.ts';
import { itemFrom, type Item } from '#shared/planning/item.ts';
import { nearestFit, tightestSlack } from '#shared/planning/nearest-fit.ts';
import { aBlock, aContainer, NO_WRAP } from '#tests/support/demo-wardrobe.ts';

/** A thing with corners, folded in ways of these sides in mm. */
const thing = (...ways: (readonly [recipe: string, width: number, length: number, thickness: number])[]): Item =>
  itemFrom(
    piece('P', 'shoes'),
    { mean: 100, sd: 0 },
    ways.map(
      ([recipe, ...sides]): Fold =>
        ({ recipe, steps: [], block: aBlock(sides) satisfies FoldedBlock }) as unknown as Fold,
    ),
  );

const carton = aContainer('carton', [300, 400, 100]);
const recipes = (items: readonly Item[], wraps: readonly Wrap[] = [NO_WRAP]) =>
  nearestFit(items, carton, wraps)?.folds.map(({ recipe }) => recipe);

describe('what comes nearest to fitting', () => {
  it('is as far from it as its tightest direction', () => {
    const slack = (width: number, length: number, thickness: number) =>
      tightestSlack({ slack: { width, length, thickness } } as Fit);
    expect([slack(-3, 5, 9), slack(5, -3, 9), slack(9, 5, -3), slack(4, 5, 6)]).toEqual([-3, -3, -3, 4]);
  });

  it('is the fold that lacks least, of two that lack as much the preferred one', () => {
    // 10 mm too wide; 5 mm too wide; 8 mm too thick
    const items = [thing(['wide', 310, 390, 90], ['less', 305, 390, 90], ['thick', 290, 390, 108])];
    expect(recipes(items)).toEqual(['less']);
    const near = nearestFit(items, carton, [NO_WRAP]);
    expect(near?.fit.verdict).toBe('no');
    expect(near?.fit.slack.width).toBeCloseTo(-5, 6);
    expect(recipes([thing(['one', 305, 390, 90], ['other', 305, 380, 80])])).toEqual(['one']);
  });

  it('is found over every piece’s folds together', () => {
    // 60 + 60 mm are 20 too thick, 40 + 65 mm are 5
    const slim = thing(['high', 290, 390, 60], ['flat', 290, 390, 40]);
    const other = thing(['lower', 320, 390, 60], ['upright', 290, 390, 65]);
    expect(recipes([slim, other])).toEqual(['flat', 'upright']);
    expect(recipes([other, slim])).toEqual(['upright', 'flat']);
  });

  it('is in the thinnest wrap; where there is none, there is nothing', () => {
    const thick = { ...NO_WRAP, id: 'thick', thickness: 3 };
    const thin = { ...NO_WRAP, id: 'thin', thickness: 1 };
    const middle = { ...NO_WRAP, id: 'middle', thickness: 2 };
    const items = [thing(['only', 290, 390, 120])];
    const near = nearestFit(items, carton, [thick, thin, middle]);
    expect(near?.wrap.id).toBe('thin');
    // 100 - 120 - 1
    expect(near?.fit.slack.thickness).toBeCloseTo(-21, 6);
    expect(nearestFit(items, carton, [])).toBeNull();
  });

  it('is told of an order of many pieces too, whose ways of folding are beyond counting', () => {
    const many = Array.from({ length: 45 }, () => thing(['one', 290, 390, 20], ['two', 280, 390, 21]));
    expect(recipes(many)).toHaveLength(45);
  });
});
