import type { Collections } from './collections.ts';
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
 * @param collections of the waiting orders
 * @param inHand orders at benches
 */
export function atRisk(
  collections: Pick<Collections, 'inTurn'>,
  inHand: number,
  { benches, pace, now }: { readonly benches: number; readonly pace: Pace; readonly now: number },
): AtRisk {
  const counted = { atRisk: 0, missed: 0 };
  let before = inHand;
  const isSafe = (place: number, at: number) => {
    const left = (at - now) / 1000;
    return riskOf(chanceInTime(place, benches, pace, left), left) === 'safe';
  };
  for (const block of collections.inTurn()) {
    const allSafe = isSafe(before + block.orders, block.from);
    // The last one is safe where it would leave first: then so is each. And none where the first is not that would leave last.
    if (block.until <= now) counted.missed += block.orders;
    else if (block.from > now && (allSafe || !isSafe(before + 1, block.until))) {
      if (!allSafe) counted.atRisk += block.orders;
    } else {
      let ahead = before;
      for (const [at, orders] of [...block.collections].sort(([a], [b]) => a - b)) {
        if (at <= now) counted.missed += orders;
        else counted.atRisk += orders - safeOnes(orders, (place) => isSafe(ahead + place, at));
        ahead += orders;
      }
    }
    before += block.orders;
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
