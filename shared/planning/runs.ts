import { foldingCost, wages } from './cost.ts';
import { SAME_COST, type Candidate } from './fold-search.ts';
import type { Item } from './item.ts';
import { boundsOf, cheapestParcel } from './parcel-search.ts';
import type { Scene } from './scene.ts';
import { smallestWithAny } from './smallest-filled.ts';
import type { SplitSearch } from './split.ts';
import { toGrams, ZERO_MASS } from '#shared/units/mass.ts';

/** Pieces in one parcel of a large order that is divided. */
const LONGEST_RUN = 8;

/** The cheapest way to cut a row of pieces into runs of neighbours. */
function cutInto(
  row: readonly Item[],
  scene: Scene,
): { readonly candidates: readonly Candidate[]; readonly total: number } {
  const best: { total: number; last: Candidate | null; from: number }[] = [{ total: 0, last: null, from: 0 }];
  for (let end = 1; end <= row.length; end++) {
    const here: { total: number; last: Candidate | null; from: number } = { total: Infinity, last: null, from: 0 };
    for (let from = Math.max(0, end - LONGEST_RUN); from < end; from++) {
      const before = best[from]?.total ?? Infinity;
      if (before >= here.total) continue;
      const parcel = cheapestParcel(boundsOf(row.slice(from, end), scene).bounded, scene);
      if (parcel === null || before + parcel.cost.total >= here.total) continue;
      Object.assign(here, { total: before + parcel.cost.total, last: parcel, from });
    }
    best.push(here);
  }
  const candidates: Candidate[] = [];
  for (let end = row.length; end > 0;) {
    const { last, from } = best[end] ?? { last: null, from: 0 };
    if (last === null) return { candidates: [], total: Infinity };
    candidates.unshift(last);
    end = from;
  }
  return { candidates, total: best[row.length]?.total ?? Infinity };
}

/** The greatest mass in g that any service takes in any container. */
function heaviestTaken(items: readonly Item[], scene: Scene): number {
  return Math.max(
    ...scene.containers.flatMap((container) =>
      scene
        .leastPrices(container, smallestWithAny(items, container))
        .steps.map(({ steps }) => toGrams(steps.at(-1)?.ceiling ?? ZERO_MASS)),
    ),
  );
}

/** What one more piece adds to any parcel at least: it is folded, and wrapped in the cheapest way. */
function leastWork({ leastSteps }: Item, { shop }: Scene): number {
  const wrapping = [...shop.wraps.values()].map((wrap) => wrap.costPerPiece.minor + wages(wrap.secondsPerPiece, shop));
  return foldingCost(leastSteps, shop) + Math.min(...wrapping);
}

/**
 * A bound on any plan. In one parcel it costs at least what the cheapest container and wrap would at their best. In several,
 * as many as the whole mass needs but two at least, one parcel holds the piece that is dearest by itself and each of the
 * others some piece; a parcel costs no less than any one piece in it does alone, and every further piece has its work.
 */
function lowerBound(items: readonly Item[], scene: Scene): number {
  const inOne = boundsOf(items, scene).bounded[0]?.atLeast ?? Infinity;
  const mass = items.reduce((sum, item) => sum + item.mass.mean, 0);
  const parcels = Math.max(2, Math.ceil(mass / heaviestTaken(items, scene)));
  const alone = items.map((item) => {
    const work = leastWork(item, scene);
    return { work, beyond: (boundsOf([item], scene).bounded[0]?.atLeast ?? Infinity) - work };
  });
  const work = alone.reduce((sum, each) => sum + each.work, 0);
  const [dearest = 0, ...others] = alone.map(({ beyond }) => beyond).sort((a, b) => b - a);
  const cheapest = others.reverse().slice(0, parcels - 1);
  return Math.min(inOne, work + dearest + cheapest.reduce((sum, beyond) => sum + beyond, 0));
}

/**
 * A good way, not proven the best, of dividing a large order: the pieces in a row from light to heavy, and in a row from
 * thin to thick, cut into runs in the cheapest way.
 */
export function cheapestRuns(items: readonly Item[], scene: Scene, single: Candidate | null): SplitSearch {
  const rows = [
    items.toSorted((a, b) => a.mass.mean - b.mass.mean),
    items.toSorted((a, b) => a.ideal.thickness - b.ideal.thickness),
  ];
  const [best] = rows.map((row) => cutInto(row, scene)).sort((a, b) => a.total - b.total);
  const whole = single?.cost.total ?? Infinity;
  const split = best !== undefined && best.total < whole - SAME_COST && best.candidates.length > 1 ? best : null;
  return { split, proven: false, lowerBound: lowerBound(items, scene) };
}
