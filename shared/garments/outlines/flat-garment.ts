import type { Point } from '#shared/folding/types.ts';

export type PartName = 'body' | 'left-sleeve' | 'right-sleeve' | 'hood';

/** A piece of the outline that is folded as one, as it lies: its upper side and how many layers of cloth it is. */
export interface Part {
  readonly name: PartName;
  readonly points: readonly Point[];
  readonly side: 'face' | 'back';
  readonly layers: number;
  /** sewn on top, such as a collar: drawn and folded, but no part of the outline's area */
  readonly detail: boolean;
}

export type Seam = readonly [Point, Point];

/**
 * A garment flat on the table, face up: float mm, x to the packer's right, y towards the packer, the middle of its
 * shoulder or waist line at the origin. Parts are in back-to-front order.
 */
export interface FlatGarment {
  readonly parts: readonly Part[];
  /** where sleeves and hood bend */
  readonly seams: { readonly leftSleeve?: Seam; readonly rightSleeve?: Seam; readonly hood?: Seam };
}

export function mirrored(points: readonly Point[]): Point[] {
  return points.map(([x, y]) => [-x, y]);
}

/** A closed outline from its right half, given from the top middle down to the bottom middle. */
export function bothHalves(rightHalf: readonly Point[]): Point[] {
  const left = mirrored(rightHalf).reverse();
  return [...rightHalf, ...left].filter((point, index, all) => {
    const before = all[(index + all.length - 1) % all.length];
    return before === undefined || Math.hypot(before[0] - point[0], before[1] - point[1]) > 1e-9;
  });
}

/** Part of an ellipse's quarter from (0, depth) at the middle to (half, 0), for necklines and crowns. */
export function quarterEllipse(half: number, depth: number, steps: number): Point[] {
  return Array.from({ length: steps + 1 }, (_, step) => {
    const angle = (step / steps) * (Math.PI / 2);
    return [half * Math.sin(angle), depth * Math.cos(angle)];
  });
}

export function detail(points: readonly Point[], layers = 1, name: PartName = 'body'): Part {
  return { name, points, side: 'face', layers, detail: true };
}
