import type { Mass, MassUnit } from '#shared/units/mass.ts';

/** What the scale said, decoded from one good frame. */
export interface Reading {
  readonly mass: Mass;
  /** unit and decimals as the device showed them */
  readonly unit: MassUnit;
  readonly places: number;
  /** smallest step of the display, from the decimals or the config */
  readonly division: Mass;
  readonly stability: 'still' | 'moving' | 'unknown';
  readonly net: boolean;
  readonly condition: 'ok' | 'over' | 'under' | 'fault';
  /** milliseconds since the epoch, from the injected clock */
  readonly at: number;
}

/** What a weighing can be wrong by. Own figure or an accuracy class. */
export type Accuracy =
  | { readonly kind: 'hb44'; readonly when: 'in-service' | 'acceptance' }
  | { readonly kind: 'r76'; readonly when: 'in-service' | 'verification' }
  | { readonly kind: 'own'; readonly plusMinus: Mass };

/** Something put on after the weighing. */
export interface Addition {
  readonly name: string;
  readonly mass: Mass;
  /** half-width of its spread */
  readonly plusMinus: Mass;
}

export interface UncertaintyComponent {
  readonly name: 'resolution' | 'tolerance' | 'drift' | 'addition';
  readonly of?: string;
  /** half-width of a rectangular distribution */
  readonly halfWidth: Mass;
  /** standard uncertainty in grams: half-width / sqrt 3 (JCGM 100:2008, 4.3.7) */
  readonly standardGrams: number;
}

/** A mass against a bracket's ceiling. */
export interface Verdict {
  readonly verdict: 'clear' | 'close' | 'over';
  /** reading plus what is still to come */
  readonly total: Mass;
  readonly ceiling: Mass;
  /** ceiling less total: positive below it */
  readonly margin: Mass;
  /** expanded uncertainty, k = 2 */
  readonly uncertainty: Mass;
  /** sum of all half-widths */
  readonly worstCase: Mass;
  readonly probabilityOver: number;
  readonly components: readonly UncertaintyComponent[];
}
