import type { StockState, SupplyUnit } from '#shared/supplies/types.ts';
import type { LengthUnit } from '#shared/units/length.ts';
import type { Money } from '#shared/units/money.ts';
import type { Localised } from '#shared/words/language.ts';

/** used: by a parcel; counted: the shelf was counted; received, ordered; taken: anything else that left the shelf */
export const STOCK_MOVES = ['used', 'counted', 'received', 'ordered', 'taken'] as const;
export type StockMoveKind = (typeof STOCK_MOVES)[number];

/** A supply as it stands. Amounts are in its unit: whole pieces, or base units of a length. */
export interface SupplyRow {
  readonly id: string;
  readonly name: Localised;
  readonly unit: SupplyUnit;
  readonly container: string | null;
  readonly pack: number;
  readonly state: StockState;
  /** null where nobody has counted */
  readonly onHand: number | null;
  readonly onOrder: number;
  readonly demand: { readonly mean: number; readonly sd: number };
  readonly leadTime: { readonly mean: number; readonly sd: number };
  readonly safetyStock: number;
  readonly reorderPoint: number;
  /** null where nothing is used, or nobody has counted */
  readonly daysOfCover: number | null;
  readonly toOrder: { readonly packs: number; readonly amount: number; readonly cost: Money | null };
  readonly countedAt: number | null;
}

export interface SuppliesView {
  readonly now: number;
  readonly timeZone: string;
  readonly shown: LengthUnit;
  readonly serviceLevel: number;
  readonly demandDays: number;
  readonly coverDays: number;
  readonly rows: readonly SupplyRow[];
}

export interface StockMoveRow {
  readonly id: number;
  readonly kind: StockMoveKind;
  readonly amount: number;
  readonly after: number | null;
  /** "4101/1": the order and which of its parcels */
  readonly parcel: string | null;
  readonly reason: string;
  readonly who: string | null;
  readonly at: number;
}

export interface SupplyHistory {
  readonly item: string;
  /** oldest first, days without a parcel as 0 */
  readonly days: readonly { readonly day: string; readonly used: number }[];
  /** newest first */
  readonly moves: readonly StockMoveRow[];
}

/** What a person says of the shelf. */
export interface StockEntry {
  readonly kind: Exclude<StockMoveKind, 'used'>;
  /** as typed: "120", "54.7 yd" */
  readonly amount: string;
  readonly in: 'unit' | 'pack';
  readonly reason: string;
  readonly who: string | null;
}

/** A supply that wants looking after, as a bench shows it. */
export interface ShortSupply {
  readonly name: Localised;
  readonly state: 'low' | 'out';
  readonly left: string;
}

/**
 * HTTP contract:
 * GET  /api/supplies -> SuppliesView
 * GET  /api/supplies/:item -> SupplyHistory
 * POST /api/supplies/:item StockEntry -> SuppliesView
 * GET  /api/exports/supplies.csv
 * POST /api/supplies-order-list { bench, language } -> PrintPreview
 */
