import type { Part } from '#shared/garments/outlines/flat-garment.ts';
import type { Applied } from './apply-action.ts';
import { boxOf } from './lay.ts';
import { boxAround } from './polygon.ts';
import type { DrawnPanel, FoldDrawing } from './types.ts';

function drawn(parts: readonly Part[]): DrawnPanel[] {
  return parts.map(({ points, side, layers }) => ({ points, side, layers }));
}

/** The drawing of a step, from the step's own geometry. */
export function drawingOf(applied: Applied): FoldDrawing {
  const { still, moving, landing, moves, turning } = applied;
  const [first, ...others] = moves;
  const after = boxOf(applied.lay.parts);
  const lines = moves.map((move) => move.foldLine);
  const bounds = boxAround([...[...still, ...moving, ...landing].map((part) => part.points), ...lines]);
  const arrow = first?.arrow ?? turning;
  return {
    still: drawn(still),
    moving: drawn(moving),
    landing: drawn(landing),
    ...(first === undefined ? {} : { foldLine: first.foldLine }),
    ...(arrow === undefined ? {} : { arrow }),
    ...(others.length === 0 ? {} : { also: others }),
    bounds,
    endsAs: { width: after.width, length: after.height },
  };
}
