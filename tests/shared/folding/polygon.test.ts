import { describe, expect, it } from 'vitest';
import {
  area,
  boxAround,
  clip,
  flipLine,
  lineThrough,
  middle,
  reachBeyond,
  reflect,
  signedArea,
  type Line,
} from '#shared/folding/polygon.ts';
import type { Point } from '#shared/folding/types.ts';

/** 40 wide and 30 high, its nearest corner at (10, 20); clockwise as seen with y downwards. */
const rectangle: Point[] = [
  [10, 20],
  [50, 20],
  [50, 50],
  [10, 50],
];
const triangle: Point[] = [
  [0, 0],
  [6, 0],
  [0, 3],
];
const upright: Line = { nx: 1, ny: 0, d: 30 };
const close = (points: readonly Point[]) => points.map(([x, y]) => [Number(x.toFixed(9)), Number(y.toFixed(9))]);

describe('a line through two points', () => {
  it('is a unit normal and the distance from the origin: the line of the 3-4-5 triangle', () => {
    // through (5, 0) and (1, 3): 3 x + 4 y = 15
    const { nx, ny, d } = lineThrough([5, 0], [1, 3]);
    expect([nx, ny, d]).toEqual([expect.closeTo(3 / 5, 12), expect.closeTo(4 / 5, 12), expect.closeTo(3, 12)]);
  });

  it('changes its far side when it is flipped or run the other way', () => {
    const line = lineThrough([5, 0], [1, 3]);
    const other = lineThrough([1, 3], [5, 0]);
    for (const each of [flipLine(line), other]) {
      expect([each.nx, each.ny, each.d]).toEqual([
        expect.closeTo(-3 / 5, 12),
        expect.closeTo(-4 / 5, 12),
        expect.closeTo(-3, 12),
      ]);
    }
  });
});

describe('clip', () => {
  it('keeps what does not lie beyond the line', () => {
    expect(close(clip(rectangle, upright))).toEqual([
      [10, 20],
      [30, 20],
      [30, 50],
      [10, 50],
    ]);
    expect(area(clip(rectangle, upright)) + area(clip(rectangle, flipLine(upright)))).toBeCloseTo(1200, 9);
  });

  it('cuts a slanted side where the line crosses it', () => {
    // the side from (6, 0) to (0, 3) is crossed by x = 2 at y = 2
    expect(close(clip(triangle, { nx: 1, ny: 0, d: 2 }))).toEqual([
      [0, 0],
      [2, 0],
      [2, 2],
      [0, 3],
    ]);
    expect(close(clip(triangle, { nx: 0, ny: 1, d: 1 }))).toEqual([
      [0, 0],
      [6, 0],
      [4, 1],
      [0, 1],
    ]);
  });

  it('doubles no corner that lies on the line', () => {
    const diagonal = lineThrough([10, 20], [50, 50]);
    expect(clip(rectangle, diagonal)).toHaveLength(3);
    expect(clip(rectangle, { ...upright, d: 50 })).toEqual(rectangle);
    expect(clip(rectangle, { ...upright, d: 10 })).toEqual([
      [10, 20],
      [10, 50],
    ]);
  });

  it('leaves nothing of what lies beyond', () => {
    expect(clip(rectangle, { ...upright, d: 5 })).toEqual([]);
  });
});

describe('what a line and a polygon have to do with each other', () => {
  it('reaches from the nearest to the farthest corner', () => {
    expect(reachBeyond(rectangle, upright)).toEqual({ least: -20, most: 20 });
    expect(reachBeyond(rectangle, { nx: 0, ny: -1, d: -60 })).toEqual({ least: 10, most: 40 });
  });

  it('mirrors each corner as far on the other side', () => {
    expect(reflect(triangle, { nx: 1, ny: 0, d: 10 })).toEqual([
      [20, 0],
      [14, 0],
      [20, 3],
    ]);
    // across 3 x + 4 y = 15 the origin, 3 away, comes to 6 along the normal
    expect(close(reflect([[0, 0]], lineThrough([5, 0], [1, 3])))).toEqual([[3.6, 4.8]]);
  });
});

describe('area and middle', () => {
  it('is positive clockwise with y downwards', () => {
    expect(signedArea(rectangle)).toBe(1200);
    expect(signedArea([...rectangle].reverse())).toBe(-1200);
    expect(area([...rectangle].reverse())).toBe(1200);
    expect(signedArea(triangle)).toBe(9);
    expect(signedArea([])).toBe(0);
  });

  it('of a rectangle is where its diagonals cross, of a triangle the mean of its corners', () => {
    expect(middle([rectangle])).toEqual([30, 35]);
    expect(middle([triangle])).toEqual([expect.closeTo(2, 12), expect.closeTo(1, 12)]);
  });

  it('of several weighs each by its area', () => {
    // 1,200 at (30, 35) and 9 at (2, 1)
    const [x, y] = middle([rectangle, triangle]);
    expect(x).toBeCloseTo((1200 * 30 + 9 * 2) / 1209, 9);
    expect(y).toBeCloseTo((1200 * 35 + 9 * 1) / 1209, 9);
  });

  it('of what has no area is the origin, and such a polygon moves no other', () => {
    const flat: Point[] = [
      [100, 100],
      [200, 100],
    ];
    expect(middle([])).toEqual([0, 0]);
    expect(middle([flat])).toEqual([0, 0]);
    expect(middle([rectangle, flat, []])).toEqual([30, 35]);
  });
});

describe('boxAround', () => {
  it('holds every corner of all of them', () => {
    expect(boxAround([rectangle, triangle])).toEqual({ x: 0, y: 0, width: 50, height: 50 });
    expect(boxAround([rectangle])).toEqual({ x: 10, y: 20, width: 40, height: 30 });
    expect(boxAround([[[3, 4]]])).toEqual({ x: 3, y: 4, width: 0, height: 0 });
  });

  it('of nothing is empty, at the origin', () => {
    expect(boxAround([])).toEqual({ x: 0, y: 0, width: 0, height: 0 });
    expect(boxAround([[]])).toEqual({ x: 0, y: 0, width: 0, height: 0 });
  });
});
