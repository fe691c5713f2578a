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

/** A mass of known size, such as a check weight with its certificate. */
export interface ReferenceMass {
  readonly mass: Mass;
  /** half-width of what it may differ by from what is stamped on it */
  readonly plusMinus: Mass;
}

/** Something put on after the weighing. */
export interface Addition {
  readonly name: string;
  readonly mass: Mass;
  /** half-width of its spread */
  readonly plusMinus: Mass;
}

export interface UncertaintyComponent {
  readonly name: 'resolution' | 'tolerance' | 'drift' | 'addition' | 'reference' | 'learned';
  readonly of?: string;
  /** half-width of a rectangular distribution; of a learned mean its expanded uncertainty, k = 2 */
  readonly halfWidth: Mass;
  /** standard uncertainty in grams: half-width / sqrt 3 (JCGM 100:2008, 4.3.7), or of a mean s / sqrt n (4.2.3) */
  readonly standardGrams: number;
}

/** A mass against a bracket's ceiling. */
export interface Verdict {
  readonly verdict: 'clear' | 'close' | 'over';
  /** reading plus what is still to come, plus what the carrier has been finding on top */
  readonly total: Mass;
  /** the part of the total that was learned from the carrier's corrections; absent without any */
  readonly learned?: Mass;
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
