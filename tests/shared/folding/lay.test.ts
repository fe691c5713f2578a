import { describe, expect, it } from 'vitest';
import { boxOf, foldOver, turnOver, type Lay } from '#shared/folding/lay.ts';
import type { Line } from '#shared/folding/polygon.ts';
import type { Part } from '#shared/garments/outlines/flat-garment.ts';

function square(x: number, more: Partial<Part> = {}, width = 10): Part {
  return {
    name: 'body',
    points: [
      [x, 0],
      [x + width, 0],
      [x + width, 10],
      [x, 10],
    ],
    side: 'face',
    layers: 2,
    detail: false,
    ...more,
  };
}
const at = (d: number): Line => ({ nx: 1, ny: 0, d });
const spans = (parts: readonly Part[]) =>
  parts.map(({ points, side, name, layers }) => {
    const xs = points.map(([x]) => x);
    return `${name} ${layers} ${side} ${Math.min(...xs)}-${Math.max(...xs)}`;
  });
const always = () => true;

describe('foldOver', () => {
  it('divides a part at the line; what moves is mirrored, wrong side up, with its layers', () => {
    const { still, moving, landing } = foldOver([square(0)], at(6), always);
    expect(spans(still)).toEqual(['body 2 face 0-6']);
    expect(spans(moving)).toEqual(['body 2 face 6-10']);
    expect(spans(landing)).toEqual(['body 2 back 2-6']);
  });

  it('moves what lies beyond whole and leaves what does not, also where they touch the line', () => {
    const { still, moving } = foldOver([square(0), square(10)], at(10), always);
    expect(spans(still)).toEqual(['body 2 face 0-10']);
    expect(spans(moving)).toEqual(['body 2 face 10-20']);
  });

  it('lays what was on top lowest', () => {
    const parts = [square(10, { layers: 1 }), square(10, { layers: 3, side: 'back' })];
    expect(spans(foldOver(parts, at(10), always).landing)).toEqual(['body 3 face 0-10', 'body 1 back 0-10']);
  });

  it('leaves whole what is not chosen', () => {
    const parts = [square(0, { name: 'left-sleeve' }), square(0)];
    const { still, moving } = foldOver(parts, at(5), ({ name }) => name === 'body');
    expect(spans(still)).toEqual(['left-sleeve 2 face 0-10', 'body 2 face 0-5']);
    expect(spans(moving)).toEqual(['body 2 face 5-10']);
  });

  it('drops slivers of less than a square millimetre', () => {
    // 10 high: a tenth of a millimetre beside the line is one square millimetre
    const sliver = foldOver([square(0)], at(9.95), always);
    expect([spans(sliver.still), sliver.moving]).toEqual([['body 2 face 0-9.95'], []]);
    const other = foldOver([square(0)], at(0.05), always);
    expect([other.still, spans(other.moving)]).toEqual([[], ['body 2 face 0.05-10']]);
    expect(foldOver([square(0)], at(9.8), always).moving).toHaveLength(1);
  });
});

describe('turnOver', () => {
  const lay: Lay = {
    parts: [square(2, { name: 'left-sleeve' }), square(4, { name: 'right-sleeve' }), square(6, { name: 'hood' })],
    seams: {
      leftSleeve: [
        [-3, 1],
        [-4, 9],
      ],
      rightSleeve: [
        [5, 2],
        [6, 8],
      ],
      hood: [
        [-7, 0],
        [8, 1],
      ],
    },
    up: 'face',
  };

  it('mirrors everything, the lowest on top, and what was the left sleeve is at the right', () => {
    const after = turnOver(lay);
    expect(after.up).toBe('back');
    expect(spans(after.parts)).toEqual([
      'hood 2 back -16--6',
      'left-sleeve 2 back -14--4',
      'right-sleeve 2 back -12--2',
    ]);
    expect(after.seams).toEqual({
      rightSleeve: [
        [3, 1],
        [4, 9],
      ],
      leftSleeve: [
        [-5, 2],
        [-6, 8],
      ],
      hood: [
        [7, 0],
        [-8, 1],
      ],
    });
    expect(turnOver(after)).toEqual(lay);
  });

  it('invents no seams', () => {
    expect(turnOver({ ...lay, seams: {} }).seams).toEqual({});
  });
});

it('boxOf holds all parts', () => {
  expect(boxOf([square(2), square(30)])).toEqual({ x: 2, y: 0, width: 38, height: 10 });
});
