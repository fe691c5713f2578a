import { lengthFromDecimal } from '#shared/units/length.ts';
import { RatingError } from './rating-error.ts';

export const VOLUME_UNITS = ['ft3', 'in3', 'cm3', 'l'] as const;
export type VolumeUnit = (typeof VOLUME_UNITS)[number];

/** A volume as a card writes it, such as 0.10 ft3: decimal text, so that nothing is lost. */
export interface Volume {
  readonly amount: string;
  readonly unit: VolumeUnit;
}

const cube = (side: bigint): bigint => side * side * side;
const INCH = BigInt(lengthFromDecimal('1', 'in'));
const CENTIMETRE = BigInt(lengthFromDecimal('1', 'cm'));
const PER_UNIT: Readonly<Record<VolumeUnit, bigint>> = {
  ft3: cube(INCH * 12n),
  in3: cube(INCH),
  cm3: cube(CENTIMETRE),
  l: cube(CENTIMETRE * 10n),
};

const VOLUME = /^(\d*)(?:\.(\d*))?\s*(ft3|in3|cm3|l)$/i;

/**
 * Text such as "0.10 ft3", "1728 in3" or "5 l".
 * @throws RatingError bad-volume
 */
export function parseVolume(text: string): Volume {
  const [, whole = '', fraction = '', word = ''] = VOLUME.exec(text.trim()) ?? [];
  const unit = VOLUME_UNITS.find((known) => known === word.toLowerCase());
  // Of no digits at all BigInt makes zero as well.
  if (unit === undefined || BigInt(whole + fraction) === 0n) {
    throw new RatingError(
      'bad-volume',
      `volume: expected an amount such as 0.10 ft3, 1728 in3 or 5 l, found "${text}"`,
    );
  }
  return { amount: text.trim().slice(0, -unit.length).trim(), unit };
}

/** The volume as an exact fraction of cubed base lengths. */
function asFraction(volume: Volume): { readonly top: bigint; readonly bottom: bigint } {
  const [whole = '', fraction = ''] = volume.amount.split('.');
  return { top: BigInt(whole + fraction) * PER_UNIT[volume.unit], bottom: 10n ** BigInt(fraction.length) };
}

/** The most cubes of side `step` that do not exceed the volume, exactly. */
export function cubesWithin(volume: Volume, step: number): bigint {
  const { top, bottom } = asFraction(volume);
  return top / (bottom * cube(BigInt(step)));
}

/** Negative, zero or positive as the first is smaller, equal or larger. */
export function compareVolumes(a: Volume, b: Volume): number {
  const left = asFraction(a);
  const right = asFraction(b);
  const difference = left.top * right.bottom - right.top * left.bottom;
  return difference < 0n ? -1 : difference > 0n ? 1 : 0;
}

/** "0.10 ft3" */
export function formatVolume(volume: Volume): string {
  return `${volume.amount} ${volume.unit}`;
}
