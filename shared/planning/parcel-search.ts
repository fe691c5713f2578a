import { handlingCost, materialsCost } from './cost.ts';
import { SAME_COST, searchFolds, tightestSlack, type Candidate, type FoldSearch } from './fold-search.ts';
import type { Item } from './item.ts';
import { packing, type Packing, type Scene } from './scene.ts';
import { fitStack } from '#shared/fitting/fit-stack.ts';
import type { Container } from '#shared/fitting/types.ts';

/**
 * Orders plans for the same pieces: the cheaper first; of equal cost the one of fewer folding steps, then the smaller
 * container. Negative when `a` is the better.
 */
export function compareCandidates(a: Candidate, b: Candidate): number {
  const difference = a.cost.total - b.cost.total;
  if (Math.abs(difference) > SAME_COST) return difference;
  const steps = (candidate: Candidate) => candidate.folds.reduce((sum, fold) => sum + fold.steps.length, 0);
  const area = ({ packing: { container } }: Candidate) => container.inside.width * container.inside.length;
  return steps(a) - steps(b) || area(a) - area(b);
}

/** The cheaper of two outcomes; of two failures the one that came nearer to fitting. */
function better(a: FoldSearch | null, b: FoldSearch): FoldSearch {
  if (a === null) return b;
  if (a.found && b.found) return compareCandidates(b.candidate, a.candidate) < 0 ? b : a;
  if (a.found !== b.found) return a.found ? a : b;
  if (a.found || b.found) return a;
  if (a.noService !== null || b.noService !== null) return a.noService !== null ? a : b;
  if (a.tooTight === null || b.tooTight === null) return a.tooTight === null ? b : a;
  return tightestSlack(b.tooTight) > tightestSlack(a.tooTight) ? b : a;
}

/** The cheapest way to put all the pieces into this container, over every wrap and fold. */
export function bestInContainer(items: readonly Item[], container: Container, scene: Scene): FoldSearch {
  let best: FoldSearch | null = null;
  for (const wrap of scene.wraps) {
    const below = best?.found === true ? best.candidate.cost.total + 2 * SAME_COST : Infinity;
    best = better(best, searchFolds(packing(items, container, wrap, scene), scene, below));
  }
  return best ?? { found: false, tooTight: null, noService: null };
}

/** A container and wrap with the least that any fold of the pieces could cost in it. */
interface Bounded {
  readonly packing: Packing;
  readonly atLeast: number;
}

/** No way of folding these pieces into this container and wrap costs less, in minor units; infinite where none fits. */
function boundOf(packed: Packing, scene: Scene): number {
  const { items, container, wrap } = packed;
  const fit = fitStack(
    items.map((item) => item.ideal),
    container,
    wrap,
  );
  if (fit.verdict === 'no') return Infinity;
  const folding = items.reduce((sum, item) => sum + item.leastFolding, 0);
  const work = folding + handlingCost(container, wrap, items.length, scene.shop);
  return packed.leastPostage() + materialsCost(container, wrap, items.length) + work;
}

/** Every container and wrap that could take the pieces, the least bound first. */
export function boundsOf(items: readonly Item[], scene: Scene): readonly Bounded[] {
  return scene.containers
    .flatMap((container) => scene.wraps.map((wrap) => packing(items, container, wrap, scene)))
    .map((packed) => ({ packing: packed, atLeast: boundOf(packed, scene) }))
    .filter(({ atLeast }) => atLeast < Infinity)
    .sort((a, b) => a.atLeast - b.atLeast);
}

/** The cheapest parcel of exactly these pieces, or null when nothing takes them together. */
export function cheapestParcel(bounds: readonly Bounded[], scene: Scene): Candidate | null {
  let best: Candidate | null = null;
  for (const { packing: packed, atLeast } of bounds) {
    if (best !== null && atLeast > best.cost.total + SAME_COST) break;
    const found = searchFolds(packed, scene, best === null ? Infinity : best.cost.total + 2 * SAME_COST);
    if (found.found && (best === null || compareCandidates(found.candidate, best) < 0)) best = found.candidate;
  }
  return best;
}
