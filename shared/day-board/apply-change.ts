import type { DayBoard, DayChange, DayOrder } from '#shared/wire/day.ts';

function before(a: DayOrder, b: DayOrder): number {
  if (a.collection !== b.collection) return a.collection < b.collection ? -1 : 1;
  return a.id < b.id ? -1 : a.id > b.id ? 1 : 0;
}

/** The board after a change; `applyChange(old, changeBetween(old, new))` has the orders of the new one. */
export function applyChange(board: DayBoard, { changed, gone, ...summary }: DayChange): DayBoard {
  const without = new Set([...gone, ...changed.map(({ id }) => id)]);
  const kept = board.orders.filter(({ id }) => !without.has(id));
  return { ...summary, orders: changed.length === 0 ? kept : [...kept, ...changed].sort(before) };
}

function same(a: DayOrder, b: DayOrder): boolean {
  return (Object.keys(a) as (keyof DayOrder)[]).every((key) => a[key] === b[key]);
}

export function changeBetween(old: DayBoard, { orders, ...summary }: DayBoard): DayChange {
  const was = new Map(old.orders.map((order) => [order.id, order]));
  const changed = orders.filter((order) => {
    const earlier = was.get(order.id);
    was.delete(order.id);
    return earlier === undefined || !same(earlier, order);
  });
  return { ...summary, changed, gone: [...was.keys()] };
}
