import type { Fold, FoldedBlock } from '#shared/folding/types.ts';

/** The sides of a block, the shorter first: it may lie either way in a stack. */
export function sides(block: FoldedBlock): readonly [short: number, long: number] {
  return block.width < block.length ? [block.width, block.length] : [block.length, block.width];
}

/**
 * Whether `a` can stand for `b` in any parcel without costing more: no larger footprint, no more work, no more doubt.
 *
 * The thickness must be the same, not merely less: a thicker stack draws a pouch in, and a shorter pouch may be cheaper
 * where length and width decide the price.
 */
function standsFor(a: Fold, b: Fold): boolean {
  const [shortA, longA] = sides(a.block);
  const [shortB, longB] = sides(b.block);
  return (
    a.steps.length <= b.steps.length &&
    shortA <= shortB &&
    longA <= longB &&
    a.block.thickness === b.block.thickness &&
    a.block.pressedThickness === b.block.pressedThickness &&
    a.block.thicknessSd <= b.block.thicknessSd &&
    a.block.soft === b.block.soft &&
    a.block.mayPress === b.block.mayPress
  );
}

/**
 * The folds that could be part of a cheapest plan, in the order given. Of two that can stand for each other the first
 * (preferred) stays.
 */
export function worthwhileFolds(folds: readonly Fold[]): readonly Fold[] {
  return folds.filter(
    (fold, index) => !folds.some((other, at) => standsFor(other, fold) && (at < index || !standsFor(fold, other))),
  );
}
