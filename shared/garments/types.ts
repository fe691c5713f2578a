import type { Mass } from '#shared/units/mass.ts';
import type { Money } from '#shared/units/money.ts';
import type { Localised } from '#shared/words/language.ts';

/** Outline families that the folding geometry can draw and fold; `block` is a rigid thing that is never folded. */
export const OUTLINES = ['top', 'legs', 'skirt', 'dress', 'strip', 'block'] as const;
export type Outline = (typeof OUTLINES)[number];

/**
 * Flat measures in float millimetres, as a garment lies buttoned on a table. Only those that its outline uses are given.
 */
export interface FlatMeasures {
  /** body width, side to side (half the chest girth); waist width of legs and skirts */
  readonly width: number;
  /** shoulder to hem; waist to hem of legs and skirts */
  readonly length: number;
  /** from the shoulder seam, along the sleeve */
  readonly sleeveLength?: number;
  /** across the sleeve at its top */
  readonly sleeveWidth?: number;
  /** how deep the front of the neckline dips below the shoulder line */
  readonly neckDepth?: number;
  /** height of the hood above the shoulder line */
  readonly hoodHeight?: number;
  /** widest place below the waist; of legs and skirts, a tenth more than the waist when not given */
  readonly hipWidth?: number;
  /** crotch to hem */
  readonly inseam?: number;
  /** across one leg at the hem */
  readonly hemWidth?: number;
  /** widest flare of a skirt or a dress at its hem */
  readonly flareWidth?: number;
  /** height of a `block` as it lies */
  readonly height?: number;
}

/** How a cloth is made, squeezed and bent. Areal mass in g/m2; thicknesses in mm at 0.049 kPa and 4.9 kPa. */
export interface Cloth {
  readonly id: string;
  readonly name: Localised;
  readonly arealMass: number;
  readonly thicknessFree: number;
  readonly thicknessPressed: number;
  /** one standard deviation of thickness, as a part of it */
  readonly thicknessSpread: number;
  /**
   * Stiffness, in mm: half of what a strip, pushed out over an edge, sticks out when its tip has sunk by 41.5 degrees
   * (F. T. Peirce, "The 'handle' of cloth as a measurable quantity", Journal of the Textile Institute 21, 1930)
   */
  readonly bendingLength: number;
  /** false where pressing would harm: leather, sequins */
  readonly mayPress: boolean;
  /** false where a crease would stay: leather cracks, sequins break */
  readonly mayCrease?: boolean;
  /** where the values come from */
  readonly source: string;
}

/** Parts that a drawing shows on top of the outline; they are folded along with it. */
export const DETAILS = [
  'collar',
  'placket',
  'zip',
  'chest-pocket',
  'front-pockets',
  'waistband',
  'cuffs',
  'lapels',
] as const;
export type Detail = (typeof DETAILS)[number];

/** What a kind of garment weighs, in float grams. */
export interface MassModel {
  readonly mean: number;
  readonly sd: number;
}

/** A kind of garment: "T-shirt", "jeans". */
export interface Kind {
  readonly id: string;
  readonly name: Localised;
  readonly outline: Outline;
  readonly sizes: Readonly<Record<string, FlatMeasures>>;
  readonly defaultSize: string;
  readonly defaultCloth: string;
  readonly mass: MassModel;
  /** how much of the outline's area carries cloth: 2 for front and back, more with a lining, pockets, a collar */
  readonly clothLayers: number;
  /** what the drawing shows besides the outline */
  readonly details?: readonly Detail[];
  /** how much thicker its folded pieces proved to be than the sums say, as it was learned; exactly as they say when absent */
  readonly thicknessFactor?: { readonly mean: number; readonly sd: number };
  /** false where pressing would harm whatever the cloth: padded shoulders, feathers, a stiff brim */
  readonly mayPress?: boolean;
  /** recipe ids, preferred first; empty for a `block` */
  readonly recipes: readonly string[];
  /** recipe ids for cloth that must not be creased across, which are rolled; the others where there are none */
  readonly uncreased?: readonly string[];
  /** cautions shown once where they apply, by id (see the cue texts) */
  readonly cautions: readonly string[];
  readonly source: string;
}

/** One garment or accessory with its own SKU. Optional facts fall back to the kind's defaults, with a wider spread. */
export interface Piece {
  readonly sku: string;
  readonly title: string;
  readonly kind: string;
  readonly size?: string;
  readonly cloth?: string;
  readonly colour?: string;
  /** weighed at intake */
  readonly mass?: Mass;
  /** measured on this piece, overriding the size's measures */
  readonly measured?: Partial<FlatMeasures>;
  readonly value?: Money;
  /** shelf or bin */
  readonly place?: string;
  /** where it was made, for the customs: ISO 3166-1, two letters */
  readonly origin?: string;
  /** tariff number of the Harmonized System; its kind's in the shop's files without it */
  readonly hsCode?: string;
}

/** The garment part of the shop's config. */
export interface Wardrobe {
  readonly kinds: ReadonlyMap<string, Kind>;
  readonly cloths: ReadonlyMap<string, Cloth>;
}
