import { bySku, orderOf, piece, smallShop } from './small-shop.ts';
import type { Piece } from '#shared/garments/types.ts';
import type { Order } from '#shared/planning/types.ts';
import type { Shop } from '#shared/shop/shop.ts';
import { massFromGrams } from '#shared/units/mass.ts';
import { money } from '#shared/units/money.ts';

const KINDS = ['t-shirt', 't-shirt', 'sweater', 'jeans', 'jacket', 'shoes'] as const;

const pick = <Thing>(list: readonly Thing[], uniform: () => number): Thing =>
  list[Math.floor(uniform() * list.length)]!;

/** Pieces with and without size, cloth and intake weight. */
function randomPiece(sku: string, uniform: () => number): Piece {
  const kind = pick(KINDS, uniform);
  const weighed = uniform() < 0.4 ? { mass: massFromGrams(Math.round(100 + 900 * uniform())) } : {};
  const sized = kind === 't-shirt' && uniform() < 0.6 ? { size: pick(['S', 'M', 'L'], uniform) } : {};
  const clothed = kind === 'sweater' && uniform() < 0.3 ? { cloth: 'jersey' } : {};
  return piece(sku, kind, { ...weighed, ...sized, ...clothed });
}

export interface RandomOrder {
  readonly order: Order;
  readonly pieces: readonly Piece[];
  readonly bySku: ReadonlyMap<string, Piece>;
}

export function randomOrder(size: number, uniform: () => number): RandomOrder {
  const pieces = Array.from({ length: size }, (_, index) => randomPiece(`P${String(index)}`, uniform));
  return { order: orderOf(pieces), pieces, bySku: bySku(pieces) };
}

/** The small shop with some containers missing, other wages and other costs: what is cheapest changes with them. */
export function randomShop(uniform: () => number): Shop {
  const usual = smallShop();
  const kept = [...usual.containers].filter(([id]) => uniform() < (id === 'carton-large' ? 0.9 : 0.75));
  const containers = new Map(
    kept.map(([id, container]) => [id, { ...container, cost: money(Math.floor(150 * uniform()), 'USD') }]),
  );
  const labour = {
    perHour: money(Math.floor(4000 * uniform()), 'USD'),
    repackSeconds: Math.floor(600 * uniform()),
  };
  return smallShop({ containers, labour });
}
