import type { Kind, MassModel, Wardrobe } from './types.ts';
import { GarmentError } from './garment-error.ts';

/**
 * What is believed of a kind's mass: a normal distribution with unknown mean and variance, under its conjugate prior
 * (normal and scaled inverse chi-squared). `meanWeight` and `varianceWeight` count observations, the prior's included.
 */
export interface MassBelief {
  readonly mean: number;
  readonly meanWeight: number;
  readonly variance: number;
  readonly varianceWeight: number;
  /** weighings learned from, without the prior */
  readonly count: number;
}

/** How many weighings the kind's own model is worth; a shop overrules it after a dozen pieces. */
const PRIOR_MEAN_WEIGHT = 4;
const PRIOR_VARIANCE_WEIGHT = 6;

/** A weighing this many predicted standard deviations away is shown and not learned by itself. */
const OUTLIER_DEVIATIONS = 4;

/** Before any weighing. */
export function priorBelief(model: MassModel): MassBelief {
  return {
    mean: model.mean,
    meanWeight: PRIOR_MEAN_WEIGHT,
    variance: model.sd * model.sd,
    varianceWeight: PRIOR_VARIANCE_WEIGHT,
    count: 0,
  };
}

/**
 * The belief after one more weighing in g, of a piece brought to the kind's default size and cloth.
 *
 * With kappa, nu the weights: mean' = (kappa mean + x) / (kappa + 1) and
 * nu' variance' = nu variance + kappa / (kappa + 1) (x - mean)^2; one by one this is the batch update of
 * P. D. Hoff, "A First Course in Bayesian Statistical Methods" (2009), section 5.3.
 * @throws GarmentError bad-mass when the weighing is not above 0
 */
export function learn(belief: MassBelief, grams: number): MassBelief {
  if (!(grams > 0) || !Number.isFinite(grams)) {
    throw new GarmentError('bad-mass', `learning: expected a mass above 0 g, found ${grams} g`);
  }
  const { mean, meanWeight, variance, varianceWeight } = belief;
  const away = grams - mean;
  return {
    mean: (meanWeight * mean + grams) / (meanWeight + 1),
    meanWeight: meanWeight + 1,
    variance: (varianceWeight * variance + (meanWeight / (meanWeight + 1)) * away * away) / (varianceWeight + 1),
    varianceWeight: varianceWeight + 1,
    count: belief.count + 1,
  };
}

/**
 * What the next piece of the kind is expected to weigh: the posterior predictive, a Student t with `varianceWeight`
 * degrees of freedom, as its mean and standard deviation in g.
 */
export function predictedMass(belief: MassBelief): MassModel {
  const { mean, meanWeight, variance, varianceWeight } = belief;
  const scale = variance * (1 + 1 / meanWeight);
  return { mean, sd: Math.sqrt((scale * varianceWeight) / (varianceWeight - 2)) };
}

/** How many predicted standard deviations a weighing lies away; beyond {@link OUTLIER_DEVIATIONS} it is an outlier. */
function deviations(belief: MassBelief, grams: number): number {
  const { mean, sd } = predictedMass(belief);
  return (grams - mean) / sd;
}

export type Lesson =
  | { readonly learned: true; readonly belief: MassBelief; readonly deviations: number }
  /** left as it was: somebody should look at this weighing */
  | { readonly learned: false; readonly belief: MassBelief; readonly deviations: number };

/**
 * Learns from a weighing unless it is an outlier, and says which.
 * @throws GarmentError bad-mass
 */
export function consider(belief: MassBelief, grams: number): Lesson {
  const updated = learn(belief, grams);
  const away = deviations(belief, grams);
  const learned = Math.abs(away) <= OUTLIER_DEVIATIONS;
  return { learned, belief: learned ? updated : belief, deviations: away };
}

/**
 * The mass in g of the one piece of a parcel that was not weighed at intake: what is left of the pieces' total after
 * those that were. Null where none or more than one is unknown: then nothing clean can be learned.
 */
export function singleUnknown(totalGrams: number, intake: readonly (number | null)[]): number | null {
  let left = totalGrams;
  let unknown = 0;
  for (const grams of intake) {
    if (grams === null) unknown += 1;
    else left -= grams;
  }
  return unknown === 1 && left > 0 ? left : null;
}

/** The wardrobe with the kinds' masses as they were learned; kinds without a belief keep their own. */
export function withLearned(wardrobe: Wardrobe, beliefs: ReadonlyMap<string, MassBelief>): Wardrobe {
  const kinds = new Map<string, Kind>();
  for (const [id, kind] of wardrobe.kinds) {
    const belief = beliefs.get(id);
    kinds.set(id, belief === undefined || belief.count === 0 ? kind : { ...kind, mass: predictedMass(belief) });
  }
  return { ...wardrobe, kinds };
}
