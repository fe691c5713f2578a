import type { LeftOut, Order } from '#shared/planning/types.ts';

/** Numbers of orders are codes that are scanned; longer ones are not taken anywhere. */
const LONGEST_NUMBER = 40;

/** Numbers that the rest of an order could have, the first free one of which is taken: "4101-2", "4101-3". */
export function restNumbers(id: string): readonly string[] {
  const numbers = Array.from({ length: 98 }, (_, index) => `${id}-${String(index + 2)}`);
  return numbers.filter((number) => number.length <= LONGEST_NUMBER);
}

export interface Divided {
  /** what is sent now, with all that was paid */
  readonly first: Order;
  /** what follows; null where it does not */
  readonly rest: Order | null;
}

/**
 * An order without some of its pieces, and the order in which they follow. What was paid for postage stays with the first.
 * @param leaving pieces of the order, but not all
 */
export function divide(
  order: Order,
  leaving: {
    readonly skus: ReadonlySet<string>;
    readonly follows: string | null;
    readonly by: string | null;
    readonly at: number;
  },
): Divided {
  const { skus, follows, by, at } = leaving;
  const leftOut: readonly LeftOut[] = [
    ...(order.leftOut ?? []),
    ...order.pieces.flatMap(({ sku }) => (skus.has(sku) ? [{ sku, follows, by, at }] : [])),
  ];
  const first = { ...order, pieces: order.pieces.filter(({ sku }) => !skus.has(sku)), leftOut };
  if (follows === null) return { first, rest: null };
  const { paidPostage: _paid, leftOut: _before, ...common } = order;
  return {
    first,
    rest: { ...common, id: follows, pieces: order.pieces.filter(({ sku }) => skus.has(sku)), restOf: order.id },
  };
}
