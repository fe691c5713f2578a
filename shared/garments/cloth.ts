import type { Cloth } from './types.ts';
import { GarmentError } from './garment-error.ts';

/** The two pressures, in kPa, at which a cloth's thicknesses are given: hardly touched, and pressed. */
export const FREE_PRESSURE = 0.049;
export const FULL_PRESSURE = 4.9;

/** A folded piece lying by itself; its own weight is about a fiftieth of a kilopascal. */
export const RESTING_PRESSURE = FREE_PRESSURE;

/** A hand leaning with about five kilograms on a block of 20 x 25 cm. */
export const HAND_PRESSURE = 1;

/** The two constants of a cloth's compression: stiffness in kPa mm3 and thickness in mm under no pressure. */
export interface Compression {
  readonly stiffness: number;
  readonly uncompressed: number;
}

/** Cloth that gives more between the two pressures than (4.9 / 0.049)^(1/3) times follows another law than the fit's. */
export const MOST_GIVING = 4.6;

/**
 * Fits P = k (1/h^3 - 1/h0^3) through two measured thicknesses.
 *
 * The form is that of C. M. van Wyk, "Note on the compressibility of wool", Journal of the Textile Institute 37 (1946);
 * an empirical fit: how well the cube holds for a woven cloth is disputed.
 * @param free thickness in mm at 0.049 kPa
 * @param pressed thickness in mm at 4.9 kPa
 * @throws GarmentError bad-measure unless 0 < pressed < free and free is at most {@link MOST_GIVING} times pressed
 */
export function fitCompression(free: number, pressed: number): Compression {
  if (!(pressed > 0) || !(free > pressed)) {
    throw new GarmentError(
      'bad-measure',
      `cloth: expected a free thickness above the pressed one and both above 0 mm, found ${free} and ${pressed}`,
    );
  }
  if (free > MOST_GIVING * pressed) {
    throw new GarmentError(
      'bad-measure',
      `cloth: expected a free thickness of at most ${MOST_GIVING} times the pressed one, found ${free} and ${pressed} mm`,
    );
  }
  const stiffness = (FULL_PRESSURE - FREE_PRESSURE) / (pressed ** -3 - free ** -3);
  const inverseCube = free ** -3 - FREE_PRESSURE / stiffness;
  return { stiffness, uncompressed: inverseCube ** (-1 / 3) };
}

/**
 * Thickness of one layer in mm under a pressure in kPa: h = (P/k + h0^-3)^(-1/3).
 * @throws GarmentError bad-measure on a negative pressure
 */
export function compressedThickness(compression: Compression, pressure: number): number {
  if (!(pressure >= 0)) throw new GarmentError('bad-measure', `pressure: expected 0 kPa or more, found ${pressure}`);
  return (pressure / compression.stiffness + compression.uncompressed ** -3) ** (-1 / 3);
}

/** N on a square metre of a cloth of 1 g/m2. */
const WEIGHT_OF_GRAM = 9.80665e-3;

/** What bending a strip takes, in N m for each metre of its width: weight x bending length cubed (Peirce 1930). */
export function flexuralRigidity({ arealMass, bendingLength }: Pick<Cloth, 'arealMass' | 'bendingLength'>): number {
  return arealMass * WEIGHT_OF_GRAM * (bendingLength / 1000) ** 3;
}

const fits = new WeakMap<Cloth, Compression>();

/** Thickness of one layer of a cloth in mm under a pressure in kPa. */
export function clothThickness(cloth: Cloth, pressure: number): number {
  let fit = fits.get(cloth);
  if (fit === undefined) {
    fit = fitCompression(cloth.thicknessFree, cloth.thicknessPressed);
    fits.set(cloth, fit);
  }
  return compressedThickness(fit, pressure);
}
