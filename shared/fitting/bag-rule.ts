import { lengthIn, type Length } from '#shared/units/length.ts';
import { flowingVolume } from './pouch.ts';

/** Why a film bag carries a warning about children. */
export interface BagWarning {
  /** `thin-and-wide`, `thin-and-large`: California's rule; `five-inch`: the width of opening that other places go by */
  readonly because: readonly ('thin-and-wide' | 'thin-and-large' | 'five-inch')[];
  /** least size of print, in points */
  readonly points: 10 | 14 | 18 | 24;
}

const THIN_MILS = 1;
const OPENING_SQUARE_INCHES = 25;
const CAPACITY_CUBIC_INCHES = 125;
const FIVE_INCHES = 5;

/**
 * Whether a film bag, lying flat, needs a warning, and how large its print must be; null when it needs none.
 *
 * California Business and Professions Code 22200-22202: film under 0.001 in with an opening over 25 square inches or a
 * capacity over 125 cubic inches; print of 10, 14, 18 or 24 points by length + width below 30, 40, 60 in and from there
 * on. Other places go by an opening of 5 in, whatever the film. Local law decides. The opening is reckoned pulled round,
 * the capacity as the most that could flow in: both err on the side of a warning.
 * @param filmMils thickness of the film in thousandths of an inch
 */
export function bagWarning(width: Length, length: Length, filmMils: number): BagWarning | null {
  const [across, along] = [lengthIn(width, 'in'), lengthIn(length, 'in')];
  const because: ('thin-and-wide' | 'thin-and-large' | 'five-inch')[] = [];
  if (filmMils < THIN_MILS) {
    if ((across * across) / Math.PI > OPENING_SQUARE_INCHES) because.push('thin-and-wide');
    if (flowingVolume(across, along) > CAPACITY_CUBIC_INCHES) because.push('thin-and-large');
  }
  if (across > FIVE_INCHES) because.push('five-inch');
  return because.length === 0 ? null : { because, points: printPoints(across + along) };
}

function printPoints(inches: number): BagWarning['points'] {
  if (inches < 30) return 10;
  if (inches < 40) return 14;
  return inches < 60 ? 18 : 24;
}
