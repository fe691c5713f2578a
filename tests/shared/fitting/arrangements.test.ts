import { describe, expect, it } from 'vitest';
import { fitStack } from '#shared/fitting/fit-stack.ts';
import { anyWay, flatWays, packBoxes } from '#shared/fitting/packing.ts';
import { NO_WRAP, aBlock, aContainer } from '#tests/support/demo-wardrobe.ts';

const soft = (sides: readonly [number, number, number], thicknessSd: number, pressedThickness = sides[2]) =>
  aBlock(sides, { soft: true, mayPress: true, thicknessSd, pressedThickness });

// Probabilities are those of the normal table for a margin over the root sum of squares of the spreads, by hand.
describe('soft pieces in two piles', () => {
  const lay = (sides: readonly [number, number, number][], carton: readonly [number, number, number]) =>
    fitStack(
      sides.map((each) => soft(each, 3)),
      aContainer('carton', carton),
      NO_WRAP,
    );

  it('are shared out the way that closes most surely, not the first that closes', () => {
    // 30 + 25 beside 20 + 25 leaves 5; 30 + 20 beside 25 + 25 leaves 10: 10 / (3 sqrt 2) = 2.357
    const fit = lay(
      [30, 20, 25, 25].map((high) => [150, 200, high] as [number, number, number]),
      [400, 400, 60],
    );
    expect(fit).toMatchObject({ verdict: 'easy', piles: 2 });
    expect(fit.slack).toEqual({ width: 100, length: 200, thickness: 10 });
    expect(fit.probability).toBeCloseTo(0.99079, 4);
  });

  it('stay in a way that is surely wide enough where a lower one is nearly too wide', () => {
    // wide on wide: 55 and 45 high, 249 across: 5 / (3 sqrt 2) = 1.179; else 50 and 50, but 298 across: 2 / 4 = 0.5
    const fit = lay(
      [
        [100, 200, 30],
        [149, 200, 20],
        [149, 200, 25],
        [100, 200, 25],
      ],
      [300, 300, 60],
    );
    expect(fit.slack.thickness).toBeCloseTo(5, 9);
    expect(fit.slack.width).toBeCloseTo(51, 9);
    expect(fit.probability).toBeCloseTo(0.8807, 4);
  });

  it('are as sure as the way round that leaves the most room', () => {
    // side by side along 320: 2 x 150 leaves 20, and 100 the other way; end to end 2 x 200 does not go into 320
    const one = lay(
      [
        [150, 200, 20],
        [200, 150, 20],
      ] as [number, number, number][],
      [320, 300, 30],
    );
    expect(one.slack).toEqual({ width: 20, length: 100, thickness: 10 });
    const other = lay(
      [
        [150, 200, 20],
        [200, 150, 20],
      ] as [number, number, number][],
      [300, 320, 30],
    );
    expect(other.slack).toEqual({ width: 100, length: 20, thickness: 10 });
    // one lies across: 150 + 200 into 352, and the longer of 200 and 150
    const turned = lay(
      [
        [150, 200, 20],
        [200, 150, 20],
      ] as [number, number, number][],
      [352, 203, 30],
    );
    expect(turned.slack).toEqual({ width: 52, length: 3, thickness: 10 });
  });

  it('are as sure as the higher of the two, whichever piece it holds', () => {
    // 20 and 30 of 33: 3 / 3 is one deviation
    for (const high of [
      [20, 30],
      [30, 20],
    ] as const) {
      const fit = lay(
        high.map((each) => [150, 200, each] as [number, number, number]),
        [400, 400, 33],
      );
      expect(fit.probability).toBeCloseTo(0.8413, 4);
    }
  });

  it('are as sure as the narrower of the two directions: 4 mm are one deviation of a fold', () => {
    const two = [
      [150, 200, 20],
      [150, 200, 20],
    ] as [number, number, number][];
    expect(lay(two, [400, 204, 39]).probability).toBeCloseTo(0.8413, 4);
    expect(lay(two, [304, 230, 39]).probability).toBeCloseTo(0.8413, 4);
  });

  it('take the room of the wider one along the other side', () => {
    const two = [
      [150, 200, 20],
      [180, 200, 20],
    ] as [number, number, number][];
    for (const [wide, verdict] of [
      [181, 'easy'],
      [175, 'no'],
    ] as const) {
      expect(lay(two, [wide, 410, 39]).verdict).toBe(verdict);
      expect(lay(two, [410, wide, 39]).verdict).toBe(verdict);
    }
    // side by side 200 of 210, but 200 long in 150
    expect(
      lay(
        [
          [100, 200, 20],
          [100, 200, 20],
        ] as [number, number, number][],
        [210, 150, 39],
      ).verdict,
    ).toBe('no');
  });

  it('close under a hand where each alone is too high, with the spread of the pressed cloth', () => {
    // each pile 40 high, 20 pressed with half the spread of 4: 2 / 2 = 1 of 22
    const carton = aContainer('carton', [400, 400, 22]);
    const fit = fitStack([soft([150, 200, 40], 4, 20), soft([150, 200, 40], 4, 20)], carton, NO_WRAP);
    expect(fit).toMatchObject({ verdict: 'snug', piles: 2, turned: false, limit: 'thickness' });
    expect(fit.slack.thickness).toBeCloseTo(2, 9);
    expect(fit.probability).toBeCloseTo(0.8413, 4);
    expect(fit.filled).toEqual({ width: 400, length: 400, thickness: 22 });
  });

  it('add up their wrap and their spreads: 3 and 4 mm come to 5', () => {
    // three in one pile 30 + 3 wraps high; here two beside one: 2 x (10 + 1) = 22 of 27 with 5 mm, 1 deviation
    const wrap = { ...NO_WRAP, thickness: 1 };
    const pieces = [soft([150, 200, 10], 3), soft([150, 200, 10], 4), soft([150, 200, 26], 0)];
    const fit = fitStack(pieces, aContainer('carton', [400, 400, 27]), wrap);
    expect(fit.piles).toBe(2);
    expect(fit.slack.thickness).toBeCloseTo(0, 9);
    const roomier = fitStack(
      pieces.slice(0, 2).concat(soft([150, 200, 21], 0)),
      aContainer('carton', [400, 400, 27]),
      wrap,
    );
    expect(roomier.slack.thickness).toBeCloseTo(5, 9);
    expect(roomier.probability).toBeCloseTo(0.8413, 4);
  });

  it('never more than ten: eleven lie in one pile or not at all', () => {
    const pieces = (count: number) => Array.from({ length: count }, () => soft([150, 200, 10], 0.1));
    const carton = aContainer('carton', [400, 400, 60]);
    expect(fitStack(pieces(10), carton, NO_WRAP)).toMatchObject({ verdict: 'easy', piles: 2 });
    expect(fitStack(pieces(11), carton, NO_WRAP).verdict).toBe('no');
  });
});

describe('rigid things among others', () => {
  it('are as sure as the greatest margin at which all of them still go in', () => {
    // Beside each other 2 x 100 in 200 exactly; 60 high with a spread of 5 in 78: three deviations and not four and a half
    const carton = aContainer('carton', [200, 100, 78]);
    const tall = (thicknessSd: number) => aBlock([100, 100, 60], { thicknessSd });
    const three = fitStack([tall(5), tall(5)], carton, NO_WRAP);
    expect(three.verdict).toBe('easy');
    expect(three.piles).toBe(2);
    expect(three.probability).toBeCloseTo(0.99984, 4);
    const standing = fitStack(
      [aBlock([60, 100, 90], { thicknessSd: 5 })],
      aContainer('carton', [60, 106, 100]),
      NO_WRAP,
    );
    expect(standing.verdict).toBe('easy');
  });

  it('that only go in on their end are as sure as whole deviations: one, two, three, four and a half, six', () => {
    // 90 high, standing along 100 with a spread of 4: 2.5 deviations, of which two are counted
    const fit = fitStack([aBlock([60, 95, 90], { thicknessSd: 4 })], aContainer('carton', [100, 60, 95]), NO_WRAP);
    expect(fit.verdict).toBe('easy');
    expect(fit.probability).toBeCloseTo(0.97725, 4);
    expect(fit.piles).toBeUndefined();
  });

  it('stand where that closes more surely than lying flat in two piles', () => {
    // flat: 30 high in 32 with a spread of 2, one deviation; on their sides 30 + 30 in 100 and 48 in 95
    const fit = fitStack(
      [1, 2].map(() => aBlock([48, 30, 30], { thicknessSd: 2 })),
      aContainer('carton', [100, 95, 32]),
      NO_WRAP,
    );
    expect(fit).toMatchObject({ verdict: 'easy', probability: 1 });
  });

  it('have a soft piece beside them that may be folded 4 mm larger', () => {
    // three beside each other: 100 + 100 + 96 in 300, one deviation of a fold; two piles would be twice as high
    const rigid = aBlock([100, 100, 50]);
    const beside = (wide: number, long: number) =>
      fitStack([rigid, rigid, soft([wide, long, 50], 0)], aContainer('carton', [300, 108, 50]), NO_WRAP).probability;
    expect(beside(96, 100)).toBeCloseTo(0.8413, 4);
    expect(beside(100, 96)).toBeCloseTo(0.8413, 4);
    expect(beside(88, 96)).toBeCloseTo(0.99865, 4);
  });

  it('of more than four are loaded in a good way, but never with a soft piece among them', () => {
    const carton = aContainer('carton', [300, 200, 50]);
    const rigid = Array.from({ length: 5 }, () => aBlock([100, 100, 50]));
    const mixed = (count: number) => [...rigid.slice(0, count), soft([100, 100, 50], 0)];
    expect(fitStack(rigid, carton, NO_WRAP).verdict).toBe('easy');
    expect(fitStack(mixed(4), carton, NO_WRAP).verdict).toBe('no');
    expect(fitStack(mixed(3), carton, NO_WRAP).verdict).toBe('easy');
  });
});

describe('what is said of the better of two ways', () => {
  it('stays that of one pile where both close at rest, but as surely as the other', () => {
    // one pile: 40 of 45 with 3 sqrt 2; two: 20 of 45
    const pieces = [soft([150, 200, 20], 3), soft([150, 200, 20], 3)];
    const fit = fitStack(pieces, aContainer('carton', [400, 400, 45]), NO_WRAP);
    expect(fit).toMatchObject({ verdict: 'easy', probability: 1 });
    expect(fit.piles).toBeUndefined();
    expect(fit.slack.thickness).toBeCloseTo(5, 9);
  });

  it('is of nothing pressed where a piece must not be', () => {
    const piece = { ...soft([150, 200, 40], 0, 20), mayPress: false };
    const fit = fitStack([piece, piece], aContainer('carton', [400, 400, 22]), NO_WRAP);
    expect(fit.verdict).toBe('no');
    expect(fit.probability).toBe(0);
  });
});

it('a carton without a depth is named', () => {
  const flat = aContainer('carton', [200, 300], { id: 'carton-9' });
  expect(() => fitStack([aBlock([100, 100, 10])], flat, NO_WRAP)).toThrow(
    'container carton-9: expected a depth for a carton, found none',
  );
});

describe('ways to lie', () => {
  it('are counted once where sides are alike', () => {
    expect(flatWays([2, 2, 1])).toEqual([[2, 2, 1]]);
    expect(flatWays([3, 2, 1])).toEqual([
      [3, 2, 1],
      [2, 3, 1],
    ]);
    expect(anyWay([2, 2, 2])).toEqual([[2, 2, 2]]);
    expect(anyWay([2, 2, 1])).toHaveLength(3);
    expect(new Set(anyWay([3, 2, 1]).map((sides) => sides.join(' ')))).toHaveLength(6);
  });
});

describe('how far boxes reach', () => {
  it.each([
    { boxes: [[4, 2, 1]], used: [4, 2, 1] },
    // behind each other along the only axis with room for two
    {
      boxes: [
        [4, 2, 1],
        [4, 2, 1],
      ],
      used: [8, 2, 1],
    },
    {
      boxes: [
        [4, 2, 1],
        [3, 2, 1],
        [1, 2, 1],
      ],
      used: [8, 2, 1],
    },
  ])('$boxes in 9 x 2 x 1: $used', ({ boxes, used }) => {
    const lying = boxes.map(([a = 0, b = 0, c = 0]) => [[a, b, c] as const]);
    expect(packBoxes(lying, [9, 2, 1])).toEqual({ verdict: 'packs', used });
  });

  it('of more than four is that of their loading', () => {
    const five = Array.from({ length: 5 }, () => [[2, 2, 1] as const]);
    expect(packBoxes(five, [11, 2, 1])).toEqual({ verdict: 'packs', used: [10, 2, 1] });
    expect(packBoxes(five, [2, 11, 1])).toEqual({ verdict: 'packs', used: [2, 10, 1] });
    expect(packBoxes(five, [2, 2, 6])).toEqual({ verdict: 'packs', used: [2, 2, 5] });
  });

  it('no box goes into what is a tenth shorter, however much room there is elsewhere', () => {
    expect(packBoxes([[[4, 2, 1]]], [3.9, 20, 10]).verdict).toBe('does-not-pack');
    expect(packBoxes([[[4, 2, 1]]], [20, 1.9, 10]).verdict).toBe('does-not-pack');
    expect(packBoxes([[[4, 2, 1]]], [20, 10, 0.9]).verdict).toBe('does-not-pack');
  });
});
