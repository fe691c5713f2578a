import type { MassEstimate } from './expected-postage.ts';
import type { Container, Wrap } from '#shared/fitting/types.ts';
import { addMass, toGrams, ZERO_MASS, type Mass } from '#shared/units/mass.ts';
import type { Addition } from '#shared/weighing/types.ts';

/** What is put on after the weighing, together: label, tape, slip. Half-widths add up, as the worst case. */
export function toComeOf(additions: readonly Addition[]): { readonly mass: Mass; readonly plusMinus: Mass } {
  return {
    mass: addMass(ZERO_MASS, ...additions.map((addition) => addition.mass)),
    plusMinus: addMass(ZERO_MASS, ...additions.map((addition) => addition.plusMinus)),
  };
}

/**
 * The finished parcel: pieces, container, wrap and what comes after the weighing. Spreads are independent and add as
 * squares; an addition is anywhere within its half-width (rectangular, so half-width / sqrt 3).
 *
 * @param pieces the pieces' masses in grams
 */
export function parcelMass(
  pieces: readonly MassEstimate[],
  container: Container,
  wrap: Wrap,
  additions: readonly Addition[],
): MassEstimate {
  let mean = toGrams(container.mass) + toGrams(wrap.massPerPiece) * pieces.length;
  let variance = toGrams(container.massSd) ** 2;
  for (const piece of pieces) {
    mean += piece.mean;
    variance += piece.sd ** 2;
  }
  for (const addition of additions) {
    mean += toGrams(addition.mass);
    variance += toGrams(addition.plusMinus) ** 2 / 3;
  }
  return { mean, sd: Math.sqrt(variance) };
}
