import { foldingCost, handlingCost, materialsCost, repackCost } from './cost.ts';
import { mostProbable, SAME_COST, searchFolds, type Candidate, type FoldSearch } from './fold-search.ts';
import type { Item } from './item.ts';
import { packingOf, type Packing } from './packing.ts';
import type { Scene } from './scene.ts';
import { fitStack } from '#shared/fitting/fit-stack.ts';
import { MOST_EXACT } from '#shared/fitting/packing.ts';
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

/** A container and wrap with the least that any fold of the pieces could cost in it. */
export interface Bounded {
  readonly packing: Packing;
  readonly atLeast: number;
}

/**
 * The cheapest of some packings, or the first of them that fits and that no service takes.
 * @param bounded the least bound first; of those that are equally good the first is taken
 */
function cheapestOf(bounded: readonly Bounded[], scene: Scene, below: number): FoldSearch {
  let best: FoldSearch = { found: false, noService: null };
  let limit = below;
  for (const { packing, atLeast } of bounded) {
    if (atLeast >= limit) break;
    const search = searchFolds(packing, scene, limit);
    if (search.found) {
      if (!best.found || compareCandidates(search.candidate, best.candidate) < 0) best = search;
      limit = best.candidate.cost.total + 2 * SAME_COST;
    } else if (!best.found && best.noService === null) {
      best = search;
    }
  }
  return best;
}

/** The cheapest way to put all the pieces into this container, over every wrap and fold. */
export function bestInContainer(items: readonly Item[], container: Container, scene: Scene): FoldSearch {
  const packings = scene.wrapsFor(items).flatMap((wrap) => packingOf(items, container, wrap, scene) ?? []);
  const unbounded = packings.map((packing) => ({ packing, atLeast: -Infinity }));
  return cheapestOf(unbounded, scene, Infinity);
}

/** No way of folding these pieces into this container and wrap costs less, in minor units, if they fit at all. */
function leastCost(packing: Packing, scene: Scene): number {
  const { items, container, wrap } = packing;
  let steps = 0;
  for (const item of items) steps += item.leastSteps;
  const work = foldingCost(steps, scene.shop) + handlingCost(container, wrap, items.length, scene.shop);
  return packing.leastPostage() + materialsCost(container, wrap, items.length) + work;
}

/** The least that the risk of not closing costs, in minor units; null where the pieces do not fit. */
function leastRisk({ items, container, wrap }: Packing, scene: Scene): number | null {
  const fit = fitStack(
    items.map((item) => item.ideal),
    container,
    wrap,
  );
  if (fit.verdict === 'no') return null;
  return (1 - mostProbable(container, fit)) * repackCost(container, scene.shop);
}

/** Many rigid things are loaded in a way that might fail with some and find room for all: that proves nothing of more pieces. */
function mayHoldMore(items: readonly Item[], { type }: Container): boolean {
  return type === 'carton' && items.length > MOST_EXACT && items.every(({ soft }) => !soft);
}

/** The containers and wraps that could take some pieces. */
export interface Bounds {
  /** the least bound first */
  readonly bounded: readonly Bounded[];
  /** containers that are certainly too small, in any wrap */
  readonly tooSmall: ReadonlySet<Container>;
}

/**
 * Every container and wrap that could take the pieces for less than `below`, in minor units.
 * @param containers those to look at: others are known to be too small for some of the pieces
 */
export function boundsOf(
  items: readonly Item[],
  scene: Scene,
  containers: readonly Container[] = scene.containers,
  below = Infinity,
): Bounds {
  const bounded: Bounded[] = [];
  const tooSmall = new Set<Container>();
  const wraps = scene.wrapsFor(items);
  for (const container of containers) {
    // Not too small for them: with others beside these it may be what the shop wants.
    if (!scene.admits(container, items)) continue;
    let mayHold = false;
    for (const wrap of wraps) {
      const packing = packingOf(items, container, wrap, scene);
      if (packing === null) continue;
      const withoutRisk = leastCost(packing, scene);
      // A fit takes longer to work out than a bound on the cost.
      const risk = withoutRisk >= below ? 0 : leastRisk(packing, scene);
      if (risk === null) continue;
      mayHold = true;
      if (withoutRisk + risk < below) bounded.push({ packing, atLeast: withoutRisk + risk });
    }
    if (!mayHold && !mayHoldMore(items, container)) tooSmall.add(container);
  }
  return { bounded: bounded.sort((a, b) => a.atLeast - b.atLeast), tooSmall };
}

/**
 * The cheapest parcel of exactly these pieces, or null when nothing takes them together for less than `below`.
 * @param below minor units
 */
export function cheapestParcel(bounds: readonly Bounded[], scene: Scene, below = Infinity): Candidate | null {
  const search = cheapestOf(bounds, scene, below);
  return search.found ? search.candidate : null;
}
