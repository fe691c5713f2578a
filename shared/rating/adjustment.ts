import type { Length } from '#shared/units/length.ts';
import type { Mass } from '#shared/units/mass.ts';
import type { Localised } from '#shared/words/language.ts';
import type { Dates } from './dates.ts';
import type { DestinationSet } from './rate-card.ts';
import type { Form } from './types.ts';
import type { Volume } from './volume.ts';

/** When a surcharge or a discount applies. */
export type Condition =
  | { readonly when: 'always' }
  | {
      readonly when: 'longest-side' | 'second-side' | 'shortest-side' | 'length-and-girth';
      readonly over: Length;
      readonly measured: 'raw' | 'rounded';
    }
  | { readonly when: 'volume'; readonly over: Volume }
  | { readonly when: 'mass'; readonly over: Mass }
  | { readonly when: 'smaller-than'; readonly least: readonly Length[] }
  | { readonly when: 'form'; readonly form: Form }
  | { readonly when: 'residential' }
  | { readonly when: 'destination'; readonly to: readonly DestinationSet[] }
  | { readonly when: 'zone'; readonly zones: readonly string[] };

/** How many minor units it comes to. */
export type Amount =
  | { readonly kind: 'amount'; readonly minor: number }
  | {
      readonly kind: 'per-cent';
      /** parts of a million, so that 7.25 per cent is 72,500 */
      readonly millionths: number;
      /** of the price after discounts, or of that and the surcharges before this one */
      readonly of: 'price' | 'total';
      /** to a multiple of so many minor units */
      readonly step: number;
      readonly mode: 'down' | 'nearest' | 'up';
    };

/** A surcharge (put on) or a discount (taken off). */
export interface Adjustment extends Dates {
  readonly id: string;
  readonly name: Localised;
  /** applies when any of these does */
  readonly when: readonly Condition[];
  readonly amount: Amount;
  /** of those that share a group, only the largest counts */
  readonly group?: string;
}

/** What a per cent is reckoned of. */
export function baseOf(amount: Amount, price: number, total: number): number {
  return amount.kind === 'per-cent' && amount.of === 'total' ? total : price;
}

/** Minor units of an amount on a price. Integers throughout. */
export function amountOf(amount: Amount, price: number, total: number): number {
  if (amount.kind === 'amount') return amount.minor;
  const parts = baseOf(amount, price, total) * amount.millionths;
  const step = amount.step * 1_000_000;
  const rest = parts % step;
  const whole = (parts - rest) / step;
  const up = rest !== 0 && (amount.mode === 'up' || (amount.mode === 'nearest' && rest * 2 >= step));
  return (up ? whole + 1 : whole) * amount.step;
}
