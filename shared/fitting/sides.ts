/** Sides of a box in mm along the container's width, length and depth. */
export type Sides = readonly [width: number, length: number, depth: number];

/** A box to pack, as every way in which it may lie. */
export type Lying = readonly Sides[];
