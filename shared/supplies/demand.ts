import type { Demand } from './types.ts';

/** The owner's guess counts like so many days that were seen. */
const GUESS_DAYS = 7;

/**
 * What a day takes: the owner's guess at first, more and more what the days have shown.
 *
 * The mean is that of the seen days with the guess as {@link GUESS_DAYS} more. The spread is that of the seen days, but never
 * less than that of parcels that come at random, each taking `lump` (variance of a compound Poisson count: mean x lump): a
 * few quiet days must not make the shelf look safe.
 * @param days what each day took, those without a parcel as 0
 * @param lump what one parcel takes, in the supply's unit
 */
export function dailyDemand(days: readonly number[], guess: number, lump: number): Demand {
  const sum = days.reduce((total, day) => total + day, 0);
  const mean = (sum + guess * GUESS_DAYS) / (days.length + GUESS_DAYS);
  return { mean, sd: Math.sqrt(Math.max(varianceOf(days, sum / days.length), mean * lump)) };
}

/** Of a sample; none where there are not two. */
function varianceOf(days: readonly number[], mean: number): number {
  return days.length < 2 ? 0 : days.reduce((total, day) => total + (day - mean) ** 2, 0) / (days.length - 1);
}
