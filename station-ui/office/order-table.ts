import { ORDER_SORTINGS, type OrderRow, type OrderSorting } from '#shared/wire/office.ts';
import type { OrderState } from '#shared/planning/types.ts';
import type { Standing } from '../components/shapes.ts';

export type Column = keyof OrderRow;
export const COLUMNS: readonly Column[] = [
  'id',
  'buyer',
  'pieces',
  'shipBy',
  'state',
  'bench',
  'container',
  'service',
  'reason',
];

export const STANDING: Readonly<Record<OrderState, Standing>> = {
  open: 'waiting',
  packing: 'current',
  'set-aside': 'attention',
  packed: 'well',
  cancelled: 'stop',
  combined: 'current',
};

export interface Sorting {
  readonly by: OrderSorting;
  readonly descending: boolean;
}

/** What the server can put a column in order by; null where it has no index for it. */
export function sortingOf(column: Column): OrderSorting | null {
  return ORDER_SORTINGS.find((each) => each === column) ?? null;
}

/** The same column again turns the order round. */
export function sortedBy(before: Sorting, by: OrderSorting): Sorting {
  return { by, descending: before.by === by ? !before.descending : false };
}
