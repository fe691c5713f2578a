import { SAME_COST, type Candidate } from './fold-search.ts';
import type { Item } from './item.ts';
import { boundsOf, cheapestParcel } from './parcel-search.ts';
import { cheapestPartition, type Group } from './partition.ts';
import { cheapestRuns } from './runs.ts';
import type { Scene } from './scene.ts';

/** Up to this many pieces a plan is the cheapest there is; beyond it the partitions are too many. */
export const MOST_EXACT = 10;

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

function itemsIn(group: Group, items: readonly Item[]): readonly Item[] {
  return items.filter((_, index) => (group & (1 << index)) !== 0);
}

function exactSplit(items: readonly Item[], scene: Scene, single: Candidate | null): SplitSearch {
  const all = 2 ** items.length - 1;
  const whole = single?.cost.total ?? Infinity;
  const parcels = new Map<Group, Candidate>();
  const bound = (group: Group) =>
    group === all ? whole : (boundsOf(itemsIn(group, items), scene)[0]?.atLeast ?? Infinity);
  const exact = (group: Group) => {
    if (group === all) return whole;
    const parcel = cheapestParcel(boundsOf(itemsIn(group, items), scene), scene);
    if (parcel !== null) parcels.set(group, parcel);
    return parcel?.cost.total ?? Infinity;
  };
  const partition = cheapestPartition(items.length, bound, exact);
  const candidates = partition?.groups.flatMap((group) => parcels.get(group) ?? []) ?? [];
  const total = partition?.cost ?? Infinity;
  const split = candidates.length > 1 && total < whole - SAME_COST ? { candidates, total } : null;
  return { split, proven: true, lowerBound: Math.min(total, whole) };
}

/**
 * The cheapest way of dividing an order's pieces into several parcels, when that is cheaper than one.
 * Exact up to {@link MOST_EXACT} pieces.
 *
 * @param single the cheapest parcel of all the pieces, if there is one
 */
export function searchSplit(items: readonly Item[], scene: Scene, single: Candidate | null): SplitSearch {
  if (items.length === 1) return { split: null, proven: true, lowerBound: single?.cost.total ?? Infinity };
  return items.length <= MOST_EXACT ? exactSplit(items, scene, single) : cheapestRuns(items, scene, single);
}
