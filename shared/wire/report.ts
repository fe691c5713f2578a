import type { ReportBy, ReportGroup, ReportSums } from '#shared/reports/report.ts';
import type { MassUnit } from '#shared/units/mass.ts';
import type { Localised } from '#shared/words/language.ts';

export interface NamedGroup extends ReportGroup {
  readonly name: Localised;
}

/** A parcel that the carrier weighed again. Masses in grams, floats. */
export interface CorrectedParcel {
  readonly order: string;
  readonly number: number;
  readonly label: string | null;
  readonly day: string;
  readonly bench: string;
  readonly service: Localised;
  readonly ours: number;
  readonly carriers: number;
  readonly ceiling: number;
  /** what our weighing said it could be wrong by */
  readonly uncertainty: number;
}

/** Money and quality of the parcels finished from one day to another, both counted in. */
export interface Report {
  readonly from: string;
  readonly to: string;
  readonly by: ReportBy;
  readonly currency: string;
  readonly unit: MassUnit;
  readonly sums: ReportSums;
  readonly groups: readonly NamedGroup[];
  readonly corrected: readonly CorrectedParcel[];
}

/**
 * HTTP contract:
 * GET /api/report?from=2026-11-01&to=2026-11-25&by=day -> Report; the last 28 days by day where nothing is said
 * GET /api/exports/report.csv, with the same
 */
