import type { OrderRow } from '#shared/wire/office.ts';
import type { OrderState } from '#shared/planning/types.ts';

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

export interface Sorting {
  readonly by: Column;
  readonly descending: boolean;
}

/** The same column again turns the order round. */
export function sortedBy(before: Sorting, column: Column): Sorting {
  return { by: column, descending: before.by === column ? !before.descending : false };
}

/** Rows that hold every word of the text somewhere, and are in the state if one is asked for. */
export function filtered(rows: readonly OrderRow[], text: string, state: OrderState | null): readonly OrderRow[] {
  const words = plain(text)
    .split(/\s+/)
    .filter((word) => word !== '');
  return rows.filter((row) => {
    if (state !== null && row.state !== state) return false;
    const held = plain([row.id, row.buyer, row.container, row.service, row.reason, row.bench].join(' '));
    return words.every((word) => held.includes(word));
  });
}

/** Numbers by size, "9" before "10" inside texts, empty ones last either way. */
export function sorted(rows: readonly OrderRow[], { by, descending }: Sorting): readonly OrderRow[] {
  return [...rows].sort((a, b) => {
    const [left, right] = [a[by], b[by]];
    if (left === null || right === null) return left === right ? 0 : left === null ? 1 : -1;
    const order =
      typeof left === 'number' && typeof right === 'number'
        ? left - right
        : String(left).localeCompare(String(right), undefined, { numeric: true, sensitivity: 'base' });
    return descending ? -order : order;
  });
}

/** Lower case, accents off, so that "perez" finds "Pérez". */
function plain(text: string): string {
  return text.normalize('NFD').replace(/\p{M}/gu, '').toLowerCase();
}
