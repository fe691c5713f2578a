import type { Length } from '#shared/units/length.ts';
import type { Mass } from '#shared/units/mass.ts';
import type { Money } from '#shared/units/money.ts';
import type { Localised } from '#shared/words/language.ts';

export const CONTAINER_TYPES = ['pouch', 'card', 'carton'] as const;
export type ContainerType = (typeof CONTAINER_TYPES)[number];

/** A kind of packaging. */
export interface Container {
  readonly id: string;
  readonly name: Localised;
  readonly type: ContainerType;
  /** the carrier that owns it, for prices valid only in its own packaging */
  readonly ownedBy?: string;
  /** inside, lying flat: width and length of pouch and card; width, length and depth of a carton */
  readonly inside: { readonly width: Length; readonly length: Length; readonly depth?: Length };
  /** outside; of a pouch and a card, lying flat */
  readonly outside: { readonly width: Length; readonly length: Length; readonly depth?: Length };
  /** taken from the length of a pouch or a card to close it */
  readonly closing: Length;
  /** a card's own cap, or the carrier's, on thickness when closed */
  readonly thicknessCap?: Length;
  /** padding, per wall */
  readonly wall: Length;
  readonly mass: Mass;
  readonly massSd: Mass;
  readonly cost: Money;
  /** seconds to make it up and close it */
  readonly seconds: number;
  /** "film bag near children" and such, by id */
  readonly cautions: readonly string[];
  /** one pouch in another: the ids of both; the carrier sees the outer one */
  readonly doubled?: { readonly outer: string; readonly inner: string };
}

/** One thing done to wrap a piece: a sheet folded around it, or a bag that it goes into. */
export interface WrapStep {
  readonly into: 'sheet' | 'bag';
  readonly words: Localised;
  readonly spoken: Localised;
  readonly why?: Localised;
  readonly avoid?: Localised;
}

/** Tissue, inner bag or nothing. */
export interface Wrap {
  readonly id: string;
  readonly name: Localised;
  readonly massPerPiece: Mass;
  readonly costPerPiece: Money;
  readonly secondsPerPiece: number;
  /** what is done to each piece once it is folded; nothing when absent */
  readonly steps?: readonly WrapStep[];
  /** float mm added to a piece's thickness */
  readonly thickness: number;
  /** "film bag near children" and such, by id */
  readonly cautions?: readonly string[];
}

export type FitVerdict = 'easy' | 'snug' | 'no';

/** How a stack of folded pieces sits in a container. Slacks in float millimetres, negative by how much it fails. */
export interface Fit {
  readonly verdict: FitVerdict;
  /** that it closes, 0..1 */
  readonly probability: number;
  readonly slack: { readonly width: number; readonly length: number; readonly thickness: number };
  /** the stack lies across the container */
  readonly turned: boolean;
  /** the pieces lie in so many piles side by side; one when not given */
  readonly piles?: number;
  /** the filled container's outside, float mm: what a carrier measures */
  readonly filled: { readonly width: number; readonly length: number; readonly thickness: number };
  /** the direction that fails or is tightest */
  readonly limit: 'width' | 'length' | 'thickness' | 'thickness-cap' | 'must-not-press';
}
