import { normalBelow } from '#shared/weighing/normal.ts';
import type { Kind, Wardrobe } from './types.ts';

/**
 * How much thicker folded pieces of a kind are than the sums say: a factor, believed to be normally distributed. Nobody
 * measures it; what is seen is whether a container closed.
 */
export interface FactorBelief {
  readonly mean: number;
  readonly sd: number;
  /** parcels with this kind that closed, and containers that were found too tight */
  readonly closed: number;
  readonly tooTight: number;
}

/** Before anything was packed: the sums are right to about a seventh (a guess; cloth tables of one name differ by as much). */
export const FACTOR_PRIOR: FactorBelief = { mean: 1, sd: 0.15, closed: 0, tooTight: 0 };

/** Something that was given a smaller chance than this is shown and not learned by itself. */
const SURPRISE_BELOW = 0.001;

/**
 * One container with these pieces, closed or too tight. It closes with probability Phi(intercept - sum of slope x factor):
 * how many standard deviations there are to spare, as a straight line in the kinds' factors.
 */
export interface ClosingEvidence {
  readonly closed: boolean;
  readonly intercept: number;
  /** by kind; above 0 where a thicker piece makes closing harder */
  readonly slopes: ReadonlyMap<string, number>;
}

export interface ClosingLesson {
  /** false: so unlikely that somebody should look; the beliefs are as they were */
  readonly learned: boolean;
  /** the chance that was given to what happened */
  readonly chance: number;
  /** by kind; of the kinds with a slope above 0 */
  readonly beliefs: ReadonlyMap<string, FactorBelief>;
}

/** The normal density. */
function density(z: number): number {
  return Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);
}

/**
 * What is believed of the kinds' factors once a container closed or was too tight.
 *
 * A normal belief times a cumulative normal likelihood is no normal distribution, but its mean and variance are known in
 * closed form, and the belief becomes the normal distribution with these: C. E. Rasmussen and C. K. I. Williams,
 * "Gaussian Processes for Machine Learning" (2006), equations 3.82 to 3.87.
 */
export function learnClosing(before: ReadonlyMap<string, FactorBelief>, evidence: ClosingEvidence): ClosingLesson {
  const sign = evidence.closed ? 1 : -1;
  const kinds = [...evidence.slopes].filter(([, slope]) => slope > 0);
  let margin = evidence.intercept;
  let variance = 1;
  for (const [kind, slope] of kinds) {
    const { mean, sd } = before.get(kind) ?? FACTOR_PRIOR;
    margin -= slope * mean;
    variance += (slope * sd) ** 2;
  }
  const spread = Math.sqrt(variance);
  const z = (sign * margin) / spread;
  const chance = normalBelow(z);
  const learned = chance >= SURPRISE_BELOW;
  const ratio = density(z) / chance;
  const after = kinds.map(([kind, slope]): [string, FactorBelief] => {
    const belief = before.get(kind) ?? FACTOR_PRIOR;
    if (!learned) return [kind, belief];
    const pull = (belief.sd ** 2 * slope) / spread;
    return [
      kind,
      {
        mean: belief.mean - sign * pull * ratio,
        sd: Math.sqrt(belief.sd ** 2 - pull ** 2 * ratio * (z + ratio)),
        closed: belief.closed + (evidence.closed ? 1 : 0),
        tooTight: belief.tooTight + (evidence.closed ? 0 : 1),
      },
    ];
  });
  return { learned, chance, beliefs: new Map(after) };
}

/** The wardrobe with the kinds' thickness as it was learned; kinds without a belief keep the sums as they are. */
export function withFactors(wardrobe: Wardrobe, beliefs: ReadonlyMap<string, FactorBelief>): Wardrobe {
  const kinds = new Map<string, Kind>();
  for (const [id, kind] of wardrobe.kinds) {
    const belief = beliefs.get(id);
    const known = belief !== undefined && belief.closed + belief.tooTight > 0;
    kinds.set(id, known ? { ...kind, thicknessFactor: { mean: belief.mean, sd: belief.sd } } : kind);
  }
  return { ...wardrobe, kinds };
}
