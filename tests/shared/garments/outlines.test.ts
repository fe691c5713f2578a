import { describe, expect, it } from 'vitest';
import { boxOf } from '#shared/folding/lay.ts';
import { area, middle } from '#shared/folding/polygon.ts';
import type { Point } from '#shared/folding/types.ts';
import { quarterEllipse, type Part } from '#shared/garments/outlines/flat-garment.ts';
import { outlineArea, outlineOf } from '#shared/garments/outlines/outline-of.ts';
import type { Detail, FlatMeasures, Kind } from '#shared/garments/types.ts';
import { demoWardrobe } from '#tests/support/demo-wardrobe.ts';

const usual = demoWardrobe().kinds.get('t-shirt')!;
const kindOf = (outline: Kind['outline'], details: readonly Detail[] = []): Kind => ({
  ...usual,
  outline,
  clothLayers: 2,
  details,
});
const parts = (kind: Kind, measures: FlatMeasures) => outlineOf(kind, measures).parts;
const named = (all: readonly Part[], name: Part['name']) => all.filter((part) => part.name === name && !part.detail);
const bodyOf = (all: readonly Part[]) => named(all, 'body')[0]!;
const details = (all: readonly Part[]) => all.filter((part) => part.detail);
const sideBySide = (points: readonly Point[]) =>
  points.map(([x, y]) => `${(x + 0).toFixed(6)} ${y.toFixed(6)}`.replace(/^-(0\.0+) /, '$1 ')).sort();

/** Whether two stretches cross anywhere but at their ends. */
function cross([a, b]: readonly [Point, Point], [c, d]: readonly [Point, Point]): boolean {
  const turn = (p: Point, q: Point, r: Point) => (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0]);
  return turn(a, b, c) * turn(a, b, d) < -1e-6 && turn(c, d, a) * turn(c, d, b) < -1e-6;
}
function crossings(points: readonly Point[]): number {
  const sides = points.map((point, index) => [point, points[(index + 1) % points.length]!] as const);
  return sides.reduce(
    (sum, side, index) => sum + sides.slice(index + 1).filter((other) => cross(side, other)).length,
    0,
  );
}
function holds(points: readonly Point[], [x, y]: Point): boolean {
  let inside = false;
  points.forEach(([x1, y1], index) => {
    const [x2, y2] = points[(index + 1) % points.length]!;
    if (y1 > y !== y2 > y && x < x1 + ((y - y1) / (y2 - y1)) * (x2 - x1)) inside = !inside;
  });
  return inside;
}
/** How far an outline reaches at a height, from its leftmost to its rightmost crossing. */
function widthAt(points: readonly Point[], y: number): number {
  const xs = points.flatMap(([x1, y1], index) => {
    const [x2, y2] = points[(index + 1) % points.length]!;
    return y1 > y !== y2 > y ? [x1 + ((y - y1) / (y2 - y1)) * (x2 - x1)] : [];
  });
  return Math.max(...xs) - Math.min(...xs);
}

const ALL: readonly Detail[] = [
  'collar',
  'placket',
  'zip',
  'chest-pocket',
  'front-pockets',
  'waistband',
  'cuffs',
  'lapels',
];
const SHIRT: FlatMeasures = {
  width: 540,
  length: 760,
  sleeveLength: 640,
  sleeveWidth: 210,
  hoodHeight: 330,
  neckDepth: 80,
};
const JEANS: FlatMeasures = { width: 430, length: 1060, inseam: 800, hipWidth: 520, hemWidth: 200 };

describe('every outline of the demo shop, in every size and with every detail', () => {
  const garments = [...demoWardrobe().kinds.values()].flatMap((kind) =>
    Object.entries(kind.sizes).map(([size, measures]) => ({ kind, size, measures })),
  );

  it.each(garments)('$kind.id $size', ({ kind, measures }) => {
    const all = parts({ ...kind, details: ALL }, measures);
    const whole = all.filter((part) => !part.detail);
    const box = boxOf(whole);
    for (const part of all) {
      expect(crossings(part.points)).toBe(0);
      expect(area(part.points)).toBeGreaterThan(100);
      expect(part.points.length).toBeGreaterThan(2);
      expect(part.side).toBe('face');
    }
    // No corner twice in a row, and each side the mirror image of the other.
    const { points } = bodyOf(all);
    points.forEach(([x, y], index) => {
      const [nextX, nextY] = points[(index + 1) % points.length]!;
      expect(Math.hypot(nextX - x, nextY - y)).toBeGreaterThan(1e-6);
    });
    expect(sideBySide(points.map(([x, y]): Point => [-x, y]))).toEqual(sideBySide(points));
    expect(box.x + box.width / 2).toBeCloseTo(0, 6);
    for (const part of details(all)) {
      const within = boxOf([part]);
      // a collar stands 45 mm high at most, half of it above the shoulders
      expect(within.x).toBeGreaterThan(box.x - 5);
      expect(within.x + within.width).toBeLessThan(box.x + box.width + 5);
      expect(within.y).toBeGreaterThan(Math.min(box.y, 0) - 30);
      expect(within.y + within.height).toBeLessThan(box.y + box.height + 1e-6);
      expect(whole.some(({ points: outline }) => holds(outline, middle([part.points]))) || within.y < 60).toBe(true);
    }
    expect(outlineArea(kind, measures)).toBeCloseTo(
      whole.reduce((sum, part) => sum + area(part.points), 0),
      6,
    );
  });
});

describe('a top', () => {
  const shirt = () => parts(kindOf('top'), SHIRT);

  it('is as wide and long as it was measured, with a neck', () => {
    const body = bodyOf(shirt());
    expect(boxOf([body])).toMatchObject({ x: -270, width: 540 });
    expect(boxOf([body]).y + boxOf([body]).height).toBe(760);
    expect(body.points.some(([x, y]) => x === 0 && y === 80)).toBe(true);
    expect(area(body.points)).toBeLessThan(540 * 760);
    expect(area(body.points)).toBeGreaterThan(0.9 * 540 * 760);
  });

  it('has sleeves as long as measured from the shoulder, narrower at the cuff, down beside the body', () => {
    for (const [sleeveLength, opening] of [
      [640, 0.55 * 210],
      [200, 0.8 * 210],
    ] as const) {
      const all = parts(kindOf('top'), { ...SHIRT, sleeveLength });
      const [right] = named(all, 'right-sleeve');
      const [shoulder, upper, lower] = right!.points as [Point, Point, Point];
      expect(Math.hypot(upper[0] - shoulder[0], upper[1] - shoulder[1])).toBeCloseTo(sleeveLength, 6);
      expect(Math.hypot(lower[0] - upper[0], lower[1] - upper[1])).toBeCloseTo(opening, 6);
      expect(upper[0]).toBeGreaterThan(shoulder[0]);
      expect(lower[1]).toBeGreaterThan(upper[1]);
      const [left] = named(all, 'left-sleeve');
      expect(sideBySide(left!.points)).toEqual(sideBySide(right!.points.map(([x, y]): Point => [-x, y])));
      // sewn to the body where it was cut: shoulder and underarm are corners of both
      const corners = sideBySide(bodyOf(all).points);
      const [first, last] = sideBySide([shoulder, right!.points.at(-1)!]);
      expect(corners).toContain(first);
      expect(corners).toContain(last);
    }
  });

  it('folds its sleeves at a crease through the underarm, on either side alike', () => {
    const { seams } = outlineOf(kindOf('top'), SHIRT);
    const underarm = named(shirt(), 'right-sleeve')[0]!.points.at(-1)!;
    expect(seams.rightSleeve?.[1]).toEqual(underarm);
    expect(seams.leftSleeve).toEqual(seams.rightSleeve!.map(([x, y]) => [-x, y]));
    // the crease leaves the shoulder inwards
    expect(seams.rightSleeve![0][0]).toBeLessThan(underarm[0]);
    expect(seams.rightSleeve![0][1]).toBeLessThan(underarm[1]);
    expect(seams.hood).toEqual([
      [expect.closeTo(-0.255 * 540, 6), 0],
      [expect.closeTo(0.255 * 540, 6), 0],
    ]);
  });

  it('has a hood as high as measured, of two layers', () => {
    const [hood] = named(shirt(), 'hood');
    expect(hood).toMatchObject({ layers: 2, side: 'face' });
    const { y, x, width } = boxOf([hood!]);
    expect(y).toBeCloseTo(-330, 6);
    expect(x + width / 2).toBeCloseTo(0, 9);
    expect(width).toBeCloseTo(2 * 1.45 * 0.17 * 540, 6);
  });

  it('without sleeves is cut in at the armholes, and has neither sleeves nor hood', () => {
    const all = outlineOf(kindOf('top'), { width: 540, length: 760 });
    expect(all.parts.map(({ name }) => name)).toEqual(['body']);
    expect(all.seams).toEqual({});
    const { points } = all.parts[0]!;
    // narrower between the shoulder and the underarm than at either, and all of the width below
    expect(widthAt(points, 150)).toBeLessThan(widthAt(points, 45));
    expect(widthAt(points, 150)).toBeLessThan(540 * 0.85);
    expect(widthAt(points, 700)).toBeCloseTo(540, 6);
  });
});

describe('a dress, a skirt, trousers and what is flat', () => {
  it('a dress is as wide at its hem as it flares, and narrower at the waist than at the chest', () => {
    const { points } = bodyOf(parts(kindOf('dress'), { width: 460, length: 1000, flareWidth: 700 }));
    expect(widthAt(points, 999)).toBeCloseTo(700, 0);
    expect(widthAt(points, 370)).toBeLessThan(460);
    expect(boxOf(parts(kindOf('dress'), { width: 460, length: 1000 })).width).toBeCloseTo(460 * 1.3, 6);
    // the hem hangs a little lower in the middle
    expect(Math.max(...points.map(([, y]) => y))).toBeCloseTo(1000 + 350 * 0.03, 6);
  });

  it('a skirt goes from its waist to its hem', () => {
    const { points } = bodyOf(parts(kindOf('skirt'), { width: 380, length: 600, flareWidth: 620, hipWidth: 500 }));
    expect(widthAt(points, 1e-6)).toBeCloseTo(380, 3);
    expect(widthAt(points, 200)).toBeCloseTo(500, 6);
    expect(widthAt(points, 600 - 1e-6)).toBeCloseTo(620, 3);
    expect(boxOf(parts(kindOf('skirt'), { width: 380, length: 600 })).width).toBeCloseTo(475, 6);
    expect(Math.max(...points.map(([, y]) => y))).toBeCloseTo(600 + 310 * 0.04, 6);
    // a short one has its hips higher, and they are at least what its flare makes them
    const short = bodyOf(parts(kindOf('skirt'), { width: 380, length: 400, flareWidth: 620 })).points;
    expect(widthAt(short, 140)).toBeCloseTo(380 + 0.4 * 240, 6);
  });

  it('trousers have their waist, hip, hem and inseam', () => {
    const { points } = bodyOf(parts(kindOf('legs'), JEANS));
    expect(widthAt(points, 1e-6)).toBeCloseTo(430, 3);
    expect(boxOf(parts(kindOf('legs'), JEANS))).toMatchObject({ width: 520, height: 1060, y: 0 });
    expect(points).toContainEqual([0, 260]);
    expect(points).toContainEqual([260 * 0.99, 1060]);
    expect(points).toContainEqual([260 * 0.99 - 200, 1060]);
    const bare = bodyOf(parts(kindOf('legs'), { width: 430, length: 1000 })).points;
    // hips a tenth wider than the waist, an inseam of 72 % and hems of 80 % of half the hips
    expect(boxOf([{ ...bodyOf(shirtless()), points: bare }]).width).toBeCloseTo(473, 6);
    expect(bare).toContainEqual([0, expect.closeTo(280, 9)]);
    expect(bare).toContainEqual([expect.closeTo(236.5 * 0.19, 6), 1000]);
    // never wider at the hem than at the hip, nor at the waist
    const wide = bodyOf(parts(kindOf('legs'), { ...JEANS, hipWidth: 400, hemWidth: 900 })).points;
    expect(Math.max(...wide.map(([x]) => x))).toBe(215);
    expect(wide).toContainEqual([expect.closeTo(215 * -0.01, 6), 1060]);
  });

  it('a scarf is its rectangle, and a thing that keeps its shape its footprint, in one layer', () => {
    const scarf = parts(kindOf('strip', ALL), { width: 300, length: 1800 });
    expect(scarf).toHaveLength(1);
    expect(scarf[0]).toMatchObject({ name: 'body', side: 'face', layers: 2, detail: false });
    expect(boxOf(scarf)).toEqual({ x: -150, y: 0, width: 300, height: 1800 });
    expect(parts(kindOf('block'), { width: 200, length: 300, height: 100 })).toMatchObject([{ layers: 1 }]);
    expect(parts({ ...kindOf('strip'), clothLayers: 0.3 }, { width: 1, length: 1 })[0]?.layers).toBe(1);
    expect(parts({ ...kindOf('strip'), clothLayers: 2.6 }, { width: 1, length: 1 })[0]?.layers).toBe(3);
  });
});

describe('details are drawn where the kind has them, and nowhere else', () => {
  const short = { ...SHIRT, sleeveLength: 200 };
  it.each<[Kind['outline'], FlatMeasures, Detail, number]>([
    ['top', SHIRT, 'collar', 2],
    ['top', SHIRT, 'placket', 1],
    ['top', SHIRT, 'zip', 1],
    ['top', SHIRT, 'chest-pocket', 1],
    ['top', SHIRT, 'front-pockets', 2],
    ['top', SHIRT, 'cuffs', 2],
    ['top', SHIRT, 'lapels', 2],
    ['top', SHIRT, 'waistband', 0],
    ['top', short, 'cuffs', 0],
    ['top', { width: 540, length: 760 }, 'cuffs', 0],
    ['legs', JEANS, 'waistband', 2],
    ['legs', JEANS, 'front-pockets', 2],
    ['legs', JEANS, 'collar', 0],
    ['skirt', { width: 380, length: 600 }, 'waistband', 1],
    ['skirt', { width: 380, length: 600 }, 'front-pockets', 0],
  ])('%s %j %s: %d', (outline, measures, detail, count) => {
    expect(details(parts(kindOf(outline, [detail]), measures))).toHaveLength(count);
    expect(
      details(parts({ ...kindOf(outline), details: ALL.filter((each) => each !== detail) }, measures)).length + count,
    ).toBe(
      details(
        parts(
          kindOf(
            outline,
            ALL.filter((each) => each !== 'zip' || detail === 'zip'),
          ),
          measures,
        ),
      ).length + (['placket', 'zip'].includes(detail) ? 1 : 0),
    );
    const { details: _, ...plain } = kindOf(outline);
    expect(details(parts(plain, measures))).toEqual([]);
  });

  it('pockets lie at either side of the middle, the one on the chest at the right', () => {
    const places = (outline: Kind['outline'], detail: Detail, measures: FlatMeasures) =>
      details(parts(kindOf(outline, [detail]), measures)).map((part) => {
        const { x, y, width, height } = boxOf([part]);
        return [x, x + width, y, y + height].map((each) => Number(each.toFixed(3)));
      });
    // parts of 540 x 760: from 10 to 36 % of the width and from 66 to 86 % of the length
    expect(places('top', 'front-pockets', SHIRT)).toEqual([
      [54, 194.4, 501.6, 653.6],
      [-194.4, -54, 501.6, 653.6],
    ]);
    // a fifth of 540 wide, from 12 % on; its point 15 % lower; its upper edge at 80 % of the underarm's height
    const underarm = named(parts(kindOf('top'), SHIRT), 'right-sleeve')[0]!.points.at(-1)![1];
    const [chest] = places('top', 'chest-pocket', SHIRT);
    expect(chest?.slice(0, 2)).toEqual([64.8, 172.8]);
    expect(chest?.[2]).toBeCloseTo(0.8 * underarm, 2);
    expect(chest![3]! - chest![2]!).toBeCloseTo(1.15 * 108, 2);
  });

  it('the cuffs go with their sleeves, and a zip is narrower than a placket', () => {
    const names = details(parts(kindOf('top', ['cuffs']), SHIRT)).map(({ name, layers }) => [name, layers]);
    expect(names).toEqual([
      ['right-sleeve', 1],
      ['left-sleeve', 1],
    ]);
    const wide = (detail: Detail) => boxOf(details(parts(kindOf('top', [detail]), SHIRT)));
    expect(wide('placket')).toEqual({ x: -16, y: 80, width: 32, height: 680 });
    expect(wide('zip').width).toBeCloseTo(0.6 * 32, 9);
  });

  it('the waistband lies along the waist, 40 mm high, as the side runs', () => {
    const [band] = details(parts(kindOf('legs', ['waistband']), JEANS));
    // from 430 at the waist to 520 at 72 % of the crotch's 260: 40 / 187.2 of the way
    expect(boxOf([band!])).toMatchObject({ y: 0, height: 40 });
    expect(boxOf([band!]).width).toBeCloseTo(430 + (90 * 40) / 187.2, 6);
  });
});

it('a quarter of an ellipse goes from its depth in the middle to its half width', () => {
  const curve = quarterEllipse(50, 30, 4);
  expect(curve).toHaveLength(5);
  expect(curve[0]).toEqual([0, 30]);
  expect(curve[4]).toEqual([50, expect.closeTo(0, 9)]);
  for (const [x, y] of curve) expect((x / 50) ** 2 + (y / 30) ** 2).toBeCloseTo(1, 9);
});

function shirtless(): readonly Part[] {
  return parts(kindOf('strip'), { width: 1, length: 1 });
}
