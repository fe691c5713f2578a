import type { Change } from '#shared/audit/changes.ts';

/** A change as the office lists it. */
export interface ChangeRow extends Required<Change> {
  readonly id: number;
  /** epoch ms */
  readonly at: number;
  /** of whoever did it; the id where the shop knows them no more */
  readonly name: string | null;
}

/** The newest changes, the last one first, and whether there are older ones. */
export interface ChangesView {
  readonly rows: readonly ChangeRow[];
  readonly more: boolean;
  readonly timeZone: string;
}

/**
 * HTTP contract:
 * GET /api/changes?before= -> ChangesView; with `before`, an id, those that came before that one
 */
export const CHANGES_A_PAGE = 500;
