import { massFromGrams, toGrams, type Mass } from '#shared/units/mass.ts';

/** A difference within this is never called a mismatch: about an ounce, less than any piece of clothing but the lightest. */
const FLOOR_GRAMS = 30;
/** How many standard deviations off is no longer these pieces: 1 in 370 of right parcels would be asked about. */
const FAR_SDS = 3;
/** The usual range that a screen shows: about 95 of 100 right parcels lie inside. */
const USUAL_SDS = 2;

/** A finished parcel's mass against what its pieces, container and wrap should weigh. */
export interface MassMatch {
  /** the pieces may be wrong or one is missing or too many */
  readonly mismatch: boolean;
  /** total less expected, in grams */
  readonly offGrams: number;
  /** off in standard deviations; 0 where the expectation has no spread */
  readonly sds: number;
  readonly usual: { readonly low: Mass; readonly high: Mass };
}

/**
 * Whether a parcel weighs far from what these pieces should: more than three standard deviations *and* more than a floor,
 * so that a piece weighed at intake (hardly any spread) is not questioned for a thread's difference.
 *
 * @param total reading and additions
 * @param expected the plan's finished mass in grams
 */
export function matchMass(total: Mass, expected: { readonly mean: number; readonly sd: number }): MassMatch {
  const offGrams = toGrams(total) - expected.mean;
  const far = Math.max(FAR_SDS * expected.sd, FLOOR_GRAMS);
  const usual = Math.max(USUAL_SDS * expected.sd, (FLOOR_GRAMS * USUAL_SDS) / FAR_SDS);
  return {
    mismatch: Math.abs(offGrams) > far,
    offGrams,
    sds: expected.sd > 0 ? offGrams / expected.sd : 0,
    usual: {
      low: massFromGrams(Math.max(0, expected.mean - usual)),
      high: massFromGrams(expected.mean + usual),
    },
  };
}
