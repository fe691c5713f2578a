import { SAME_COST, type Candidate } from './fold-search.ts';
import type { Item } from './item.ts';
import { boundsOf, cheapestParcel, type Bounded } from './parcel-search.ts';
import { cheapestPartition, type Group } from './partition.ts';
import { cheapestRuns } from './runs.ts';
import type { Scene } from './scene.ts';
import type { Container } from '#shared/fitting/types.ts';

/** Up to this many pieces a plan is the cheapest there is; beyond it the partitions are too many. */
const MOST_EXACT = 10;

/** An order in more than one parcel. */
export interface Split {
  readonly candidates: readonly Candidate[];
  /** minor units */
  readonly total: number;
}

/** How the best way of dividing an order came out. */
export interface SplitSearch {
  /** null where one parcel is cheaper than, or as cheap as, any split that was found */
  readonly split: Split | null;
  readonly proven: boolean;
  /** no plan costs less, in minor units */
  readonly lowerBound: number;
}

/** The bounds of every group of the items below a cost, worked out from small groups to large. */
function groupBounds(items: readonly Item[], scene: Scene, below: number): readonly (readonly Bounded[])[] {
  const bounds: (readonly Bounded[])[] = [[]];
  const roomy: (readonly Container[])[] = [scene.containers];
  // The last group is all the items: its cost is known.
  for (let group = 1; group < 2 ** items.length - 1; group++) {
    const chosen = items.filter((_, index) => (group & (1 << index)) !== 0);
    const lowest = group & -group;
    const highest = 1 << (31 - Math.clz32(group));
    // What is too small for some of the pieces is too small for all of them.
    const others = roomy[group ^ highest] ?? [];
    const containers = (roomy[group ^ lowest] ?? []).filter((container) => others.includes(container));
    const { bounded, tooSmall } = boundsOf(chosen, scene, containers, below);
    bounds.push(bounded);
    roomy.push(containers.filter((container) => !tooSmall.has(container)));
  }
  return bounds;
}

function exactSplit(items: readonly Item[], scene: Scene, single: Candidate | null): SplitSearch {
  const all = 2 ** items.length - 1;
  const whole = single?.cost.total ?? Infinity;
  const bounds = groupBounds(items, scene, whole);
  const parcels = new Map<Group, Candidate>();
  const bound = (group: Group) => (group === all ? whole : (bounds[group]?.[0]?.atLeast ?? Infinity));
  const exact = (group: Group, below: number) => {
    if (group === all) return whole;
    const parcel = cheapestParcel(bounds[group] ?? [], scene, Math.min(below, whole));
    if (parcel !== null) parcels.set(group, parcel);
    return parcel?.cost.total ?? Infinity;
  };
  const partition = cheapestPartition(items.length, bound, exact);
  const total = partition?.cost ?? Infinity;
  const groups = partition?.groups ?? [];
  const candidates = groups.flatMap((group) => parcels.get(group) ?? []);
  const split = total < whole - SAME_COST ? { candidates, total } : null;
  return { split, proven: true, lowerBound: Math.min(total, whole) };
}

/**
 * The cheapest way of dividing an order's pieces into several parcels, when that is cheaper than one.
 * Exact up to {@link MOST_EXACT} pieces.
 *
 * @param single the cheapest parcel of all the pieces, if there is one
 */
export function searchSplit(items: readonly Item[], scene: Scene, single: Candidate | null): SplitSearch {
  return items.length <= MOST_EXACT ? exactSplit(items, scene, single) : cheapestRuns(items, scene, single);
}
