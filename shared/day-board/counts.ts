import type { Pace } from './pace.ts';
import { chanceInTime, riskOf } from './risk.ts';

/** How many of the waiting orders will hardly, or surely not, leave with their collection. */
export interface AtRisk {
  /** perhaps or probably not packed in time */
  readonly atRisk: number;
  /** their collection has gone */
  readonly missed: number;
}

/**
 * Counts what is at risk, packed in the order of the collections after what is in hand.
 * @param collections of every waiting order, epoch ms
 * @param inHand orders at benches
 */
export function atRisk(
  collections: readonly number[],
  inHand: number,
  { benches, pace, now }: { readonly benches: number; readonly pace: Pace; readonly now: number },
): AtRisk {
  const counted = { atRisk: 0, missed: 0 };
  [...collections]
    .sort((a, b) => a - b)
    .forEach((collection, index) => {
      const left = (collection - now) / 1000;
      const risk = riskOf(chanceInTime(inHand + index + 1, benches, pace, left), left);
      if (risk === 'missed') counted.missed += 1;
      else if (risk !== 'safe') counted.atRisk += 1;
    });
  return counted;
}
