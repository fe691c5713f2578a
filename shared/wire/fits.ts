import type { ContainerType, Fit } from '#shared/fitting/types.ts';
import type { LaidStack } from '#shared/planning/what-fits.ts';
import type { PlanCost } from '#shared/planning/types.ts';
import type { LengthUnit } from '#shared/units/length.ts';
import type { MassUnit } from '#shared/units/mass.ts';
import type { Localised } from '#shared/words/language.ts';

/** What can be chosen on the "What fits" page. GET /api/wardrobe */
export interface WardrobeView {
  readonly kinds: readonly {
    readonly id: string;
    readonly name: Localised;
    readonly sizes: readonly string[];
    readonly defaultSize: string;
    /** null for things that are not cloth */
    readonly defaultCloth: string | null;
  }[];
  readonly cloths: readonly { readonly id: string; readonly name: Localised }[];
  readonly units: { readonly mass: MassUnit; readonly massPlaces: number; readonly length: LengthUnit };
  readonly to: { readonly postcode: string; readonly country: string };
}

/**
 * What is asked. GET /api/what-fits with the query `sku` (several), or `kind` with `size`, `cloth` and `mass` ("12.5 oz");
 * `to` and `country` name the address, the shop's own when absent.
 */
export interface FitsView {
  readonly units: WardrobeView['units'];
  readonly currency: string;
  readonly to: WardrobeView['to'];
  readonly pieces: readonly {
    readonly sku: string;
    readonly title: string;
    readonly kind: Localised;
    readonly cloth: Localised | null;
    readonly grams: number;
    readonly sd: number;
    /** weighed at intake; else expected */
    readonly weighed: boolean;
    readonly assumed: readonly ('size' | 'cloth')[];
  }[];
  readonly containers: readonly ContainerFitView[];
  readonly leftOut: readonly { readonly name: Localised; readonly why: Localised }[];
  /** containers of the cheapest plan, one a parcel; empty when there is none */
  readonly parcels: readonly { readonly container: Localised; readonly titles: readonly string[] }[];
  readonly cost: PlanCost | null;
  readonly why: Localised | null;
  readonly proven: boolean;
  /** minor units; null where the plan is proven or there is none */
  readonly lowerBound: number | null;
}

/** One container to scale; lengths in float millimetres, money in minor units. */
export interface ContainerFitView {
  readonly id: string;
  readonly name: Localised;
  readonly type: ContainerType;
  readonly inside: { readonly width: number; readonly length: number; readonly depth: number | null };
  readonly closing: number;
  readonly stack: LaidStack;
  readonly fit: Pick<Fit, 'verdict' | 'probability' | 'slack' | 'turned' | 'limit'>;
  readonly wrap: Localised;
  readonly folds: readonly { readonly title: string; readonly recipe: Localised; readonly steps: number }[];
  readonly cost: PlanCost | null;
  readonly service: { readonly name: Localised; readonly days: readonly [number, number] | null } | null;
  readonly isChosen: boolean;
  readonly why: Localised;
  readonly services: readonly { readonly name: Localised; readonly why: Localised }[];
}
