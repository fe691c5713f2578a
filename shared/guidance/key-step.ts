import type { Fold } from '#shared/folding/types.ts';

/**
 * The step that gives a fold its final footprint, which is what a practised packer needs to see of it: index of the last
 * step that makes it smaller; the last step of a fold that never gets smaller. -1 for a fold without steps.
 */
export function keyStep(fold: Pick<Fold, 'steps'>): number {
  const areas = fold.steps.map(({ drawing }) => drawing.endsAs.width * drawing.endsAs.length);
  const key = areas.findLastIndex((area, index) => area < (areas[index - 1] ?? area));
  return key === -1 ? fold.steps.length - 1 : key;
}
