import type { Measures } from './measures.ts';
import type { CubicBoxRule, CubicSoftRule } from './rate-card.ts';
import { stepsOf } from './rounding.ts';
import { cubesWithin } from './volume.ts';

/** A tier ceiling counted in steps (soft packs) or cubed steps (boxes), which is what sides are counted in. */
export function tierCounts(rule: CubicBoxRule | CubicSoftRule): readonly bigint[] {
  return rule.rule === 'cubic-box'
    ? rule.tiers.map((tier) => cubesWithin(tier.upTo, rule.sides.step))
    : rule.tiers.map((tier) => BigInt(Math.floor(tier.upTo / rule.sides.step)));
}

/** The parcel's size in the same count: the product of its rounded sides, or rounded length + width. */
export function cubicCount(rule: CubicBoxRule | CubicSoftRule, measures: Measures): number | bigint {
  const { sides } = rule;
  if (rule.rule === 'cubic-soft') return stepsOf(measures.flatLength, sides) + stepsOf(measures.flatWidth, sides);
  const a = stepsOf(measures.longest, sides);
  const b = stepsOf(measures.middle, sides);
  const c = stepsOf(measures.shortest, sides);
  const product = a * b * c;
  return Number.isSafeInteger(product) ? product : BigInt(a) * BigInt(b) * BigInt(c);
}

/** Index of the smallest tier that holds the parcel, or -1 when none does. */
export function tierOf(counts: readonly (number | bigint)[], count: number | bigint): number {
  for (let index = 0; index < counts.length; index++) {
    if (count <= (counts[index] ?? 0)) return index;
  }
  return -1;
}
