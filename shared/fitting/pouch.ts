/**
 * How much of a pouch's lay-flat width a stack's thickness takes, in mm per mm.
 *
 * A film pouch is a tube of perimeter 2 W. Around a block with corners its perimeter 2 (w + t) must go: w + t <= W.
 * Around a soft stack with half-round sides 2 (w - t) + pi t must go: w + (pi / 2 - 1) t <= W.
 */
export const RIGID_TAKES = 1;
export const SOFT_TAKES = Math.PI / 2 - 1;

/**
 * The greatest thickness in mm that goes into a lay-flat width beside a width of the stack; negative when the stack
 * alone is wider than the pouch.
 */
export function greatestInPouch(pouchWidth: number, stackWidth: number, soft: boolean): number {
  return (pouchWidth - stackWidth) / (soft ? SOFT_TAKES : RIGID_TAKES);
}

/**
 * Thickness in mm of the block of greatest volume in a pouch of W x L without closing allowance; the block is
 * (W - t) x (L - t) x t. It is the smaller root of dV/dt = 3 t^2 - 2 (W + L) t + W L.
 */
export function thicknessOfLargestBlock(width: number, length: number): number {
  return (width + length - Math.sqrt(width * width - width * length + length * length)) / 3;
}

/**
 * Volume in mm3 that the pouch could hold of something that flows; an upper bound, never enough for a fit.
 * A. C. Robin, "Paper bag problem", Mathematics Today 40 (2004).
 */
export function flowingVolume(width: number, length: number): number {
  const w = Math.min(width, length);
  const h = Math.max(width, length);
  return w ** 3 * (h / (Math.PI * w) - 0.142 * (1 - 10 ** (-h / w)));
}
