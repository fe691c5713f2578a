import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { anyWay, flatWays, packBoxes } from '#shared/fitting/packing.ts';
import type { Lying, Sides } from '#shared/fitting/sides.ts';

const packs = (boxes: readonly Lying[], inside: Sides) => packBoxes(boxes, inside).verdict === 'packs';

/** An independent brute force: whole-number boxes on whole-number places of a grid. */
function bruteForce(boxes: readonly Sides[], inside: Sides): boolean {
  const [width, length, depth] = inside;
  const taken = new Uint8Array(width * length * depth);
  const place = (index: number): boolean => {
    const box = boxes[index];
    if (box === undefined) return true;
    const turns = [
      [0, 1, 2],
      [0, 2, 1],
      [1, 0, 2],
      [1, 2, 0],
      [2, 0, 1],
      [2, 1, 0],
    ] as const;
    for (const [a, b, c] of turns) {
      const [w, l, d] = [box[a], box[b], box[c]];
      for (let x = 0; x + w <= width; x += 1) {
        for (let y = 0; y + l <= length; y += 1) {
          for (let z = 0; z + d <= depth; z += 1) {
            const cells: number[] = [];
            for (let i = x; i < x + w; i += 1) {
              for (let j = y; j < y + l; j += 1) {
                for (let k = z; k < z + d; k += 1) cells.push((i * length + j) * depth + k);
              }
            }
            if (cells.some((cell) => taken[cell] === 1)) continue;
            for (const cell of cells) taken[cell] = 1;
            if (place(index + 1)) return true;
            for (const cell of cells) taken[cell] = 0;
          }
        }
      }
    }
    return false;
  };
  return place(0);
}

const small = fc.integer({ min: 1, max: 4 });
const box = fc.tuple(small, small, small);

describe('packBoxes', () => {
  it('agrees with a brute force over every place of a grid', () => {
    let fitted = 0;
    let refused = 0;
    fc.assert(
      fc.property(fc.array(box, { minLength: 1, maxLength: 4 }), box, (boxes, inside) => {
        const expected = bruteForce(boxes, inside);
        if (expected) fitted += 1;
        else refused += 1;
        expect(packs(boxes.map(anyWay), inside)).toBe(expected);
      }),
      { numRuns: 400 },
    );
    expect(fitted).toBeGreaterThan(20);
    expect(refused).toBeGreaterThan(20);
  });

  // Each of these took the search more steps than it was once allowed, and it gave up. How they lie, corner and sides:
  it.each<{ inside: Sides; lying: [Sides, Sides][] }>([
    {
      inside: [11, 9, 9],
      lying: [
        [
          [1, 0, 0],
          [8, 2, 4],
        ],
        [
          [0, 0, 0],
          [1, 3, 5],
        ],
        [
          [0, 3, 0],
          [6, 6, 9],
        ],
        [
          [6, 2, 0],
          [5, 7, 6],
        ],
      ],
    },
    {
      inside: [12, 8, 9],
      lying: [
        [
          [0, 0, 0],
          [6, 3, 5],
        ],
        [
          [0, 0, 5],
          [8, 1, 2],
        ],
        [
          [7, 1, 0],
          [5, 7, 9],
        ],
        [
          [0, 3, 0],
          [7, 5, 8],
        ],
      ],
    },
    {
      inside: [9, 9, 10],
      lying: [
        [
          [0, 3, 0],
          [7, 6, 3],
        ],
        [
          [0, 0, 0],
          [6, 3, 5],
        ],
        [
          [0, 0, 5],
          [6, 3, 5],
        ],
        [
          [0, 3, 3],
          [9, 6, 7],
        ],
      ],
    },
  ])('finds how four boxes lie in $inside, which takes long', ({ inside, lying }) => {
    const end = ([at, sides]: [Sides, Sides], axis: number) => at[axis]! + sides[axis]!;
    lying.forEach((one, index) => {
      expect([0, 1, 2].every((axis) => end(one, axis) <= inside[axis]!)).toBe(true);
      for (const other of lying.slice(0, index)) {
        expect([0, 1, 2].some((axis) => end(one, axis) <= other[0][axis]! || end(other, axis) <= one[0][axis]!)).toBe(
          true,
        );
      }
    });
    expect(
      packs(
        lying.map(([, sides]) => anyWay([sides[2], sides[0], sides[1]])),
        inside,
      ),
    ).toBe(true);
  });

  it('finds the pinwheel, which no straight cut can part', () => {
    const four = Array.from({ length: 4 }, (): Sides[] => flatWays([2, 1, 1]));
    expect(packs(four, [3, 3, 1])).toBe(true);
    expect(packs(four, [3, 2.9, 1])).toBe(false);
  });

  it('of one box is the rule of sorted sides', () => {
    fc.assert(
      fc.property(box, box, (sides, inside) => {
        const sorted = (of: readonly number[]) => [...of].sort((a, b) => a - b);
        const expected = sorted(sides).every((side, index) => side <= sorted(inside)[index]!);
        expect(packs([anyWay(sides)], inside)).toBe(expected);
      }),
    );
  });

  it('does not stand soft things on their edge', () => {
    expect(packs([flatWays([200, 300, 20])], [300, 200, 30])).toBe(true);
    expect(packs([flatWays([200, 300, 20])], [30, 200, 300])).toBe(false);
    expect(packs([anyWay([200, 300, 20])], [30, 200, 300])).toBe(true);
  });

  it('tells how far the boxes reach, never beyond the container', () => {
    fc.assert(
      fc.property(fc.array(box, { minLength: 1, maxLength: 4 }), box, (boxes, inside) => {
        const packing = packBoxes(boxes.map(anyWay), inside);
        if (packing.verdict !== 'packs') return;
        packing.used.forEach((reach, axis) => expect(reach).toBeLessThanOrEqual(inside[axis]! + 1e-6));
        const volume = boxes.reduce((sum, [a, b, c]) => sum + a * b * c, 0);
        expect(packing.used[0] * packing.used[1] * packing.used[2]).toBeGreaterThanOrEqual(volume - 1e-6);
      }),
    );
  });

  it('of more than four boxes says that they pack only when they do, and mostly finds out', () => {
    let found = 0;
    let missed = 0;
    const upTo = (most: number) => fc.integer({ min: 1, max: most });
    const five = fc.array(fc.tuple(upTo(3), upTo(2), upTo(2)), { minLength: 5, maxLength: 5 });
    const room = fc.constantFrom<Sides>([3, 3, 2], [2, 4, 2], [3, 2, 3], [4, 3, 2]);
    fc.assert(
      fc.property(five, room, (boxes, inside) => {
        const { verdict } = packBoxes(boxes.map(anyWay), inside);
        if (verdict === 'does-not-pack') return;
        const possible = bruteForce(boxes, inside);
        if (verdict === 'packs') expect(possible).toBe(true);
        if (possible && verdict === 'packs') found += 1;
        if (possible && verdict !== 'packs') missed += 1;
      }),
      { numRuns: 150 },
    );
    expect(found).toBeGreaterThan(20);
    expect(missed / (found + missed)).toBeLessThan(0.1);
  });

  it('gives up in the end and says so', () => {
    const many = Array.from({ length: 12 }, () => anyWay([3, 5, 7]));
    expect(packBoxes(many, [10.9, 10.9, 10.9]).verdict).toBe('given-up');
  });
});
