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
 * @param collections how many waiting orders leave with each, by its time in epoch ms
 * @param inHand orders at benches
 */
export function atRisk(
  collections: ReadonlyMap<number, number>,
  inHand: number,
  { benches, pace, now }: { readonly benches: number; readonly pace: Pace; readonly now: number },
): AtRisk {
  const counted = { atRisk: 0, missed: 0 };
  let before = inHand;
  for (const [collection, orders] of [...collections].sort(([a], [b]) => a - b)) {
    const left = (collection - now) / 1000;
    const isSafe = (place: number) => riskOf(chanceInTime(before + place, benches, pace, left), left) === 'safe';
    if (left <= 0) counted.missed += orders;
    else counted.atRisk += orders - safeOnes(orders, isSafe);
    before += orders;
  }
  return counted;
}

/** Of so many orders that leave together the first ones are safe: one that is packed later is not safer. */
function safeOnes(orders: number, isSafe: (place: number) => boolean): number {
  let [safe, unsafe] = [0, orders + 1];
  while (unsafe - safe > 1) {
    const middle = (safe + unsafe) >> 1;
    if (isSafe(middle)) safe = middle;
    else unsafe = middle;
  }
  return safe;
}
