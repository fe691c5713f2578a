import type { Part } from '#shared/garments/outlines/flat-garment.ts';
import type { Applied, Move } from './apply-action.ts';
import { boxOf } from './lay.ts';
import { boxAround, middle } from './polygon.ts';
import type { DrawnPanel, FoldDrawing, Point } from './types.ts';

function drawn(parts: readonly Part[]): DrawnPanel[] {
  return parts.map(({ points, side, layers }) => ({ points, side, layers }));
}

/** From the middle of what moves to where that lands. */
function arrowOf({ moving, landing }: Move): readonly [Point, Point] {
  return [middle(moving.map((part) => part.points)), middle(landing.map((part) => part.points))];
}

/** The drawing of a step, from the step's own geometry. */
export function drawingOf(applied: Applied): FoldDrawing {
  const { still, moving, landing, moves, turning } = applied;
  const [first, ...others] = moves;
  const after = boxOf(applied.lay.parts);
  const lines = moves.map((move) => move.foldLine);
  const bounds = boxAround([...[...still, ...moving, ...landing].map((part) => part.points), ...lines]);
  const arrow = first === undefined ? turning : arrowOf(first);
  return {
    still: drawn(still),
    moving: drawn(moving),
    landing: drawn(landing),
    ...(first === undefined ? {} : { foldLine: first.foldLine }),
    ...(arrow === undefined ? {} : { arrow }),
    ...(others.length === 0 ? {} : { also: others.map((move) => ({ foldLine: move.foldLine, arrow: arrowOf(move) })) }),
    bounds,
    endsAs: { width: after.width, length: after.height },
  };
}
