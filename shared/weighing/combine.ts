import type { UncertaintyComponent } from './types.ts';
import { massFromBase, massFromGrams, toGrams, type Mass } from '#shared/units/mass.ts';

/** Coverage factor: about 95 % of a normal distribution (JCGM 100:2008, 6.3.3). */
export const COVERAGE_FACTOR = 2;

/**
 * One thing a weighing can be wrong by, as a rectangular distribution: anywhere within the half-width, equally likely.
 * Its standard uncertainty is half-width / sqrt 3 (JCGM 100:2008, 4.3.7).
 */
export function rectangular(name: UncertaintyComponent['name'], halfWidth: Mass, of?: string): UncertaintyComponent {
  const standardGrams = toGrams(halfWidth) / Math.sqrt(3);
  return of === undefined ? { name, halfWidth, standardGrams } : { name, of, halfWidth, standardGrams };
}

/** What the components do to the total when they are independent, and when they all go wrong the same way. */
export interface CombinedUncertainty {
  /** combined standard uncertainty in grams: root sum of squares (JCGM 100:2008, 5.1.2) */
  readonly standardGrams: number;
  /** expanded uncertainty, k = 2 (JCGM 100:2008, 6.2.1) */
  readonly expanded: Mass;
  /** sum of all half-widths: the total cannot be further off than this */
  readonly worstCase: Mass;
}

export function combine(components: readonly UncertaintyComponent[]): CombinedUncertainty {
  const standardGrams = Math.hypot(...components.map((component) => component.standardGrams));
  return {
    standardGrams,
    expanded: massFromGrams(COVERAGE_FACTOR * standardGrams),
    worstCase: massFromBase(components.reduce((sum, component) => sum + component.halfWidth, 0)),
  };
}
