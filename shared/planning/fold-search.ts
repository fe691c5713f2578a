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

/** What the search found: the cheapest way, or what stood in the way of the one that came nearest. */
export type FoldSearch =
  | { readonly found: true; readonly candidate: Candidate }
  | { readonly found: false; readonly tooTight: Fit | null; readonly noService: Stranded | null };

/** How far the tightest direction is from fitting, in millimetres; negative where it does not. */
export function tightestSlack(fit: Fit): number {
  return Math.min(fit.slack.width, fit.slack.length, fit.slack.thickness);
}

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
  const state: { best: Candidate | null; below: number; tooTight: Fit | null; noService: Stranded | null } = {
    best: null,
    below,
    tooTight: null,
    noService: null,
  };

  function visit(index: number, folding: number, leastRest: number): void {
    const fit = fitStack(blocks, container, wrap);
    if (fit.verdict === 'no') {
      if (state.tooTight === null || tightestSlack(fit) > tightestSlack(state.tooTight)) state.tooTight = fit;
      return;
    }
    const item = items[index];
    const labour = handling + folding + leastRest;
    const risk = (1 - (item === undefined ? fit.probability : mostProbable(container, fit))) * repack;
    const leastPostage = packing.leastPostage();
    if (leastPostage === Infinity) {
      state.noService ??= { packing, fit };
      return;
    }
    if (leastPostage + materials + labour + risk >= state.below - SAME_COST) return;
    if (item === undefined) {
      const postage = packing.postage(fit.filled);
      if (postage === null) {
        state.noService ??= { packing, fit };
        return;
      }
      const cost = planCost(shop.currency, { postage: postage.expected, materials, labour, risk });
      if (cost.total >= state.below - SAME_COST) return;
      state.best = { packing, folds: [...chosen], fit, postage, cost };
      state.below = cost.total;
      return;
    }
    for (const fold of item.folds) {
      blocks[index] = fold.block;
      chosen[index] = fold;
      visit(index + 1, folding + foldingCost(fold, shop), leastRest - item.leastFolding);
    }
    blocks[index] = item.ideal;
  }

  const leastFolding = items.reduce((sum, item) => sum + item.leastFolding, 0);
  visit(0, 0, leastFolding);
  if (state.best !== null) return { found: true, candidate: state.best };
  return { found: false, tooTight: state.tooTight, noService: state.noService };
}
