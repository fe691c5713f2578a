import { ZERO_MASS, type Mass } from '#shared/units/mass.ts';
import type { Reading } from '#shared/weighing/types.ts';

/** How far the zero has moved, seen whenever the pan is empty and still. */
export interface ZeroDrift {
  /** what an empty pan shows; 0 until one was seen */
  readonly drift: Mass;
  /** when it was seen last; null before the first */
  readonly seenAt: number | null;
}

export const NO_DRIFT: ZeroDrift = { drift: ZERO_MASS, seenAt: null };

/** Takes the reading of a pan that was found empty and still. */
export function seenEmpty(reading: Reading): ZeroDrift {
  return { drift: reading.mass, seenAt: reading.at };
}

/**
 * True when the scale should be zeroed before the next weighing: its empty pan shows a division or more. Less than a
 * division cannot be seen on the display and is part of its resolution.
 */
export function needsZeroing({ drift }: ZeroDrift, division: Mass): boolean {
  return Math.abs(drift) >= division;
}
