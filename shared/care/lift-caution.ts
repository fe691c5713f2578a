import { postureLimit, type LiftPosture } from './lifting.ts';
import { massFromGrams, type Mass } from '#shared/units/mass.ts';

/** A parcel that is heavy to lift, beside what one person should lift at most in the shop's posture. */
export interface LiftCaution {
  readonly mass: Mass;
  readonly limit: Mass;
  /** more than one person should lift */
  readonly tooMuch: boolean;
}

/** From half the recommended limit on, care is said: common practice, no source. */
const CARE_FROM = 0.5;

/** What to be careful about when a parcel of so many grams is lifted; null for one that is not heavy. */
export function liftCaution(grams: number, posture: LiftPosture): LiftCaution | null {
  const limit = postureLimit(posture) * 1000;
  if (grams < limit * CARE_FROM) return null;
  return { mass: massFromGrams(grams), limit: massFromGrams(limit), tooMuch: grams > limit };
}
