import type { Mass, MassUnit } from '#shared/units/mass.ts';
import type { Reading } from '#shared/weighing/types.ts';

export type DiscardReason =
  /** no known form */
  | 'form'
  /** the tail of a frame whose beginning was not seen */
  | 'no-start'
  /** longer than any frame */
  | 'too-long'
  /** another length, unit or number of decimals than the frames around it: bytes were lost or damaged on the way */
  | 'odd-shape'
  /** a well-formed number in a unit that this station does not count in, or in none */
  | 'unit'
  /** a number that is finer or larger than this station counts */
  | 'number';

/** What a scale decoder makes of the bytes. Garbage is an arm of its own, never a plausible number. */
export type ScaleFrame =
  | {
      readonly kind: 'weight';
      readonly mass: Mass;
      readonly unit: MassUnit;
      readonly places: number;
      readonly stability: Reading['stability'];
      readonly net: boolean;
    }
  /** a good frame that says there is no weight to be had */
  | { readonly kind: 'no-weight'; readonly condition: Exclude<Reading['condition'], 'ok'>; readonly says: string }
  /** what the scale takes off every weight: no load, but an answer to who asks for it */
  | { readonly kind: 'tare'; readonly mass: Mass; readonly unit: MassUnit; readonly places: number }
  /** the scale did not take our command */
  | { readonly kind: 'refused'; readonly why: 'unknown-command' | 'communication-error' }
  /** text that is no weight: who the scale is */
  | { readonly kind: 'text'; readonly text: string }
  /** what the scale found wrong with itself; empty when nothing */
  | { readonly kind: 'diagnostics'; readonly faults: readonly ('ram' | 'eeprom' | 'calibration')[] }
  | { readonly kind: 'discarded'; readonly why: DiscardReason; readonly bytes: Uint8Array };

/** Turns chunks of bytes, however they were split, into frames. One for each connection. */
export interface ScaleDecoder {
  push(chunk: Uint8Array): readonly ScaleFrame[];
}
