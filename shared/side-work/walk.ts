import { pieceHere, type BatchPiece, type SideState, type Walk, type WalkStep } from './types.ts';
import { notice } from '#shared/run/outcome.ts';
import type { Notice } from '#shared/run/types.ts';
import type { PlannedPiece } from '#shared/planning/types.ts';

/** What the walk must know of the batch's folds. */
export interface FoldStops {
  /** by index of the fold: at which of its steps the packer is stopped */
  readonly stops: readonly (readonly number[])[];
}

/** Natural order: "K2" before "K10"; what has no shelf last. */
export function compareShelves(a: string | null, b: string | null): number {
  if (a === null || b === null) return Number(a === null) - Number(b === null);
  const parts = (text: string) => text.split(/(\d+)/);
  const [left, right] = [parts(a), parts(b)];
  for (let at = 0; at < Math.max(left.length, right.length); at++) {
    const [one = '', other = ''] = [left[at], right[at]];
    const byNumber = at % 2 === 1 ? Number(one) - Number(other) : 0;
    const order = byNumber || (one < other ? -1 : one > other ? 1 : 0);
    if (order !== 0) return order;
  }
  return 0;
}

/** The pieces of a batch in the order in which they are fetched: along the shelves, then order by order. */
export function alongShelves(
  orders: readonly { readonly order: string; readonly basket: number; readonly pieces: readonly PlannedPiece[] }[],
): { readonly pieces: readonly BatchPiece[]; readonly folds: readonly PlannedPiece[] } {
  const all = orders
    .flatMap(({ order, basket, pieces }) => pieces.map((planned) => ({ order, basket, planned })))
    .map((each, index) => ({ ...each, index }))
    .sort(
      (a, b) =>
        compareShelves(a.planned.piece.place ?? null, b.planned.piece.place ?? null) ||
        a.basket - b.basket ||
        a.index - b.index,
    );
  return {
    folds: all.map(({ planned }) => planned),
    pieces: all.map(({ order, basket, planned: { piece } }, fold) => ({
      order,
      basket,
      sku: piece.sku,
      title: piece.title,
      kind: piece.kind,
      place: piece.place ?? null,
      fold,
    })),
  };
}

/** What follows a step of the piece at hand; null once it lies in its basket. */
export function stepAfter(walk: Walk, { stops }: FoldStops): WalkStep | null {
  const here = stops[walk.pieces[walk.piece]?.fold ?? -1] ?? [];
  const { step } = walk;
  switch (step.at) {
    case 'fetch':
      return { at: 'look-over' };
    case 'look-over':
      return here[0] === undefined ? { at: 'lay' } : { at: 'fold', step: here[0] };
    case 'fold': {
      const next = here.find((stop) => stop > step.step);
      return next === undefined ? { at: 'lay' } : { at: 'fold', step: next };
    }
    case 'lay':
      return null;
  }
}

export function stepBefore(walk: Walk, { stops }: FoldStops): WalkStep | null {
  const here = stops[walk.pieces[walk.piece]?.fold ?? -1] ?? [];
  const { step } = walk;
  const last = here.at(-1);
  switch (step.at) {
    case 'fetch':
      return null;
    case 'look-over':
      return { at: 'fetch' };
    case 'fold': {
      const earlier = here.findLast((stop) => stop < step.step);
      return earlier === undefined ? { at: 'look-over' } : { at: 'fold', step: earlier };
    }
    case 'lay':
      return last === undefined ? { at: 'look-over' } : { at: 'fold', step: last };
  }
}

/** A piece that was scanned comes before those that are still to be fetched. */
export function fetchedFirst(walk: Walk, sku: string): Walk | null {
  const at = walk.pieces.findIndex((piece, index) => index >= walk.piece && piece.sku === sku);
  const piece = walk.pieces[at];
  if (piece === undefined) return null;
  const others = walk.pieces.filter((_, index) => index !== at);
  return { ...walk, pieces: [...others.slice(0, walk.piece), piece, ...others.slice(walk.piece)] };
}

/** Whether every piece of an order lies in its basket. */
export function isFolded({ pieces, piece }: Walk, order: string): boolean {
  return !pieces.slice(piece).some((each) => each.order === order);
}

/** The orders of a batch that are folded, by basket. */
export function foldedOrders(walk: Walk): readonly { readonly order: string; readonly basket: number }[] {
  const baskets = new Map(walk.pieces.map(({ order, basket }) => [order, basket]));
  return [...baskets]
    .filter(([order]) => isFolded(walk, order))
    .map(([order, basket]) => ({ order, basket }))
    .sort((a, b) => a.basket - b.basket);
}

/** The batch without some of its orders; the piece at hand stays unless it was theirs. */
export function withoutOrders(state: SideState, orders: ReadonlySet<string>, told: Notice): SideState {
  const { screen } = state;
  if (screen.at !== 'walk') return state;
  const here = pieceHere(state);
  const pieces = screen.pieces.filter(({ order }) => !orders.has(order));
  const piece = screen.pieces.slice(0, screen.piece).filter(({ order }) => !orders.has(order)).length;
  const gone = here === undefined || orders.has(here.order);
  const walk: Walk = { ...screen, pieces, piece, step: gone ? { at: 'fetch' } : screen.step };
  return endedIfDone({ ...state, screen: walk, confirming: null, notice: told });
}

/** Once nothing is left to fold, the baskets are shown. */
export function endedIfDone(state: SideState): SideState {
  const { screen } = state;
  if (screen.at !== 'walk' || screen.piece < screen.pieces.length) return state;
  const baskets = foldedOrders(screen);
  return { ...state, screen: { at: 'folded', name: screen.name, baskets }, marked: null };
}

export const laid = ({ title, basket }: BatchPiece): Notice =>
  notice('laid-in-basket', { title, basket: String(basket) });
