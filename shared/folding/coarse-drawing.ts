import type { DrawnPanel, FoldDrawing, Point } from './types.ts';

/** No screen shows a tenth of a millimetre; seventeen digits of every corner are what a stored run is made of. */
const tenth = (millimetres: number): number => Math.round(millimetres * 10) / 10;

const point = ([x, y]: Point): Point => [tenth(x), tenth(y)];
const line = ([from, to]: readonly [Point, Point]): readonly [Point, Point] => [point(from), point(to)];

/** Corners to tenths of a millimetre, and none twice in a row. */
function panel({ points, ...rest }: DrawnPanel): DrawnPanel {
  const rounded = points.map(point);
  const differing = rounded.filter(([x, y], at) => {
    const before = rounded.at(at - 1);
    return before?.[0] !== x || before[1] !== y;
  });
  return { ...rest, points: differing };
}

/** A drawing in tenths of a millimetre: the same to any eye, and a third as long when it is written down. */
export function coarseDrawing({
  still,
  moving,
  landing,
  foldLine,
  arrow,
  also,
  bounds,
  endsAs,
}: FoldDrawing): FoldDrawing {
  return {
    still: still.map(panel),
    moving: moving.map(panel),
    landing: landing.map(panel),
    ...(foldLine === undefined ? {} : { foldLine: line(foldLine) }),
    ...(arrow === undefined ? {} : { arrow: line(arrow) }),
    ...(also === undefined
      ? {}
      : { also: also.map((each) => ({ foldLine: line(each.foldLine), arrow: line(each.arrow) })) }),
    bounds: {
      x: tenth(bounds.x),
      y: tenth(bounds.y),
      width: tenth(bounds.width),
      height: tenth(bounds.height),
    },
    endsAs: { width: tenth(endsAs.width), length: tenth(endsAs.length) },
  };
}
