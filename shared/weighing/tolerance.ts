import type { Accuracy } from './types.ts';
import { massFromBase, type Mass } from '#shared/units/mass.ts';

/** Up to and including `upTo` divisions (the last row: however many), wrong by `halves` half divisions when new. */
interface ToleranceRow {
  readonly upTo: bigint | null;
  readonly halves: bigint;
}

/** NIST Handbook 44, 2.20 Table 6 and T.N.3.2, class III: acceptance tolerance; maintenance tolerance is twice it. */
const HB44_ACCEPTANCE: readonly ToleranceRow[] = [
  { upTo: 500n, halves: 1n },
  { upTo: 2000n, halves: 2n },
  { upTo: 4000n, halves: 3n },
  { upTo: null, halves: 5n },
];

/** OIML R 76-1 Table 6, class III: errors at verification; those in service are twice them. The class ends at 10,000 e. */
const R76_VERIFICATION: readonly ToleranceRow[] = [
  { upTo: 500n, halves: 1n },
  { upTo: 2000n, halves: 2n },
  { upTo: null, halves: 3n },
];

/**
 * What a scale may be wrong by at a load: the half-width of its tolerance band.
 *
 * Counted in whole divisions on exact integers, because 5.01 / 0.01 is 500.99999999999994 in binary fractions and the
 * tables step at 500. Half a division that is no whole number of base units is rounded up.
 *
 * @param load what lies on the scale; a negative one counts by its size
 * @param division the scale's division, d or e
 */
export function toleranceOf(accuracy: Accuracy, load: Mass, division: Mass): Mass {
  if (accuracy.kind === 'own') return accuracy.plusMinus;
  const loadCount = BigInt(Math.abs(load));
  const divisionCount = BigInt(division);
  const rows = accuracy.kind === 'hb44' ? HB44_ACCEPTANCE : R76_VERIFICATION;
  const row = rows.find(({ upTo }) => upTo === null || loadCount <= upTo * divisionCount);
  const whenNew = (row?.halves ?? 0n) * divisionCount;
  return massFromBase(Number(accuracy.when === 'in-service' ? whenNew : (whenNew + 1n) / 2n));
}

/** Handbook 44, 2.20 Table 8: a class III scale should not weigh loads below 20 divisions. */
export function isBelowRecommendedLoad(load: Mass, division: Mass): boolean {
  return BigInt(Math.abs(load)) < 20n * BigInt(division);
}
