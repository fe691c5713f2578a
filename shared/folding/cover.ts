import type { Part } from '#shared/garments/outlines/flat-garment.ts';
import { boxOf } from './lay.ts';

/** What a lay covers: area in mm2 of the table under it, and cloth layers at the thickest place. */
export interface Cover {
  readonly area: number;
  readonly layers: number;
}

const SCAN_LINES = 32;
/** Layers over less than this many mm of a scan line are a seam, not a thickness. */
const NARROW = 1e-6;

/**
 * Scans the lay line by line: exact across a line, the middle rule down the lines.
 */
export function coverOf(parts: readonly Part[]): Cover {
  const box = boxOf(parts);
  const height = box.height / SCAN_LINES;
  let covered = 0;
  let thickest = 0;
  for (let line = 0; line < SCAN_LINES; line += 1) {
    const edges = crossings(parts, box.y + (line + 0.5) * height);
    let layers = 0;
    let before = 0;
    for (const [x, change] of edges) {
      if (layers > 0 && x - before > NARROW) {
        covered += (x - before) * height;
        if (layers > thickest) thickest = layers;
      }
      layers += change;
      before = x;
    }
  }
  return { area: covered, layers: thickest };
}

/** Where a horizontal line enters (+layers) and leaves (-layers) parts, from left to right. */
function crossings(parts: readonly Part[], y: number): [x: number, change: number][] {
  const edges: [number, number][] = [];
  for (const part of parts) {
    const xs: number[] = [];
    let before = part.points[part.points.length - 1];
    for (const point of part.points) {
      if (before !== undefined && before[1] > y !== point[1] > y) {
        xs.push(before[0] + ((y - before[1]) / (point[1] - before[1])) * (point[0] - before[0]));
      }
      before = point;
    }
    xs.sort((a, b) => a - b);
    xs.forEach((x, index) => edges.push([x, index % 2 === 0 ? part.layers : -part.layers]));
  }
  return edges.sort((a, b) => a[0] - b[0]);
}
