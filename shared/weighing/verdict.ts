import { combine, rectangular } from './combine.ts';
import { probabilityAbove } from './normal.ts';
import { toleranceOf } from './tolerance.ts';
import type { Accuracy, Addition, Reading, UncertaintyComponent, Verdict } from './types.ts';
import { addMass, massFromBase, subtractMass, toGrams, type Mass } from '#shared/units/mass.ts';

/** A weighing against a bracket. */
export interface Weighed {
  readonly reading: Pick<Reading, 'mass' | 'division'>;
  /** put on after the weighing */
  readonly additions: readonly Addition[];
  readonly accuracy: Accuracy;
  /** how much the zero may have moved since the last zeroing, half-width */
  readonly drift: Mass;
  /** the highest mass that the planned price still covers */
  readonly ceiling: Mass;
}

function componentsOf({ reading, additions, accuracy, drift }: Omit<Weighed, 'ceiling'>): UncertaintyComponent[] {
  // A display shows the nearest division: half a division either way, an odd base unit rounded up.
  const resolution = rectangular('resolution', massFromBase(Math.ceil(reading.division / 2)));
  const tolerance = rectangular('tolerance', toleranceOf(accuracy, reading.mass, reading.division));
  return [
    resolution,
    tolerance,
    rectangular('drift', drift),
    ...additions.map((addition) => rectangular('addition', addition.plusMinus, addition.name)),
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
 * - `over`: the total (reading and additions), the best estimate there is, exceeds the ceiling. It is over even where the
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
  const total = addMass(weighed.reading.mass, ...weighed.additions.map((addition) => addition.mass));
  const components = componentsOf(weighed);
  const { standardGrams, expanded, worstCase } = combine(components);
  const margin = subtractMass(weighed.ceiling, total);
  return {
    verdict: compare(total, expanded, weighed.ceiling),
    total,
    ceiling: weighed.ceiling,
    margin,
    uncertainty: expanded,
    worstCase,
    probabilityOver: probabilityAbove(toGrams(margin), 0, standardGrams),
    components,
  };
}
