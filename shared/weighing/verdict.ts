import type { BiasShare } from './bias.ts';
import { combine, rectangular } from './combine.ts';
import { probabilityAbove } from './normal.ts';
import { toleranceOf } from './tolerance.ts';
import type { Accuracy, Addition, Reading, UncertaintyComponent, Verdict } from './types.ts';
import { addMass, massFromBase, subtractMass, toGrams, ZERO_MASS, type Mass } from '#shared/units/mass.ts';

/** A weighing against a bracket. */
export interface Weighed {
  readonly reading: Pick<Reading, 'mass' | 'division'>;
  /** put on after the weighing */
  readonly additions: readonly Addition[];
  readonly accuracy: Accuracy;
  /** how much the zero may have moved since the last zeroing, half-width */
  readonly drift: Mass;
  /** how far the scale was off at its last trial with a known mass, either way, and what that mass is uncertain by */
  readonly reference?: Mass;
  /** what the carrier's later corrections have taught */
  readonly learned?: BiasShare | null;
  /** the highest mass that the planned price still covers */
  readonly ceiling: Mass;
}

function componentsOf({
  reading,
  additions,
  accuracy,
  drift,
  reference = ZERO_MASS,
  learned = null,
}: Omit<Weighed, 'ceiling'>): UncertaintyComponent[] {
  // A display shows the nearest division: half a division either way, an odd base unit rounded up.
  const resolution = rectangular('resolution', massFromBase(Math.ceil(reading.division / 2)));
  const tolerance = rectangular('tolerance', toleranceOf(accuracy, reading.mass, reading.division));
  return [
    resolution,
    tolerance,
    rectangular('drift', drift),
    // A known deviation that is not taken off the reading counts whole as uncertainty (JCGM 100:2008, F.2.4.5).
    rectangular('reference', reference),
    ...additions.map((addition) => rectangular('addition', addition.plusMinus, addition.name)),
    ...(learned === null
      ? []
      : [{ name: 'learned', halfWidth: learned.expanded, standardGrams: learned.standardGrams } as const]),
  ].filter((component) => component.halfWidth > 0);
}

/** The words for where a total lies: see {@link judge}. */
function compare(total: Mass, expanded: Mass, ceiling: Mass): Verdict['verdict'] {
  if (total > ceiling) return 'over';
  return total + expanded > ceiling ? 'close' : 'clear';
}

/**
 * A weighing against the ceiling of the bracket that was planned.
 *
 * - `over`: the total (reading, additions and what the carrier has been finding on top), the best estimate there is, exceeds the ceiling. It is over even where the
 *   margin of error reaches back below the ceiling, because a total above it is more likely over than not, and the
 *   station never advises paying less than the parcel probably owes.
 * - `close`: the total does not exceed the ceiling but could: the ceiling lies within the expanded uncertainty (k = 2).
 * - `clear`: the total and its margin of error lie at or below the ceiling. A mass on the ceiling belongs to the bracket,
 *   so with no uncertainty at all a total on it is clear.
 *
 * @returns exact masses; `probabilityOver` is that of a normal distribution with the combined standard uncertainty,
 *   which a sum of rectangular parts approaches and, in its tails, stays below
 */
export function judge(weighed: Weighed): Verdict {
  const learned = weighed.learned?.shift ?? ZERO_MASS;
  const total = addMass(weighed.reading.mass, ...weighed.additions.map((addition) => addition.mass), learned);
  const components = componentsOf(weighed);
  const { standardGrams, expanded, worstCase } = combine(components);
  const margin = subtractMass(weighed.ceiling, total);
  return {
    verdict: compare(total, expanded, weighed.ceiling),
    total,
    ...(learned === 0 ? {} : { learned }),
    ceiling: weighed.ceiling,
    margin,
    uncertainty: expanded,
    worstCase,
    probabilityOver: probabilityAbove(toGrams(margin), 0, standardGrams),
    components,
  };
}
