import { probabilityAbove } from '#shared/weighing/normal.ts';
import type { PriceSteps } from '#shared/rating/types.ts';
import { toGrams } from '#shared/units/mass.ts';

/** A mass as a normal distribution, in grams. */
export interface MassEstimate {
  readonly mean: number;
  readonly sd: number;
}

/** A part of a distribution smaller than this changes no price by a millionth of a cent. */
const NEGLIGIBLE = 1e-12;
/** Beyond so many standard deviations only such a part is left. */
const FAR = 7.1;

/** The steps of a price as bare numbers, in grams and minor units, kept while the steps live. */
interface Brackets {
  readonly ceilings: Float64Array;
  readonly prices: Float64Array;
}

const known = new WeakMap<PriceSteps['steps'], Brackets>();

function bracketsOf({ steps }: PriceSteps): Brackets {
  let brackets = known.get(steps);
  if (brackets === undefined) {
    brackets = {
      ceilings: Float64Array.from(steps, ({ ceiling }) => toGrams(ceiling)),
      prices: Float64Array.from(steps, ({ price }) => price.minor),
    };
    known.set(steps, brackets);
  }
  return brackets;
}

/** The smallest mass that a service takes, in grams. */
const leastOf = ({ least }: PriceSteps): number => (least === undefined ? -Infinity : toGrams(least));

/** The first ceiling that is not below a mass in grams. */
function firstFrom(ceilings: Float64Array, grams: number): number {
  let low = 0;
  let high = ceilings.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if ((ceilings[middle] ?? 0) < grams) low = middle + 1;
    else high = middle;
  }
  return low;
}

/**
 * The expected price of the masses above `floor` and up to `top`, when every such parcel goes by whichever service is
 * cheapest for it. What no service carries costs `stranded`.
 */
function cheapestBetween(
  floor: number,
  top: number,
  mass: MassEstimate,
  services: readonly PriceSteps[],
  stranded: number,
): number {
  let expected = 0;
  let from = floor;
  let above = probabilityAbove(from, mass.mean, mass.sd);
  while (above >= NEGLIGIBLE) {
    if (from >= top) return expected;
    // Up to the nearest ceiling of any service, each has one price.
    let edge = top;
    let price = Infinity;
    for (const service of services) {
      const { ceilings, prices } = bracketsOf(service);
      const least = leastOf(service);
      if (from < least) {
        edge = Math.min(edge, least);
        continue;
      }
      let step = firstFrom(ceilings, from);
      if (ceilings[step] === from) step++;
      edge = Math.min(edge, ceilings[step] ?? Infinity);
      price = Math.min(price, prices[step] ?? Infinity);
    }
    if (edge === Infinity) return expected + Math.min(price, stranded) * above;
    const stillAbove = probabilityAbove(edge, mass.mean, mass.sd);
    expected += (price === Infinity ? stranded : price) * (above - stillAbove);
    above = stillAbove;
    from = edge;
  }
  return expected;
}

/**
 * What a service's postage is expected to cost, in minor units, when the parcel's mass is known only as a distribution:
 * each price weighted by the chance that the mass falls in its bracket.
 *
 * A parcel that turns out heavier or lighter than the service takes goes, in the same container, by whichever service is then
 * cheapest; one that none takes has to be packed anew.
 *
 * @param others every service that takes the same container at this size, the first one included
 * @param repack minor units that packing anew costs, on top of the dearest price of the service
 * @returns null when the service does not take the mean mass
 */
export function expectedPostage(
  service: PriceSteps,
  mass: MassEstimate,
  others: readonly PriceSteps[],
  repack: number,
): number | null {
  const { ceilings, prices } = bracketsOf(service);
  const least = leastOf(service);
  const last = ceilings.length - 1;
  const heaviest = ceilings[last] ?? -Infinity;
  if (heaviest < mass.mean || mass.mean < least) return null;
  let expected = 0;
  let above = 1;
  if (least > -Infinity) {
    expected = cheapestBetween(0, least, mass, others, (prices[0] ?? 0) + repack);
    above = probabilityAbove(least, mass.mean, mass.sd);
  }
  for (let step = firstFrom(ceilings, mass.mean - FAR * mass.sd); step <= last; step++) {
    const stillAbove = probabilityAbove(ceilings[step] ?? 0, mass.mean, mass.sd);
    expected += (prices[step] ?? 0) * (above - stillAbove);
    above = stillAbove;
    if (above < NEGLIGIBLE) return expected;
  }
  return expected + cheapestBetween(heaviest, Infinity, mass, others, (prices[last] ?? 0) + repack);
}
