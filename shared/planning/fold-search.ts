import { foldingCost, handlingCost, materialsCost, planCost, repackCost } from './cost.ts';
import type { Packing } from './packing.ts';
import type { Postage, Scene } from './scene.ts';
import type { PlanCost } from './types.ts';
import { fitStack } from '#shared/fitting/fit-stack.ts';
import type { Container, Fit } from '#shared/fitting/types.ts';
import type { Fold, FoldedBlock } from '#shared/folding/types.ts';

/** Differences below this, in minor units, are rounding and not a cheaper plan. */
export const SAME_COST = 1e-9;

/** Pieces folded, wrapped and put into a container, and the service it would go by. */
export interface Candidate {
  readonly packing: Packing;
  readonly folds: readonly Fold[];
  readonly fit: Fit;
  readonly postage: Postage;
  readonly cost: PlanCost;
}

/** Pieces that fit a container which no service takes. */
export interface Stranded {
  readonly packing: Packing;
  readonly fit: Fit;
}

/** What the search found: the cheapest way, or one that fits and that no service takes; null where nothing fits. */
export type FoldSearch =
  | { readonly found: true; readonly candidate: Candidate }
  | { readonly found: false; readonly noService: Stranded | null };

/**
 * No fold of the pieces still to come closes more surely. Smaller pieces may go into a carton in one pressed pile where
 * larger ones lie beside each other with room to spare, so there nothing is known.
 */
export function mostProbable(container: Container, fit: Fit): number {
  return container.type === 'carton' ? 1 : fit.probability;
}

/**
 * The cheapest fold of every piece for one container and wrap, exactly.
 *
 * Depth first over the pieces. Those not folded yet are stood in for by their ideal blocks, so that what is found for a
 * partial choice is a bound on everything that can come of it: a fit never gets easier, nor a size cheaper, when a block
 * grows. A branch that does not fit, or cannot beat `below`, is left.
 *
 * @param below only a plan that costs less than this, in minor units, is of interest
 */
export function searchFolds(packing: Packing, scene: Scene, below: number): FoldSearch {
  const { items, container, wrap } = packing;
  const { shop } = scene;
  const materials = materialsCost(container, wrap, items.length);
  const handling = handlingCost(container, wrap, items.length, shop);
  const repack = repackCost(container, shop);
  const blocks: FoldedBlock[] = items.map((item) => item.ideal);
  const chosen: Fold[] = [];
  const state: { best: Candidate | null; below: number; steps: number; noService: Stranded | null } = {
    best: null,
    below,
    steps: 0,
    noService: null,
  };
  /** Of equal cost the lesser work is better: where work costs nothing, that is not said by the cost. */
  const isNoBetter = (cost: number, steps: number) =>
    cost >= state.below + (steps < state.steps ? SAME_COST : -SAME_COST);

  /** @param steps of the folds chosen, and the fewest of the pieces still to come */
  function visit(index: number, steps: number): void {
    const fit = fitStack(blocks, container, wrap);
    if (fit.verdict === 'no') return;
    const item = items[index];
    const labour = handling + foldingCost(steps, shop);
    const risk = (1 - (item === undefined ? fit.probability : mostProbable(container, fit))) * repack;
    const leastPostage = packing.leastPostage();
    if (leastPostage === Infinity) {
      state.noService ??= { packing, fit };
      return;
    }
    if (isNoBetter(leastPostage + materials + labour + risk, steps)) return;
    if (item === undefined) {
      const postage = packing.postage(fit.filled);
      if (postage === null) {
        state.noService ??= { packing, fit };
        return;
      }
      const cost = planCost(shop.currency, { postage: postage.expected, materials, labour, risk });
      if (isNoBetter(cost.total, steps)) return;
      state.best = { packing, folds: [...chosen], fit, postage, cost };
      state.below = cost.total;
      state.steps = steps;
      return;
    }
    for (const fold of item.folds) {
      blocks[index] = fold.block;
      chosen[index] = fold;
      visit(index + 1, steps + fold.steps.length - item.leastSteps);
    }
    blocks[index] = item.ideal;
  }

  visit(
    0,
    items.reduce((sum, { leastSteps }) => sum + leastSteps, 0),
  );
  if (state.best !== null) return { found: true, candidate: state.best };
  return { found: false, noService: state.noService };
}
