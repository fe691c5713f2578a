import type { FoldedBlock } from '#shared/folding/types.ts';
import { FitError } from './fit-error.ts';
import type { Wrap } from './types.ts';

/** One standard deviation, in mm, of the sides of a piece folded by hand on a table; common practice, no source. */
export const FOLD_SPREAD = 4;

/** Folded pieces on each other, long sides along each other; float mm. */
export interface Stack {
  readonly short: number;
  readonly long: number;
  readonly resting: number;
  readonly pressed: number;
  /** variance, mm2, of the thickness that decides: pressed where pressing is allowed */
  readonly variance: number;
  /** standard deviation of the sides */
  readonly sideSd: number;
  /** no corners: the sides round off in a pouch */
  readonly soft: boolean;
  readonly mayPress: boolean;
}

/**
 * The stack of some blocks, each in its wrap.
 * @throws FitError nothing-to-pack or bad-measure
 */
export function stackOf(blocks: readonly FoldedBlock[], wrap: Wrap): Stack {
  let short = 0;
  let long = 0;
  let resting = 0;
  let pressed = 0;
  let restingVariance = 0;
  let pressedVariance = 0;
  let soft = true;
  let anySoft = false;
  let mayPress = true;
  for (const block of blocks) {
    const { width, length, thickness, pressedThickness } = block;
    if (!(width > 0 && length > 0 && thickness > 0 && pressedThickness > 0)) throw badMeasure(block);
    short = Math.max(short, Math.min(width, length));
    long = Math.max(long, width, length);
    resting += thickness + wrap.thickness;
    pressed += pressedThickness + wrap.thickness;
    const sd = block.thicknessSd;
    const pressedSd = (sd * pressedThickness) / thickness;
    restingVariance += sd * sd;
    pressedVariance += pressedSd * pressedSd;
    if (block.soft) {
      anySoft = true;
      if (!block.mayPress) mayPress = false;
    } else {
      soft = false;
    }
  }
  if (blocks.length === 0) throw new FitError('nothing-to-pack', 'fit: expected at least one folded piece, found none');
  const variance = mayPress ? pressedVariance : restingVariance;
  return { short, long, resting, pressed, variance, sideSd: anySoft ? FOLD_SPREAD : 0, soft, mayPress };
}

function badMeasure({ width, length, thickness, pressedThickness }: FoldedBlock): FitError {
  const found = `${width} x ${length} x ${thickness} (pressed ${pressedThickness})`;
  return new FitError('bad-measure', `fit: expected a block with sides above 0 mm, found ${found}`);
}
