import type { Point } from './types.ts';

/** A straight line as its unit normal and distance from the origin: nx x + ny y = d. Beyond it: nx x + ny y > d. */
export interface Line {
  readonly nx: number;
  readonly ny: number;
  readonly d: number;
}

export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** The line through two points; beyond it lies on the left of the way from a to b when y points down. */
export function lineThrough(a: Point, b: Point): Line {
  const dx = b[0] - a[0];
  const dy = b[1] - a[1];
  const length = Math.hypot(dx, dy);
  const nx = dy / length;
  const ny = -dx / length;
  return { nx, ny, d: nx * a[0] + ny * a[1] };
}

/** The line with its two sides exchanged. */
export function flipLine(line: Line): Line {
  return { nx: -line.nx, ny: -line.ny, d: -line.d };
}

/**
 * The part of a polygon that does not lie beyond a line (Sutherland and Hodgman, "Reentrant polygon clipping", 1974,
 * for one half-plane). A concave polygon that falls apart keeps a seam of no width along the line.
 */
export function clip(points: readonly Point[], line: Line): Point[] {
  const kept: Point[] = [];
  const count = points.length;
  for (let index = 0; index < count; index += 1) {
    const from = points[index];
    const to = points[(index + 1) % count];
    if (from === undefined || to === undefined) continue;
    const fromBeyond = line.nx * from[0] + line.ny * from[1] - line.d;
    const toBeyond = line.nx * to[0] + line.ny * to[1] - line.d;
    if (fromBeyond <= 0) kept.push(from);
    if (fromBeyond < 0 !== toBeyond < 0 && fromBeyond !== 0 && toBeyond !== 0) {
      const part = fromBeyond / (fromBeyond - toBeyond);
      kept.push([from[0] + part * (to[0] - from[0]), from[1] + part * (to[1] - from[1])]);
    }
  }
  return kept;
}

/** How far the nearest and the farthest corner of a polygon lie beyond a line; negative on its near side. */
export function reachBeyond(points: readonly Point[], line: Line): { least: number; most: number } {
  let least = Infinity;
  let most = -Infinity;
  for (const [x, y] of points) {
    const beyond = line.nx * x + line.ny * y - line.d;
    if (beyond < least) least = beyond;
    if (beyond > most) most = beyond;
  }
  return { least, most };
}

/** Mirror image across a line. */
export function reflect(points: readonly Point[], line: Line): Point[] {
  return points.map(([x, y]) => {
    const twice = 2 * (line.nx * x + line.ny * y - line.d);
    return [x - twice * line.nx, y - twice * line.ny];
  });
}

/** Signed area by the shoelace sum. */
function signedArea(points: readonly Point[]): number {
  let twice = 0;
  let before = points[points.length - 1];
  for (const point of points) {
    if (before !== undefined) twice += before[0] * point[1] - point[0] * before[1];
    before = point;
  }
  return twice / 2;
}

/** Area of a polygon, whichever way round it runs. */
export function area(points: readonly Point[]): number {
  return Math.abs(signedArea(points));
}

/** Middle of several polygons, weighed by their areas. */
export function middle(polygons: readonly (readonly Point[])[]): Point {
  let whole = 0;
  let sumX = 0;
  let sumY = 0;
  for (const points of polygons) {
    const weight = area(points);
    const [x, y] = centroid(points);
    whole += weight;
    sumX += weight * x;
    sumY += weight * y;
  }
  return whole === 0 ? [0, 0] : [sumX / whole, sumY / whole];
}

function centroid(points: readonly Point[]): Point {
  let sumX = 0;
  let sumY = 0;
  let before = points[points.length - 1];
  for (const point of points) {
    if (before !== undefined) {
      const cross = before[0] * point[1] - point[0] * before[1];
      sumX += (before[0] + point[0]) * cross;
      sumY += (before[1] + point[1]) * cross;
    }
    before = point;
  }
  const six = 6 * signedArea(points);
  return six === 0 ? (points[0] ?? [0, 0]) : [sumX / six, sumY / six];
}

/** The box around polygons; of none, an empty box at the origin. */
export function boxAround(polygons: readonly (readonly Point[])[]): Box {
  let left = Infinity;
  let right = -Infinity;
  let top = Infinity;
  let bottom = -Infinity;
  for (const points of polygons) {
    for (const [x, y] of points) {
      if (x < left) left = x;
      if (x > right) right = x;
      if (y < top) top = y;
      if (y > bottom) bottom = y;
    }
  }
  return left > right
    ? { x: 0, y: 0, width: 0, height: 0 }
    : { x: left, y: top, width: right - left, height: bottom - top };
}
