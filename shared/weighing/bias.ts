import { massFromBase, massFromGrams, toGrams, ZERO_MASS, type Mass } from '#shared/units/mass.ts';
import { COVERAGE_FACTOR } from './combine.ts';

/** One parcel that the carrier weighed again. */
export interface Correction {
  /** what this station took the finished parcel to weigh */
  readonly ours: Mass;
  /** what the carrier found */
  readonly carriers: Mass;
}

/** What the carrier has been finding, as mean and spread of its mass less ours. */
export interface LearnedBias {
  readonly parcels: number;
  /** mean deviation: positive where the carrier finds more */
  readonly mean: Mass;
  /** standard deviation of single deviations in grams, n - 1 in the denominator (JCGM 100:2008, 4.2.2) */
  readonly sdGrams: number;
  /** standard uncertainty of the mean in grams, s / sqrt n (JCGM 100:2008, 4.2.3) */
  readonly standardGrams: number;
}

/** Fewer corrections than this say more of their parcels than of the scale (common practice, no source). */
export const LEAST_CORRECTIONS = 8;

/** Mean deviation of the carrier's masses from ours; null without any. With one alone the spread is not known: infinite. */
export function learnBias(corrections: readonly Correction[]): LearnedBias | null {
  const parcels = corrections.length;
  if (parcels === 0) return null;
  const deviations = corrections.map(({ ours, carriers }) => toGrams(massFromBase(carriers - ours)));
  const mean = deviations.reduce((sum, each) => sum + each, 0) / parcels;
  const squares = deviations.reduce((sum, each) => sum + (each - mean) ** 2, 0);
  const sdGrams = parcels === 1 ? Number.POSITIVE_INFINITY : Math.sqrt(squares / (parcels - 1));
  return { parcels, mean: massFromGrams(mean), sdGrams, standardGrams: sdGrams / Math.sqrt(parcels) };
}

/** How a learned bias counts in a verdict. */
export interface BiasShare {
  /** added to the total */
  readonly shift: Mass;
  readonly standardGrams: number;
  /** expanded uncertainty of the mean, k = 2 */
  readonly expanded: Mass;
}

/**
 * The share of a learned bias in a verdict; null while there are too few corrections. A carrier that finds more shifts
 * the total up. One that finds less shifts nothing, because the station never advises paying less than a parcel may owe.
 */
export function biasShare(bias: LearnedBias | null): BiasShare | null {
  if (bias === null || bias.parcels < LEAST_CORRECTIONS) return null;
  const { mean, standardGrams } = bias;
  return {
    shift: mean > 0 ? mean : ZERO_MASS,
    standardGrams,
    expanded: massFromGrams(COVERAGE_FACTOR * standardGrams),
  };
}
