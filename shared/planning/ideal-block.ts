import { sides } from './worthwhile-folds.ts';
import type { Fold, FoldedBlock } from '#shared/folding/types.ts';

/**
 * A block that no fold of the piece betters in any measure: it takes the best of each, and its thickness is known without
 * doubt. Where it does not fit, no fold of the piece does, which lets the search drop whole branches.
 */
export function idealBlock(folds: readonly Fold[]): FoldedBlock {
  const blocks = folds.map((fold) => fold.block);
  const least = (measure: (block: FoldedBlock) => number) => Math.min(...blocks.map(measure));
  return {
    width: least((block) => sides(block)[0]),
    length: least((block) => sides(block)[1]),
    thickness: least((block) => block.thickness),
    pressedThickness: least((block) => block.pressedThickness),
    thicknessSd: 0,
    layers: least((block) => block.layers),
    soft: blocks.some((block) => block.soft),
    mayPress: blocks.some((block) => block.mayPress),
  };
}
