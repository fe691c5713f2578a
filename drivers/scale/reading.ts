import { massFromDecimal, ZERO_MASS, type Mass, type MassUnit } from '#shared/units/mass.ts';
import type { Reading } from '#shared/weighing/types.ts';
import type { ScaleFrame } from './frames.ts';

type GoodFrame = Extract<ScaleFrame, { kind: 'weight' | 'no-weight' }>;

/** The step of a display's last digit: 0.1 oz for one decimal of ounces. */
function lastDigit(unit: MassUnit, places: number): Mass {
  return massFromDecimal(places === 0 ? '1' : `0.${'1'.padStart(places, '0')}`, unit);
}

/**
 * A good frame as a reading.
 *
 * The division is the configured one when the display can step by it; after the units were switched at the scale it is
 * the step of the last digit shown. A frame without a weight has mass 0 and is marked by its condition.
 */
export function readingFrom(frame: GoodFrame, division: Mass, unit: MassUnit, at: number): Reading {
  if (frame.kind === 'no-weight') {
    const { condition } = frame;
    return { mass: ZERO_MASS, unit, places: 0, division, stability: 'unknown', net: false, condition, at };
  }
  const step = lastDigit(frame.unit, frame.places);
  return {
    mass: frame.mass,
    unit: frame.unit,
    places: frame.places,
    division: division >= step && division % step === 0 ? division : step,
    stability: frame.stability,
    net: frame.net,
    condition: 'ok',
    at,
  };
}
