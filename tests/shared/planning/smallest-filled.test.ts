import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { piece } from './small-shop.ts';
import { fitStack } from '#shared/fitting/fit-stack.ts';
import type { Container } from '#shared/fitting/types.ts';
import type { Fold, FoldedBlock } from '#shared/folding/types.ts';
import { itemFrom, type Item } from '#shared/planning/item.ts';
import { smallestFilled, smallestWithAny } from '#shared/planning/smallest-filled.ts';
import { lengthFromMillimetres } from '#shared/units/length.ts';
import { aBlock, aContainer, NO_WRAP } from '#tests/support/demo-wardrobe.ts';
import { runs } from '#tests/support/runs.ts';

const INCH = 25.4;
const inches = (amount: number) => lengthFromMillimetres(amount * INCH);

function itemOf(...blocks: FoldedBlock[]): Item {
  const folds = blocks.map((block): Fold => ({ recipe: 'any', steps: [], block }) as unknown as Fold);
  return itemFrom(piece('P1', 'shoes'), { mean: 100, sd: 0 }, folds);
}

type Sides = [width: number, length: number, thickness: number];
const block = ([a, b, c]: Sides, more: Partial<FoldedBlock> = {}) => aBlock([a * INCH, b * INCH, c * INCH], more);
/** A rigid thing of sides in inches. */
const thing = (...sides: Sides) => itemOf(block(sides));

const pouch = (width: number, length: number, more: Partial<Container> = {}) =>
  aContainer('pouch', [width * INCH, length * INCH], { closing: inches(1), ...more });

/** In inches. */
function smallest(items: readonly Item[], container: Container, wrapped = 0): Sides {
  const { width, length, thickness } = smallestFilled(items, container, { ...NO_WRAP, thickness: wrapped * INCH });
  return [width, length, thickness].map((side) => Math.round((side / INCH) * 1e6) / 1e6) as Sides;
}

// By hand: film of W x L around a block with corners as thick as t is W - t by L - t (pouch.ts), and never below the block.
describe('the least size of a filled pouch', () => {
  const plain = pouch(15.4, 20.3);

  it('is that of what is in it, where there is one way to put it in, brought down to half inches', () => {
    expect(smallest([thing(10, 15, 2.1)], plain)).toEqual([13, 18, 2]);
    expect(smallest([thing(10, 15, 1.6)], plain)).toEqual([13.5, 18.5, 1.5]);
    expect(smallest([thing(10, 10, 1), thing(8, 15, 1.1)], plain)).toEqual([13, 18, 2]);
    expect(smallest([thing(10, 15, 0.5), thing(10, 15, 0.6)], plain, 0.5)).toEqual([13, 18, 2]);
    // but not to nothing
    expect(smallest([thing(10, 15, 0.2)], plain)).toEqual([15, 20, 0.2]);
  });

  it('is that with the thickest folds, as far as there is room for them', () => {
    const between = (short: number, long: number, thin: number, thick: number) =>
      itemOf(block([short, long, thin]), block([short, long, thick]));
    expect(smallest([between(10, 15, 2.1, 3.1)], plain)).toEqual([12, 17, 2]);
    expect(smallest([between(10, 15, 1.1, 2.1)], plain, 1)).toEqual([12, 17, 2]);
    // 5.4 in are left across, 20.3 - 1 - 15.2 = 4.1 in along. Turned it does not go in.
    expect(smallest([between(10, 15.2, 2.1, 6)], plain)).toEqual([11, 16, 2]);
    // 15.4 - 12.2 = 3.2 in are left across
    expect(smallest([between(12.2, 15.2, 2.1, 6)], plain)).toEqual([12, 17, 2]);
    // one way 5.2 in are left, the other way 3.2 in
    expect(smallest([between(10.2, 12.2, 2.1, 6)], plain)).toEqual([10, 15, 2]);
  });

  it('has its walls around what is in it, and is no smaller than they are', () => {
    const wall = inches(0.5);
    const padded = pouch(15.4, 20.3, { wall, outside: { width: inches(16.4), length: inches(21.3) } });
    expect(smallest([thing(10, 15, 2.1)], padded)).toEqual([14, 19, 3]);
    const tight = pouch(15.4, 20.3, { wall, closing: inches(0) });
    // 5.2 in of room across: it would draw in to 10.2 in, what it holds and its walls are 11.2 in
    expect(smallest([itemOf(block([10.2, 12, 2]), block([10.2, 12, 9]))], tight)[0]).toBe(11);
    // 4.1 in of room along: 16.2 in, what it holds and its walls are 17.2 in
    expect(smallest([itemOf(block([10.2, 16.2, 2]), block([10.2, 16.2, 9]))], tight)[1]).toBe(17);
  });

  it('is by round sides where all is soft, which take less of the width, and by corners where one fold has them', () => {
    const soft = { soft: true };
    // a stack of 3.6 in takes (pi / 2 - 1) 3.6 = 2.05 in of the width
    expect(smallest([itemOf(block([10, 15, 3.6], soft))], plain)).toEqual([13, 18, 3.5]);
    // room for 5.2 / 0.571 in and 7.3 in: 6.1 in thick, taken whole by the fold with corners, but never below 10.2 in
    expect(smallest([itemOf(block([10.2, 12, 2.1], soft), block([10.2, 12, 6.1]))], plain)).toEqual([10, 14, 2]);
  });
});

describe('the least size of what does not draw in', () => {
  it('is its outside, and for a card as thick as what is in it', () => {
    const card = aContainer('card', [9.5 * INCH, 12.5 * INCH], { wall: inches(0.25) });
    expect(smallest([thing(6, 8, 0.6)], card)).toEqual([9.5, 12.5, 1]);
    const carton = aContainer('carton', [9 * INCH, 12 * INCH, 4 * INCH]);
    expect(smallest([thing(6, 8, 1)], carton)).toEqual([9, 12, 4]);
  });

  it('is for any of some pieces that of the least of them', () => {
    const some = [thing(6.2, 9, 2), thing(5, 11, 0.3), thing(7, 8.3, 1)];
    const size = (container: Container) => {
      const { width, length, thickness } = smallestWithAny(some, container);
      return [width, length, thickness].map((side) => Math.round((side / INCH) * 1e6) / 1e6);
    };
    expect(size(pouch(15, 20))).toEqual([5, 8, 0.3]);
    expect(size(aContainer('card', [9.5 * INCH, 12.5 * INCH]))).toEqual([9.5, 12.5, 0.3]);
    expect(size(aContainer('carton', [9 * INCH, 12 * INCH, 4 * INCH]))).toEqual([9, 12, 4]);
  });
});

describe('whatever is folded how', () => {
  const side = fc.integer({ min: 40, max: 320 });
  const anyBlock = fc
    .record({
      a: side,
      b: side,
      thickness: fc.integer({ min: 2, max: 80 }),
      press: fc.integer({ min: 3, max: 10 }),
      soft: fc.boolean(),
    })
    .map(({ a, b, thickness, press, soft }) =>
      aBlock([Math.min(a, b), Math.max(a, b), thickness], {
        pressedThickness: (thickness * press) / 10,
        soft,
        mayPress: soft,
      }),
    );
  const anyItems = fc.array(fc.array(anyBlock, { minLength: 1, maxLength: 2 }), { minLength: 1, maxLength: 2 });

  it('no filled container is smaller', () => {
    let fitted = 0;
    fc.assert(
      fc.property(
        anyItems,
        fc.constantFrom('pouch' as const, 'card' as const),
        fc.constantFrom(0, 3),
        fc.constantFrom(0, 0.4),
        (blocks, type, wall, thickness) => {
          const container = aContainer(type, [381, 508], { closing: inches(1), wall: lengthFromMillimetres(wall) });
          const wrap = { ...NO_WRAP, thickness };
          const items = blocks.map((folds) => itemOf(...folds));
          const least = smallestFilled(items, container, wrap);
          const any = smallestWithAny(items, container);
          const choices = blocks.reduce<FoldedBlock[][]>(
            (before, folds) => before.flatMap((chosen) => folds.map((fold) => [...chosen, fold])),
            [[]],
          );
          for (const chosen of choices) {
            const { verdict, filled } = fitStack(chosen, container, wrap);
            if (verdict === 'no') continue;
            fitted += 1;
            for (const way of ['width', 'length', 'thickness'] as const) {
              expect(filled[way]).toBeGreaterThanOrEqual(least[way] - 1e-6);
              expect(filled[way]).toBeGreaterThanOrEqual(any[way] - 1e-6);
            }
          }
        },
      ),
      { numRuns: runs(300) },
    );
    expect(fitted).toBeGreaterThan(0);
  });
});
