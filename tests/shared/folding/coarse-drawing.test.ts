import { expect, it } from 'vitest';
import { coarseDrawing } from '#shared/folding/coarse-drawing.ts';
import type { DrawnPanel, FoldDrawing } from '#shared/folding/types.ts';

const panel = (x: number): DrawnPanel => ({
  points: [
    [x + 0.04, 0.06],
    [x + 0.01, 0.14],
    [x + 9.96, 0.1],
    [x + 9.96, 7.25],
    [x, 0.149],
  ],
  side: 'back',
  layers: 3,
});
const rounded = (x: number): DrawnPanel => ({
  points: [
    [x + 10, 0.1],
    [x + 10, 7.3],
    [x, 0.1],
  ],
  side: 'back',
  layers: 3,
});
const bare: FoldDrawing = {
  still: [panel(0)],
  moving: [panel(10)],
  landing: [panel(20)],
  bounds: { x: 0.04, y: -1.26, width: 29.96, height: 7.25 },
  endsAs: { width: 176.666_666, length: 360.04 },
};
const bareRounded: FoldDrawing = {
  still: [rounded(0)],
  moving: [rounded(10)],
  landing: [rounded(20)],
  bounds: { x: 0, y: -1.3, width: 30, height: 7.3 },
  endsAs: { width: 176.7, length: 360 },
};

it('rounds every corner to a tenth of a millimetre and keeps one of several that fall together', () => {
  expect(coarseDrawing(bare)).toEqual(bareRounded);
});

it('rounds creases and arrows where there are any', () => {
  const line = [
    [1.04, 2.06],
    [3.14, 4.16],
  ] as const;
  const short = [
    [1, 2.1],
    [3.1, 4.2],
  ];
  const also = [{ foldLine: line, arrow: line }];
  expect(coarseDrawing({ ...bare, foldLine: line, arrow: line, also })).toEqual({
    ...bareRounded,
    foldLine: short,
    arrow: short,
    also: [{ foldLine: short, arrow: short }],
  });
});
