import type { Part } from '#shared/garments/outlines/flat-garment.ts';
import { boxOf } from './lay.ts';
import { signedArea } from './polygon.ts';

/** What a lay covers: area in mm2 of the table under it, and cloth layers at the thickest place. */
export interface Cover {
  readonly area: number;
  readonly layers: number;
}

const SCAN_LINES = 24;
/** Enough to find the thickest place of what a crease bends. */
const FEW_LINES = 7;
/** Layers over less than this many mm of a scan line are a seam, not a thickness. */
const NARROW = 1e-6;

/**
 * Room for the edges of a lay and the crossings of one scan line. Planning folds thousands of pieces, so the room is
 * kept; nothing in it outlives a call.
 */
interface Scratch {
  edges: number;
  /** upper and lower end of every edge that is not level, x at its upper end, and how x goes with y */
  top: Float64Array;
  bottom: Float64Array;
  x: Float64Array;
  slope: Float64Array;
  /** layers that begin at the edge, from left to right; negative where they end */
  layers: Float64Array;
  crossings: number;
  at: Float64Array;
  change: Float64Array;
}

const scratch = roomFor(512);

function roomFor(edges: number): Scratch {
  const room = () => new Float64Array(edges);
  return {
    edges: 0,
    top: room(),
    bottom: room(),
    x: room(),
    slope: room(),
    layers: room(),
    crossings: 0,
    at: room(),
    change: room(),
  };
}

/**
 * Scans the lay line by line: exact across a line, the middle rule down the lines.
 * @param lines more make the area of a slanted outline finer
 */
export function coverOf(parts: readonly Part[], lines = SCAN_LINES): Cover {
  const box = boxOf(parts);
  const height = box.height / lines;
  collectEdges(parts, scratch);
  let covered = 0;
  let thickest = 0;
  for (let line = 0; line < lines; line += 1) {
    cross(scratch, box.y + (line + 0.5) * height);
    let layers = 0;
    let before = 0;
    for (let index = 0; index < scratch.crossings; index += 1) {
      const x = scratch.at[index] ?? 0;
      if (layers > 0 && x - before > NARROW) {
        covered += (x - before) * height;
        if (layers > thickest) thickest = layers;
      }
      layers += scratch.change[index] ?? 0;
      before = x;
    }
  }
  return { area: covered, layers: thickest };
}

/** Cloth layers at the thickest place of what a crease bends. */
export function thickestLayers(parts: readonly Part[]): number {
  return coverOf(parts, FEW_LINES).layers;
}

/**
 * Edges of all parts. A part's layers begin at an edge that runs one way and end at one that runs the other way; which
 * way that is follows from the way round the part's outline runs.
 */
function collectEdges(parts: readonly Part[], into: Scratch): void {
  let count = 0;
  for (const { points } of parts) count += points.length;
  if (count > into.top.length) Object.assign(into, roomFor(count * 2));
  let edge = 0;
  for (const { points, layers } of parts) {
    const signed = Math.sign(signedArea(points)) * layers;
    let before = points[points.length - 1];
    for (const point of points) {
      if (before !== undefined && before[1] !== point[1]) {
        const down = before[1] < point[1];
        const [upper, lower] = down ? [before, point] : [point, before];
        into.top[edge] = upper[1];
        into.bottom[edge] = lower[1];
        into.x[edge] = upper[0];
        into.slope[edge] = (lower[0] - upper[0]) / (lower[1] - upper[1]);
        into.layers[edge] = down ? -signed : signed;
        edge += 1;
      }
      before = point;
    }
  }
  into.edges = edge;
}

/** Where a level line enters (+layers) and leaves (-layers) parts, from left to right. */
function cross(scan: Scratch, y: number): void {
  const { edges, top, bottom, at, change } = scan;
  let count = 0;
  for (let edge = 0; edge < edges; edge += 1) {
    const upper = top[edge] ?? 0;
    if (upper > y || (bottom[edge] ?? 0) <= y) continue;
    const x = (scan.x[edge] ?? 0) + (y - upper) * (scan.slope[edge] ?? 0);
    let place = count;
    for (; place > 0 && (at[place - 1] ?? 0) > x; place -= 1) {
      at[place] = at[place - 1] ?? 0;
      change[place] = change[place - 1] ?? 0;
    }
    at[place] = x;
    change[place] = scan.layers[edge] ?? 0;
    count += 1;
  }
  scan.crossings = count;
}
