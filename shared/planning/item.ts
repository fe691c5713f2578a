import type { MassEstimate } from './expected-postage.ts';
import { idealBlock } from './ideal-block.ts';
import { MOST_PIECES } from './most-pieces.ts';
import { PlanError } from './plan-error.ts';
import { worthwhileFolds } from './worthwhile-folds.ts';
import type { Order } from './types.ts';
import type { Fold, FoldedBlock } from '#shared/folding/types.ts';
import { foldsOf } from '#shared/folding/fold-piece.ts';
import { pieceMass } from '#shared/garments/mass.ts';
import type { Piece } from '#shared/garments/types.ts';
import type { Shop } from '#shared/shop/shop.ts';

/** One thing to pack: a piece as often as the order has it, with what it weighs and the folds worth trying. */
export interface Item {
  readonly piece: Piece;
  readonly mass: MassEstimate;
  /** least work first */
  readonly folds: readonly Fold[];
  /** the best of every measure of the folds */
  readonly ideal: FoldedBlock;
  /** of the fold that takes least work */
  readonly leastSteps: number;
  /** resting thickness in mm of the thickest fold */
  readonly thickest: number;
  /** all its folds are soft */
  readonly soft: boolean;
}

/** Items made before, by shop and piece; both are immutable, so an entry never goes stale. */
const known = new WeakMap<Shop, WeakMap<Piece, Item>>();

/** @param folds least work first */
export function itemFrom(piece: Piece, mass: MassEstimate, folds: readonly Fold[]): Item {
  return {
    piece,
    mass,
    folds,
    ideal: idealBlock(folds),
    leastSteps: Math.min(...folds.map((fold) => fold.steps.length)),
    thickest: Math.max(...folds.map((fold) => fold.block.thickness)),
    soft: folds.every((fold) => fold.block.soft),
  };
}

function itemOf(piece: Piece, shop: Shop): Item {
  const items = known.get(shop) ?? new WeakMap<Piece, Item>();
  known.set(shop, items);
  const before = items.get(piece);
  if (before !== undefined) return before;
  if (!shop.wardrobe.kinds.has(piece.kind)) {
    throw new PlanError('unknown-kind', `piece ${piece.sku}: expected a kind of this shop, found "${piece.kind}"`);
  }
  const folds = worthwhileFolds(foldsOf(piece, shop.wardrobe, shop.recipes)).toSorted(
    (a, b) => a.steps.length - b.steps.length,
  );
  const item = itemFrom(piece, pieceMass(piece, shop.wardrobe), folds);
  items.set(piece, item);
  return item;
}

/**
 * The pieces of an order, each as often as it was bought.
 * @throws PlanError no-pieces, too-many-pieces, unknown-piece or unknown-kind
 */
export function itemsOf(order: Order, pieces: ReadonlyMap<string, Piece>, shop: Shop): readonly Item[] {
  const items: Item[] = [];
  for (const { sku, count } of order.pieces) {
    const piece = pieces.get(sku);
    if (piece === undefined) {
      throw new PlanError('unknown-piece', `order ${order.id}: piece "${sku}" is not among the pieces of this shop`);
    }
    if (items.length + count > MOST_PIECES) {
      throw new PlanError('too-many-pieces', `order ${order.id}: expected at most ${MOST_PIECES} pieces, found more`);
    }
    for (let i = 0; i < count; i++) items.push(itemOf(piece, shop));
  }
  if (items.length === 0)
    throw new PlanError('no-pieces', `order ${order.id}: expected at least one piece, found none`);
  return items;
}
