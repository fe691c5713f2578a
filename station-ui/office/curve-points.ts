import type { PriceCurve } from '#shared/wire/rates.ts';

/** A price over mass as the points of a line that holds each price up to and including its ceiling. */
export interface CurvePoints {
  readonly masses: readonly number[];
  /** in whole units of the currency */
  readonly prices: readonly number[];
  /** where the price changes, and the last mass that is taken */
  readonly ceilings: readonly number[];
}

/** @param most nothing above this mass is drawn */
export function curvePoints({ steps }: PriceCurve, most: number): CurvePoints {
  const shown = steps.filter((_, index) => index === 0 || (steps[index - 1]?.upTo ?? 0) < most);
  const [first] = shown;
  if (first === undefined) return { masses: [], prices: [], ceilings: [] };
  return {
    masses: [0, ...shown.map(({ upTo }) => Math.min(upTo, most))],
    prices: [first.minor / 100, ...shown.map(({ minor }) => minor / 100)],
    ceilings: shown.map(({ upTo }) => upTo).filter((upTo) => upTo <= most),
  };
}

/** The ceiling up to which a chart is worth drawing for a mass: a few brackets beyond it, or the last. */
export function nearCeiling({ steps }: PriceCurve, mass: number): number {
  const ceilings = steps.map(({ upTo }) => upTo);
  return ceilings.find((upTo) => upTo >= mass * 2) ?? ceilings.at(-1) ?? mass;
}
