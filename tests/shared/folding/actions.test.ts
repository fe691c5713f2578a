import { describe, expect, it } from 'vitest';
import { applyAction, type Around } from '#shared/folding/apply-action.ts';
import { coverOf, thickestLayers } from '#shared/folding/cover.ts';
import { drawingOf } from '#shared/folding/drawing.ts';
import { boxOf, type Lay } from '#shared/folding/lay.ts';
import type { FoldAction, Point } from '#shared/folding/types.ts';
import type { Part } from '#shared/garments/outlines/flat-garment.ts';

function rectangle(x: number, y: number, width: number, height: number, more: Partial<Part> = {}): Part {
  return {
    name: 'body',
    points: [
      [x, y],
      [x + width, y],
      [x + width, y + height],
      [x, y + height],
    ],
    side: 'face',
    layers: 2,
    detail: false,
    ...more,
  };
}
const lay = (parts: readonly Part[], more: Partial<Lay> = {}): Lay => ({ parts, seams: {}, up: 'face', ...more });
/** 100 mm wide and 200 long, its corner at (10, 20). */
const cloth = lay([rectangle(10, 20, 100, 200)]);
const around: Around = { volume: 0, companion: () => lay([rectangle(-30, -20, 60, 40, { name: 'hood', layers: 5 })]) };
const after = (action: FoldAction, of: Lay = cloth, how: Partial<Around> = {}) =>
  applyAction(of, action, { ...around, ...how });
const places = (parts: readonly Part[]) =>
  parts.map((part) => {
    const { x, y, width, height } = boxOf([part]);
    return `${part.name} ${part.layers} ${part.side} ${[x, y, width, height].map((each) => Number(each.toFixed(6)) + 0).join(' ')}`;
  });
const line = (points: readonly [Point, Point] | undefined) =>
  points?.map(([x, y]) => [Number(x.toFixed(6)), Number(y.toFixed(6))]);

// Every place below is worked out by hand from 100 x 200 mm at (10, 20); a crease is drawn 4 % longer at either end.
describe('a crease across the width', () => {
  it.each([
    // two thirds of 100 are kept from the left: the crease is at 76.667 and a third comes to lie left of it
    ['right', 76.666_667, 'body 2 face 10 20 66.666667 200', 'body 2 back 43.333333 20 33.333333 200'],
    ['left', 43.333_333, 'body 2 face 43.333333 20 66.666667 200', 'body 2 back 43.333333 20 33.333333 200'],
  ] as const)('from the %s, to two thirds', (from, x, still, landing) => {
    const { lay: folded, moves, rolled } = after({ do: 'fold-width', from, to: [2, 3] });
    expect(places(folded.parts)).toEqual([still, landing]);
    expect(line(moves[0]?.foldLine)).toEqual([
      [x, 12],
      [x, 228],
    ]);
    expect([moves.length, rolled]).toEqual([1, false]);
  });

  it('lays legs together in the middle, the right one on the left', () => {
    const { lay: folded, moving } = after({ do: 'legs-together' });
    expect(places(folded.parts)).toEqual(['body 2 face 10 20 50 200', 'body 2 back 10 20 50 200']);
    expect(places(moving)).toEqual(['body 2 face 60 20 50 200']);
  });
});

describe('a crease across the length', () => {
  it.each([
    ['bottom', 170, 'body 2 face 10 20 100 150', 'body 2 back 10 120 100 50'],
    ['top', 70, 'body 2 face 10 70 100 150', 'body 2 back 10 70 100 50'],
  ] as const)('from the %s, to three quarters', (from, y, still, landing) => {
    const { lay: folded, moves } = after({ do: 'fold-length', from, to: [3, 4] });
    expect(places(folded.parts)).toEqual([still, landing]);
    expect(line(moves[0]?.foldLine)).toEqual([
      [6, y],
      [114, y],
    ]);
  });
});

describe('a tuck', () => {
  it.each([
    ['right', ['body 2 back 60 20 25 200', 'body 2 face 10 20 75 200']],
    ['left', ['body 2 back 35 20 25 200', 'body 2 face 35 20 75 200']],
    ['bottom', ['body 2 back 10 120 100 50', 'body 2 face 10 20 100 150']],
    ['top', ['body 2 back 10 70 100 50', 'body 2 face 10 70 100 150']],
  ] as const)('of a quarter from the %s lies under the rest', (from, parts) => {
    expect(places(after({ do: 'tuck', from, to: [3, 4] }).lay.parts)).toEqual(parts);
  });
});

it.each([
  [{ do: 'fold-width', from: 'left', to: [2, 5] }, 'fold-width', '2/5'],
  [{ do: 'fold-length', from: 'top', to: [1, 1] }, 'fold-length', '1/1'],
  [{ do: 'fold-length', from: 'bottom', to: [0, 0] }, 'fold-length', '0/0'],
  [{ do: 'tuck', from: 'left', to: [1, 4] }, 'tuck', '1/4'],
  [{ do: 'tuck', from: 'top', to: [1, 4] }, 'tuck', '1/4'],
] as const)('%j is refused, with what was asked for', (action, what, found) => {
  expect(() => after(action)).toThrow(`${what}: expected a fraction of at least 1/2 and less than 1, found ${found}`);
});

it('a fraction of exactly a half closes', () => {
  expect(boxOf(after({ do: 'fold-width', from: 'left', to: [1, 2] }).lay.parts).width).toBeCloseTo(50, 9);
});

describe('turning over', () => {
  it.each([
    ['face-down', 'face', true],
    ['face-down', 'back', false],
    ['face-up', 'back', true],
    ['face-up', 'face', false],
  ] as const)('%s of what lies with its %s up', (action, up, turns) => {
    const { lay: turned, turning, moves, moving } = after({ do: action }, { ...cloth, up });
    expect(turned.up).toBe(turns ? (up === 'face' ? 'back' : 'face') : up);
    expect(turning !== undefined).toBe(turns);
    expect([moves, moving]).toEqual([[], []]);
  });

  it('is drawn as an arrow to the left across the piece as it lies then', () => {
    // turned over it lies from -110 to -10; from 80 % of the width to 20 %, at 42 % of the length
    expect(line(after({ do: 'face-down' }).turning)).toEqual([
      [-30, 104],
      [-90, 104],
    ]);
  });

  it('fastening moves nothing', () => {
    const { lay: same, still, moving, landing, moves, turning, rolled } = after({ do: 'fasten' });
    expect(same).toBe(cloth);
    expect([still, moving, landing, moves, turning, rolled]).toEqual([cloth.parts, [], [], [], undefined, false]);
  });
});

describe('sleeves', () => {
  // A body 60 wide with straight sleeves of 30 to both sides, its seams upright at -30 and 30.
  const shirt = lay(
    [
      rectangle(30, 0, 30, 20, { name: 'right-sleeve' }),
      rectangle(-60, 0, 30, 20, { name: 'left-sleeve' }),
      rectangle(-30, 0, 60, 100),
    ],
    {
      seams: {
        leftSleeve: [
          [-30, 0],
          [-30, 25],
        ],
        rightSleeve: [
          [30, 0],
          [30, 25],
        ],
      },
    },
  );

  it('go over their seams onto the body, the right one first', () => {
    const { lay: folded, still, moving, landing, moves } = after({ do: 'sleeves-in' }, shirt);
    expect(places(still)).toEqual(['body 2 face -30 0 60 100']);
    expect(places(moving)).toEqual(['left-sleeve 2 face -60 0 30 20', 'right-sleeve 2 face 30 0 30 20']);
    expect(places(landing)).toEqual(['right-sleeve 2 back 0 0 30 20', 'left-sleeve 2 back -30 0 30 20']);
    expect(folded.parts).toEqual([...still, ...landing]);
    // a seam is drawn 12 % longer at either end
    expect(moves.map(({ foldLine }) => line(foldLine))).toEqual([
      [
        [30, -3],
        [30, 28],
      ],
      [
        [-30, -3],
        [-30, 28],
      ],
    ]);
  });

  it('that reach across to the other side are not folded with that one', () => {
    const wide = lay(
      [rectangle(20, 0, 30, 20, { name: 'left-sleeve' }), rectangle(-50, 0, 30, 20, { name: 'right-sleeve' })],
      {
        seams: shirt.seams,
      },
    );
    expect(after({ do: 'sleeves-in' }, wide).moving).toEqual([]);
  });

  it('are missed where there are none, or only one', () => {
    const one = { leftSleeve: shirt.seams.leftSleeve! };
    for (const seams of [{}, one, { rightSleeve: shirt.seams.rightSleeve! }]) {
      expect(() => after({ do: 'sleeves-in' }, { ...shirt, seams })).toThrow(
        'sleeves-in: expected a garment with sleeves, found none',
      );
    }
  });
});

describe('a hood', () => {
  const hooded = lay([rectangle(-20, -50, 40, 60, { name: 'hood' }), rectangle(-50, -5, 100, 100)], {
    seams: {
      hood: [
        [-25, 0],
        [25, 0],
      ],
    },
  });

  it('comes down over its seam; the shoulders stay', () => {
    const { lay: folded, moves } = after({ do: 'hood-down' }, hooded);
    expect(places(folded.parts)).toEqual([
      'hood 2 face -20 0 40 10',
      'body 2 face -50 -5 100 100',
      'hood 2 back -20 0 40 50',
    ]);
    expect(line(moves[0]?.foldLine)).toEqual([
      [-31, 0],
      [31, 0],
    ]);
  });

  it('comes down over a seam that lies lower, and slants, by where the seam begins', () => {
    const lower = {
      ...hooded,
      seams: {
        hood: [
          [-25, 5],
          [25, 15],
        ] as const,
      },
    };
    const { landing, moves } = after({ do: 'hood-down' }, lower);
    expect(places(landing)).toEqual(['hood 2 back -20 5 40 55']);
    expect(line(moves[0]?.foldLine)).toEqual([
      [-31, 3.8],
      [31, 16.2],
    ]);
  });

  it('is missed where there is none', () => {
    expect(() => after({ do: 'hood-down' })).toThrow('hood-down: expected a garment with a hood, found none');
  });
});

describe('the other part of a set', () => {
  it('is folded, laid on the middle, and waits beside it before', () => {
    // 60 x 40 in half is 30 x 40; the middle of the lay is (60, 120)
    const {
      lay: folded,
      still,
      moving,
      landing,
      moves,
      turning,
    } = after({ do: 'lay-on', kind: 'trousers', by: [{ do: 'legs-together' }] });
    expect(places(landing)).toEqual(['body 5 face 45 100 30 40', 'body 5 back 45 100 30 40']);
    expect(folded.parts).toEqual([...cloth.parts, ...landing]);
    expect([still, moves]).toEqual([cloth.parts, []]);
    // it waits 15 % of the width beside the lay's right edge: 110 + 15
    expect(places(moving)).toEqual(['body 5 face 125 100 30 40', 'body 5 back 125 100 30 40']);
    expect(line(turning)).toEqual([
      [140, 120],
      [60, 120],
    ]);
  });
});

describe('a roll', () => {
  // 1,000,000 mm3 over 100 mm: a circle of 10,000 mm2 is 112.838 across, a tenth more wound loosely: 124.122
  it.each([
    ['bottom', 'body 4 back 10 20 100 124.121708', [220, 82.060_854]],
    ['top', 'body 4 back 10 95.878292 100 124.121708', [20, 157.939_146]],
  ] as const)('from the %s ends at the other end', (from, place, [start, end]) => {
    const twice = lay([rectangle(10, 20, 100, 200), rectangle(10, 20, 100, 100)]);
    const {
      lay: rolled,
      still,
      moving,
      landing,
      moves,
      turning,
      rolled: isRolled,
    } = after({ do: 'roll', from }, twice, { volume: 1e6 });
    expect(places(rolled.parts)).toEqual([place]);
    expect(landing).toEqual(rolled.parts);
    expect(landing[0]?.detail).toBe(false);
    expect([still, moving, moves, isRolled, rolled.seams, rolled.up]).toEqual([[], twice.parts, [], true, {}, 'face']);
    expect(line(turning)).toEqual([
      [60, start],
      [60, end],
    ]);
  });

  it('of what lies face down shows its face', () => {
    expect(after({ do: 'roll', from: 'top' }, { ...cloth, up: 'back' }, { volume: 1e6 }).lay.parts[0]?.side).toBe(
      'face',
    );
  });
});

describe('what a lay covers', () => {
  /** Area to a thousandth of a square millimetre, and layers. */
  const covered = (parts: readonly Part[]) => {
    const { area, layers } = coverOf(parts);
    return [Number(area.toFixed(3)), layers];
  };
  const triangle: Part = {
    ...rectangle(0, 0, 0, 0),
    points: [
      [0, 0],
      [100, 0],
      [0, 200],
    ],
  };

  it('is exact for slanted sides, and where parts run the other way round', () => {
    expect(covered([triangle])).toEqual([10_000, 2]);
    const reversed = { ...triangle, points: [...triangle.points].reverse() };
    expect(covered([reversed])).toEqual([10_000, 2]);
    expect(coverOf([triangle, reversed]).layers).toBe(4);
  });

  it('is the same wherever it lies', () => {
    const moved = { ...triangle, points: triangle.points.map(([x, y]): Point => [x - 70, y + 50]) };
    expect(covered([moved])).toEqual([10_000, 2]);
  });

  it('counts what lies apart, with the hole between them, and the thickest place of all', () => {
    const parts = [
      rectangle(0, 0, 10, 12),
      rectangle(30, 0, 10, 12, { layers: 7 }),
      rectangle(35, 6, 10, 6, { layers: 1 }),
    ];
    expect(covered(parts)).toEqual([270, 8]);
    expect(thickestLayers(parts)).toBe(8);
    expect(coverOf(parts.slice(0, 1).concat(rectangle(-40, 0, 10, 12))).area).toBeCloseTo(240, 6);
  });

  it('counts no layers where one part ends and another begins', () => {
    const [left, right] = [rectangle(0, 0, 10, 12), rectangle(10, 0, 10, 12, { layers: 3 })];
    expect(covered([left, right])).toEqual([240, 3]);
    expect(covered([right, left])).toEqual([240, 3]);
  });

  it('takes any number of edges', () => {
    const strips = Array.from({ length: 700 }, (_, index) => rectangle(index * 2, 0, 1, 10, { layers: 1 }));
    expect(covered(strips)).toEqual([7000, 1]);
    expect(coverOf([triangle]).area).toBeCloseTo(10_000, 6);
  });
});

describe('the drawing of a step', () => {
  it('has the crease, an arrow from the middle of what moves to where it lands, and the box around all of it', () => {
    const drawing = drawingOf(after({ do: 'fold-width', from: 'right', to: [3, 4] }));
    expect(line(drawing.arrow)).toEqual([
      [97.5, 120],
      [72.5, 120],
    ]);
    expect(drawing.bounds).toEqual({ x: 10, y: 12, width: 100, height: 216 });
    expect(drawing.endsAs).toEqual({ width: 75, length: 200 });
    expect(drawing.still.map(({ side, layers }) => [side, layers])).toEqual([['face', 2]]);
    expect(drawing.also).toBeUndefined();
    expect(line(drawing.foldLine)).toEqual([
      [85, 12],
      [85, 228],
    ]);
  });

  it('of two creases has the second one beside the first', () => {
    const arms = lay([rectangle(30, 0, 30, 20), rectangle(-60, 0, 30, 20), rectangle(-30, 0, 60, 100)], {
      seams: {
        leftSleeve: [
          [-30, 0],
          [-30, 25],
        ],
        rightSleeve: [
          [30, 0],
          [30, 25],
        ],
      },
    });
    const { foldLine, arrow, also } = drawingOf(after({ do: 'sleeves-in' }, arms));
    expect(line(foldLine)?.[0]).toEqual([30, -3]);
    expect(line(arrow)).toEqual([
      [45, 10],
      [15, 10],
    ]);
    expect(also?.map((each) => [line(each.foldLine), line(each.arrow)])).toEqual([
      [
        [
          [-30, -3],
          [-30, 28],
        ],
        [
          [-45, 10],
          [-15, 10],
        ],
      ],
    ]);
  });

  it('of turning over has the arrow alone', () => {
    const drawing = drawingOf(after({ do: 'face-down' }));
    expect(line(drawing.arrow)).toEqual([
      [-30, 104],
      [-90, 104],
    ]);
    expect('foldLine' in drawing).toBe(false);
    expect('arrow' in drawingOf(after({ do: 'fasten' }))).toBe(false);
  });
});
