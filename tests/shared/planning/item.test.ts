import { describe, expect, it } from 'vitest';
import { bySku, orderOf, piece, smallShop } from './small-shop.ts';
import type { Container, Wrap } from '#shared/fitting/types.ts';
import type { Fold, FoldedBlock } from '#shared/folding/types.ts';
import type { Piece } from '#shared/garments/types.ts';
import { itemFrom, itemsOf } from '#shared/planning/item.ts';
import { itemIn } from '#shared/planning/item-in.ts';
import { MOST_PIECES } from '#shared/planning/most-pieces.ts';
import { isPlanError, PlanError } from '#shared/planning/plan-error.ts';
import { aBlock, aContainer, NO_WRAP } from '#tests/support/demo-wardrobe.ts';

const shop = smallShop();
const TEE = piece('T1', 't-shirt');

const fold = (recipe: string, steps: number, sides: [number, number, number], more: Partial<FoldedBlock> = {}): Fold =>
  ({ recipe, steps: Array.from({ length: steps }), block: aBlock(sides, more) }) as unknown as Fold;

function refusal(lines: readonly { readonly sku: string; readonly count: number }[], pieces: readonly Piece[]) {
  try {
    itemsOf(orderOf([], { id: '4101', pieces: lines }), bySku(pieces), shop);
    return null;
  } catch (error) {
    if (!isPlanError(error)) throw error;
    return `${error.code}: ${error.message}`;
  }
}

describe('the things to pack of an order', () => {
  it('are its pieces, each as often as it was bought and every time the very same', () => {
    const [first, second, third, ...more] = itemsOf(
      orderOf([], {
        pieces: [
          { sku: 'T1', count: 2 },
          { sku: 'H1', count: 1 },
        ],
      }),
      bySku([TEE, piece('H1', 'shoes')]),
      shop,
    );
    expect([first?.piece.sku, second?.piece.sku, third?.piece.sku, more]).toEqual(['T1', 'T1', 'H1', []]);
    expect(second).toBe(first);
    expect(itemsOf(orderOf([TEE]), bySku([TEE]), shop)[0]).toBe(first);
    expect(itemsOf(orderOf([TEE]), bySku([TEE]), smallShop())[0]).not.toBe(first);
  });

  it('are told to try the fold of least work first, whatever the kind’s own order', () => {
    const kinds = new Map(shop.wardrobe.kinds);
    const tee = kinds.get('t-shirt')!;
    for (const recipes of [tee.recipes, tee.recipes.toReversed()]) {
      kinds.set('t-shirt', { ...tee, recipes });
      const [item] = itemsOf(orderOf([TEE]), bySku([TEE]), smallShop({ wardrobe: { ...shop.wardrobe, kinds } }));
      // sleeves in and one fold; two folds more; one more again
      expect(item?.folds.map(({ recipe, steps }) => [recipe, steps.length])).toEqual([
        ['wide', 2],
        ['slim', 4],
        ['compact', 5],
      ]);
      expect(item?.leastSteps).toBe(2);
    }
  });

  it('say what is wrong with an order: which one, what was expected and what was there', () => {
    expect(refusal([], [])).toBe('no-pieces: order 4101: expected at least one piece, found none');
    expect(refusal([{ sku: 'X9', count: 1 }], [TEE])).toBe(
      'unknown-piece: order 4101: piece "X9" is not among the pieces of this shop',
    );
    expect(refusal([{ sku: 'K1', count: 1 }], [piece('K1', 'sail')])).toBe(
      'unknown-kind: piece K1: expected a kind of this shop, found "sail"',
    );
  });

  it('are as many as a parcel’s reckoning carries, and no more, over all its lines', () => {
    const lines = (last: number) => [
      { sku: 'T1', count: MOST_PIECES - 1 },
      { sku: 'T1', count: last },
    ];
    expect(refusal(lines(1), [TEE])).toBeNull();
    expect(refusal(lines(2), [TEE])).toBe(
      `too-many-pieces: order 4101: expected at most ${String(MOST_PIECES)} pieces, found more`,
    );
  });

  it('know the least work, the greatest thickness and whether all of their folds are soft', () => {
    const item = itemFrom(TEE, { mean: 1, sd: 0 }, [
      fold('a', 5, [200, 300, 20], { soft: true }),
      fold('b', 3, [250, 300, 15], { soft: true }),
      fold('c', 4, [150, 300, 40], { soft: true }),
    ]);
    expect(item).toMatchObject({ leastSteps: 3, thickest: 40, soft: true });
    expect(itemFrom(TEE, item.mass, [fold('a', 1, [1, 1, 1], { soft: true }), fold('b', 1, [1, 1, 1])]).soft).toBe(
      false,
    );
  });
});

describe('a piece as it can go into a container', () => {
  const wide = fold('wide', 2, [320, 380, 30]);
  const slim = fold('slim', 3, [200, 380, 60]);
  const item = itemFrom(TEE, { mean: 150, sd: 4 }, [wide, slim]);
  const box = (...sides: [number, number, number]) => aContainer('carton', sides);
  const recipes = (container: Container, wrap: Wrap = NO_WRAP) =>
    itemIn(item, container, wrap)?.folds.map((each) => each.recipe) ?? null;

  it('has those of its folds that go in alone, and is none where no fold does', () => {
    expect(recipes(box(330, 390, 70))).toEqual(['wide', 'slim']);
    expect(recipes(box(330, 390, 50))).toEqual(['wide']);
    expect(recipes(box(210, 390, 70))).toEqual(['slim']);
    expect(recipes(box(210, 390, 50))).toBeNull();
  });

  it('is measured anew by what goes in: its least work and its thickness', () => {
    const inside = itemIn(item, box(210, 390, 70), NO_WRAP);
    expect(inside).toMatchObject({ piece: TEE, mass: { mean: 150, sd: 4 }, leastSteps: 3, thickest: 60 });
    expect(inside?.ideal.width).toBe(200);
  });

  it('is itself where every fold goes in, and otherwise the same each time it is asked', () => {
    const roomy = box(330, 390, 70);
    const narrow = box(210, 390, 70);
    expect(itemIn(item, roomy, NO_WRAP)).toBe(item);
    expect(itemIn(item, narrow, NO_WRAP)).toBe(itemIn(item, narrow, NO_WRAP));
  });

  it('is told apart by container and by wrap, however they are asked', () => {
    const padded = { ...NO_WRAP, id: 'padded', thickness: 15 };
    const narrow = box(210, 390, 70);
    const both = box(330, 390, 70);
    expect([recipes(narrow, NO_WRAP), recipes(narrow, padded), recipes(narrow, NO_WRAP)]).toEqual([
      ['slim'],
      null,
      ['slim'],
    ]);
    expect([recipes(both, padded), recipes(both, NO_WRAP), recipes(narrow, NO_WRAP)]).toEqual([
      ['wide'],
      ['wide', 'slim'],
      ['slim'],
    ]);
  });
});

describe('an order without a plan', () => {
  it('is told apart from any other error, and by what is wrong', () => {
    const error = new PlanError('no-rates', 'order A: none');
    expect([isPlanError(error), isPlanError(error, 'no-rates'), isPlanError(error, 'no-pieces')]).toEqual([
      true,
      true,
      false,
    ]);
    expect([isPlanError(new Error('no-rates')), isPlanError(null), isPlanError('no-rates')]).toEqual([
      false,
      false,
      false,
    ]);
    expect([error.name, error.message, error.whyNot]).toEqual(['PlanError', 'order A: none', []]);
  });
});
