import type { SackVerdict } from '#shared/hand-over/sack.ts';
import type { Mass, MassUnit } from '#shared/units/mass.ts';
import type { Localised } from '#shared/words/language.ts';

/** A finished parcel that has not left, or that is on a sheet. */
export interface HandedParcel {
  readonly id: number;
  readonly order: string;
  readonly number: number;
  readonly of: number;
  /** the number on its label; null where that was checked by eye */
  readonly label: string | null;
  readonly buyer: string;
  readonly carrier: string;
  readonly service: Localised;
  /** as it left the bench: what the scale showed and what came on afterwards */
  readonly mass: Mass;
  readonly finishedAt: number;
  readonly bench: string;
  /** it should have left already */
  readonly overdue: boolean;
}

/** A carrier's next collection: what lies in the sack for it and what is still missing. */
export interface CarrierSack {
  readonly carrier: string;
  readonly name: Localised;
  /** null where the carrier never comes */
  readonly collection: { readonly day: string; readonly at: string } | null;
  /** null until the first parcel is in, or somebody begins it */
  readonly sack: number | null;
  /** the bench whose scanner loads it */
  readonly bench: string | null;
  readonly inSack: readonly HandedParcel[];
  readonly missing: readonly HandedParcel[];
  readonly mass: Mass;
}

export interface SheetRow {
  readonly id: number;
  readonly carrier: string;
  readonly name: Localised;
  readonly day: string;
  readonly at: string;
  readonly closedAt: number;
  readonly closedBy: string | null;
  readonly count: number;
  readonly mass: Mass;
}

export interface HandOverView {
  readonly now: number;
  readonly timeZone: string;
  readonly unit: MassUnit;
  readonly places: number;
  readonly carriers: readonly CarrierSack[];
  /** labelled, should have left, and did not */
  readonly overdue: readonly HandedParcel[];
  /** the newest first */
  readonly sheets: readonly SheetRow[];
}

/** What was handed over at one collection. */
export interface Sheet extends SheetRow {
  readonly shop: string;
  readonly parcels: readonly HandedParcel[];
}

export interface SackScan {
  readonly verdict: SackVerdict;
  readonly text: string;
  /** the parcel that was meant, where there is one */
  readonly parcel: HandedParcel | null;
  readonly view: HandOverView;
}

/** The sack that a bench's scanner loads, as the bench shows it. */
export interface BenchSack {
  readonly carrier: Localised;
  readonly at: string;
  readonly count: number;
  readonly missing: number;
}

/** What the owner should look after first. */
export interface Attention {
  /** parcels that should have left */
  readonly overdue: number;
  /** supplies that run short */
  readonly short: number;
  /** label requests that were given up, lack facts, or were bought for nothing */
  readonly labels: number;
  /** the shop should have been backed up and was not */
  readonly backup: boolean;
  /** names of benches where help is asked for */
  readonly help?: readonly string[];
}

/**
 * HTTP contract:
 * GET  /api/attention -> Attention
 * GET  /api/hand-over -> HandOverView
 * POST /api/hand-over/:carrier/begin { bench } -> HandOverView: that bench's scanner loads it, null for none
 * POST /api/hand-over/:carrier/scan { text } -> SackScan
 * POST /api/hand-over/:carrier/put { parcel } -> SackScan, for a parcel whose label no scanner reads
 * POST /api/hand-over/:carrier/take-out { parcel } -> HandOverView
 * POST /api/hand-over/:carrier/close { by, leave } -> Sheet; `leave` is how many may stay behind
 * POST /api/hand-over/parcels/:id/keep { reason } -> HandOverView: the parcel never leaves
 * GET  /api/hand-over/sheets/:id -> Sheet
 * POST /api/hand-over/sheets/:id/print { bench, language } -> PrintPreview
 * POST /api/hand-over-cards { bench, language, print } -> PrintPreview: a card of each carrier's sack, to scan at a bench
 */
