import type { FlatGarment, Part, Seam } from '#shared/garments/outlines/flat-garment.ts';
import { area, boxAround, clip, flipLine, reachBeyond, reflect, type Box, type Line } from './polygon.ts';

/** The cloth as it lies on the table at some moment: parts from the lowest to the topmost. */
export interface Lay {
  readonly parts: readonly Part[];
  readonly seams: FlatGarment['seams'];
  /** which side of the garment is up */
  readonly up: 'face' | 'back';
}

/** A fold: what stays, what moves and where that comes to lie. */
export interface Folded {
  readonly still: readonly Part[];
  readonly moving: readonly Part[];
  readonly landing: readonly Part[];
}

/** Slivers below a square millimetre are rounding, not cloth. */
const SLIVER = 1;

export function boxOf(parts: readonly Part[]): Box {
  return boxAround(parts.map((part) => part.points));
}

function turned(side: Part['side']): Part['side'] {
  return side === 'face' ? 'back' : 'face';
}

function withPoints({ name, side, layers, detail }: Part, points: Part['points']): Part {
  return { name, points, side, layers, detail };
}

/** Whatever lies beyond the line is folded over it, onto the top; parts that are not chosen stay whole. */
export function foldOver(parts: readonly Part[], line: Line, chosen: (part: Part) => boolean): Folded {
  const still: Part[] = [];
  const moving: Part[] = [];
  const back = flipLine(line);
  for (const part of parts) {
    if (!chosen(part)) {
      still.push(part);
      continue;
    }
    const reach = reachBeyond(part.points, line);
    if (reach.most <= 0) still.push(part);
    if (reach.least >= 0 && reach.most > 0) moving.push(part);
    if (reach.most <= 0 || reach.least >= 0) continue;
    const stays = clip(part.points, line);
    const moves = clip(part.points, back);
    if (stays.length > 2 && area(stays) > SLIVER) still.push(withPoints(part, stays));
    if (moves.length > 2 && area(moves) > SLIVER) moving.push(withPoints(part, moves));
  }
  return { still, moving, landing: overturned(moving, line) };
}

/** Parts mirrored across a line: what was on top comes to lie lowest. */
function overturned(parts: readonly Part[], line: Line): Part[] {
  return parts.map((part) => ({ ...part, points: reflect(part.points, line), side: turned(part.side) })).reverse();
}

/** The whole lay turned over sideways. */
export function turnOver(lay: Lay): Lay {
  const upright: Line = { nx: 1, ny: 0, d: 0 };
  const { leftSleeve, rightSleeve, hood } = lay.seams;
  const seams: { leftSleeve?: Seam; rightSleeve?: Seam; hood?: Seam } = {};
  if (leftSleeve !== undefined) seams.rightSleeve = mirroredSeam(leftSleeve);
  if (rightSleeve !== undefined) seams.leftSleeve = mirroredSeam(rightSleeve);
  if (hood !== undefined) seams.hood = mirroredSeam(hood);
  const parts = overturned(lay.parts, upright).map((part) => ({ ...part, name: otherHand(part.name) }));
  return { parts, seams, up: turned(lay.up) };
}

function otherHand(name: Part['name']): Part['name'] {
  if (name === 'left-sleeve') return 'right-sleeve';
  return name === 'right-sleeve' ? 'left-sleeve' : name;
}

function mirroredSeam([[fromX, fromY], [toX, toY]]: Seam): Seam {
  return [
    [-fromX, fromY],
    [-toX, toY],
  ];
}
