import type { Localised } from '#shared/words/language.ts';
import type { MassUnit } from '#shared/units/mass.ts';

/** What parcels taught of one kind, beside what its file says. Masses in float grams, of the default size and cloth. */
export interface LearnedRow {
  readonly kind: string;
  readonly name: Localised;
  readonly mass: {
    readonly prior: { readonly mean: number; readonly sd: number };
    readonly now: { readonly mean: number; readonly sd: number };
    /** parcels learned from */
    readonly parcels: number;
  };
  /** how many times as thick as the sums say its folded pieces are */
  readonly thickness: {
    readonly prior: { readonly mean: number; readonly sd: number };
    readonly now: { readonly mean: number; readonly sd: number };
    readonly closed: number;
    readonly tooTight: number;
  };
  readonly outliers: readonly LearnedOutlier[];
}

/** Something so unlikely that it was shown and not learned. */
export type LearnedOutlier =
  | {
      readonly about: 'mass';
      readonly order: string;
      readonly container: string;
      readonly at: number;
      readonly grams: number;
      readonly deviations: number;
    }
  | {
      readonly about: 'closing';
      readonly order: string;
      readonly container: string;
      readonly at: number;
      readonly closed: boolean;
      readonly chance: number;
    };

/** GET /api/learned; POST /api/learned/:kind/reset answers the same after forgetting that kind. */
export interface LearnedView {
  readonly units: { readonly mass: MassUnit; readonly massPlaces: number };
  readonly rows: readonly LearnedRow[];
}
