import type { Part } from '#shared/garments/outlines/flat-garment.ts';
import { boxOf } from './lay.ts';

/** What a lay covers: area in mm2 of the table under it, and cloth layers at the thickest place. */
export interface Cover {
  readonly area: number;
  readonly layers: number;
}

const SCAN_LINES = 32;
/** Enough to find the thickest place of what a crease bends. */
const FEW_LINES = 7;
/** Layers over less than this many mm of a scan line are a seam, not a thickness. */
const NARROW = 1e-6;

/** Crossings of one scan line: planning folds thousands of pieces, so the room for them is kept. */
interface Crossings {
  xs: Float64Array;
  changes: Float64Array;
  count: number;
}

/** Emptied by every scan line; nothing of it outlives a call. */
const scratch: Crossings = { xs: new Float64Array(256), changes: new Float64Array(256), count: 0 };

/**
 * Scans the lay line by line: exact across a line, the middle rule down the lines.
 * @param lines more make the area of a slanted outline finer
 */
export function coverOf(parts: readonly Part[], lines = SCAN_LINES): Cover {
  const box = boxOf(parts);
  const height = box.height / lines;
  const found = scratch;
  let covered = 0;
  let thickest = 0;
  for (let line = 0; line < lines; line += 1) {
    cross(parts, box.y + (line + 0.5) * height, found);
    let layers = 0;
    let before = 0;
    for (let index = 0; index < found.count; index += 1) {
      const x = found.xs[index] ?? 0;
      if (layers > 0 && x - before > NARROW) {
        covered += (x - before) * height;
        if (layers > thickest) thickest = layers;
      }
      layers += found.changes[index] ?? 0;
      before = x;
    }
  }
  return { area: covered, layers: thickest };
}

/** Cloth layers at the thickest place of what a crease bends. */
export function thickestLayers(parts: readonly Part[]): number {
  return coverOf(parts, FEW_LINES).layers;
}

/** Where a horizontal line enters (+layers) and leaves (-layers) parts, from left to right. */
function cross(parts: readonly Part[], y: number, found: Crossings): void {
  found.count = 0;
  for (const { points, layers } of parts) {
    const first = found.count;
    let before = points[points.length - 1];
    for (const point of points) {
      if (before !== undefined && before[1] > y !== point[1] > y) {
        const x = before[0] + ((y - before[1]) / (point[1] - before[1])) * (point[0] - before[0]);
        insert(found, first, x);
      }
      before = point;
    }
    // A part's own crossings are in order now: it is entered and left by turns.
    for (let index = first; index < found.count; index += 1) {
      found.changes[index] = (index - first) % 2 === 0 ? layers : -layers;
    }
  }
  sortAll(found);
}

function insert(found: Crossings, first: number, x: number): void {
  if (found.count === found.xs.length) grow(found);
  const { xs } = found;
  let at = found.count;
  for (; at > first && (xs[at - 1] ?? 0) > x; at -= 1) xs[at] = xs[at - 1] ?? 0;
  xs[at] = x;
  found.count += 1;
}

function sortAll({ xs, changes, count }: Crossings): void {
  for (let from = 1; from < count; from += 1) {
    const x = xs[from] ?? 0;
    const change = changes[from] ?? 0;
    let at = from;
    for (; at > 0 && (xs[at - 1] ?? 0) > x; at -= 1) {
      xs[at] = xs[at - 1] ?? 0;
      changes[at] = changes[at - 1] ?? 0;
    }
    xs[at] = x;
    changes[at] = change;
  }
}

function grow(found: Crossings): void {
  const xs = new Float64Array(found.xs.length * 2);
  const changes = new Float64Array(found.xs.length * 2);
  xs.set(found.xs);
  changes.set(found.changes);
  found.xs = xs;
  found.changes = changes;
}
