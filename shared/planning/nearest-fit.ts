import type { Item } from './item.ts';
import { fitStack } from '#shared/fitting/fit-stack.ts';
import type { Container, Fit, Wrap } from '#shared/fitting/types.ts';
import type { Fold } from '#shared/folding/types.ts';

/** So many ways of folding all the pieces are looked at for the one that comes nearest to fitting. */
const MOST_WAYS = 48;

/** Folded pieces that do not fit, and by how little. */
export interface NearestFit {
  readonly folds: readonly Fold[];
  readonly wrap: Wrap;
  readonly fit: Fit;
}

/** How far the tightest direction is from fitting, in millimetres; negative where it does not. */
export function tightestSlack(fit: Fit): number {
  return Math.min(fit.slack.width, fit.slack.length, fit.slack.thickness);
}

/** Choices of one fold for each piece, the preferred ones first; no more than {@link MOST_WAYS}. */
function waysOf(items: readonly Item[]): readonly (readonly Fold[])[] {
  let ways: (readonly Fold[])[] = [[]];
  for (const { folds } of items) {
    ways = ways.flatMap((way) => folds.map((fold) => [...way, fold])).slice(0, MOST_WAYS);
  }
  return ways;
}

/**
 * The way of folding some pieces that comes nearest to fitting a container: what is told of a container that is too small.
 * Exact for few pieces; for many the first ways are looked at.
 */
export function nearestFit(items: readonly Item[], container: Container, wraps: readonly Wrap[]): NearestFit | null {
  const [wrap] = wraps.toSorted((a, b) => a.thickness - b.thickness);
  if (wrap === undefined) return null;
  let best: NearestFit | null = null;
  for (const folds of waysOf(items)) {
    const fit = fitStack(
      folds.map(({ block }) => block),
      container,
      wrap,
    );
    if (best === null || tightestSlack(fit) > tightestSlack(best.fit)) best = { folds, wrap, fit };
  }
  return best;
}
