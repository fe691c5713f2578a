import { HAND_PRESSURE, RESTING_PRESSURE, clothThickness, flexuralRigidity } from '#shared/garments/cloth.ts';
import type { Cloth, MassModel } from '#shared/garments/types.ts';

const GRAMS_PER_M2 = 1e-6;

/** Area of cloth in mm2 that a mass in g of it is. */
export function clothArea(grams: number, cloth: Cloth): number {
  return grams / (cloth.arealMass * GRAMS_PER_M2);
}

/**
 * Thickness in mm of a mass of cloth spread over a footprint in mm2 under a pressure in kPa, without fold edges:
 * mass / areal mass is the cloth's area, times its thickness at that pressure is its volume.
 */
export function spreadThickness(grams: number, cloth: Cloth, footprint: number, pressure: number): number {
  return (clothArea(grams, cloth) * clothThickness(cloth, pressure)) / footprint;
}

/** How much of the height of the loop at a fold edge the whole block gains. Assumed; parcels teach it by kind. */
const EDGE_SHARE = 0.3;

/**
 * Extra thickness in mm that a block has under a pressure in kPa for the fold edge that bends the most layers. Layers that
 * slide on each other bend as so many strips, and a bent strip springs open against a pressure to a loop in proportion to
 * the cube root of rigidity / pressure (the only length that the two make).
 */
export function edgeBulge(cloth: Cloth, bentLayers: number, pressure: number): number {
  return EDGE_SHARE * 1000 * Math.cbrt((bentLayers * flexuralRigidity(cloth)) / (pressure * 1000));
}

export interface Thickness {
  readonly resting: number;
  readonly pressed: number;
  /** one standard deviation of the resting thickness */
  readonly sd: number;
}

/**
 * Thickness of a folded piece in mm, resting and under a hand, with its spread from the cloth and from the mass.
 * @param footprint mm2 that the folded piece covers
 * @param bentLayers layers bent at the fold edge that bends the most
 */
export function foldedThickness(mass: MassModel, cloth: Cloth, footprint: number, bentLayers: number): Thickness {
  const resting = spreadThickness(mass.mean, cloth, footprint, RESTING_PRESSURE);
  const relative = Math.hypot(cloth.thicknessSpread, mass.mean > 0 ? mass.sd / mass.mean : 0);
  return {
    resting: resting + edgeBulge(cloth, bentLayers, RESTING_PRESSURE),
    pressed: spreadThickness(mass.mean, cloth, footprint, HAND_PRESSURE) + edgeBulge(cloth, bentLayers, HAND_PRESSURE),
    sd: resting * relative,
  };
}
