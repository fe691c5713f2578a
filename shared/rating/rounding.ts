import type { Length } from '#shared/units/length.ts';

/** How a card rounds a side before it reckons: to a multiple of `step`. `nearest` takes a half up. */
export interface SideRounding {
  readonly mode: 'down' | 'nearest' | 'up';
  readonly step: Length;
}

/** The rounded side as a count of steps: an exact integer. */
export function stepsOf(side: Length, rounding: SideRounding): number {
  const { step, mode } = rounding;
  const rest = side % step;
  const whole = (side - rest) / step;
  if (mode === 'down' || rest === 0) return whole;
  return mode === 'up' || rest * 2 >= step ? whole + 1 : whole;
}

/** The rounded side. */
export function roundSide(side: Length, rounding: SideRounding): Length {
  return (stepsOf(side, rounding) * rounding.step) as Length;
}

/** The least multiple of `step` that is not below `numerator / denominator`, counted in steps; all integers. */
export function ceilingDivide(numerator: bigint, denominator: bigint): bigint {
  return (numerator + denominator - 1n) / denominator;
}
