import { describe, expect, it } from 'vitest';
import { multipliers, postureLimit, recommendedLimit, type Lift, DEFAULT_POSTURE } from '#shared/care/lifting.ts';

/**
 * Applications Manual for the Revised NIOSH Lifting Equation (DHHS (NIOSH) publication 94-110, rev. 2021), example 1, loading
 * a punch press: 44 lb from H 23, V 15 to H 23, V 64, D 49 in, no turn, fair coupling, seldom. The manual rounds each
 * multiplier to two places before it multiplies.
 */
const origin: Lift = { horizontal: 23, vertical: 15, travel: 49, turn: 0, coupling: 'fair', perMinute: 0.2, hours: 1 };
const destination: Lift = { ...origin, vertical: 64 };

const twoPlaces = (value: number) => Math.round(Number((value * 100).toFixed(6))) / 100;

/** Multipliers as the example prints them; its table has .44 for H 23 where 10 / 23 is .4348. */
const PRINTED = [
  { lift: origin, limit: 16.3, index: 2.7, of: { horizontal: 0.44, vertical: 0.89, distance: 0.86, coupling: 0.95 } },
  { lift: destination, limit: 14.5, index: 3, of: { horizontal: 0.44, vertical: 0.75, distance: 0.86, coupling: 1 } },
];

describe('the revised NIOSH lifting equation', () => {
  it.each(PRINTED)('gives the limit of the worked example, $limit lb', ({ lift, limit, index, of }) => {
    const ours = multipliers(lift, 'customary');
    expect(ours).toMatchObject({ asymmetric: 1, frequency: 1 });
    for (const [name, printed] of Object.entries(of)) {
      expect(Math.abs(ours[name as keyof typeof of] - printed)).toBeLessThan(0.0055);
    }
    const product = Object.values(of).reduce((so, each) => so * each, 51);
    expect(product).toBeCloseTo(limit, 1);
    // The index of 44 lb is from memory.
    expect(44 / product).toBeCloseTo(index, 1);
    // Unrounded it differs by no more than the rounding can take.
    expect(Math.abs(recommendedLimit(lift, 'customary') - limit)).toBeLessThan(limit * 0.025);
  });

  it.each([
    // Tables 1 to 4 of the same manual, from memory: H, V, D and A in inches and degrees.
    ['horizontal', { horizontal: 10 }, 1],
    ['horizontal', { horizontal: 25 }, 0.4],
    ['horizontal', { horizontal: 25.1 }, 0],
    ['vertical', { vertical: 30 }, 1],
    ['vertical', { vertical: 0 }, 0.78],
    ['vertical', { vertical: 70 }, 0.7],
    ['vertical', { vertical: 71 }, 0],
    ['distance', { travel: 10 }, 1],
    ['distance', { travel: 70 }, 0.85],
    ['asymmetric', { turn: 90 }, 0.71],
    ['asymmetric', { turn: 135 }, 0.57],
    ['asymmetric', { turn: 136 }, 0],
  ] as const)('%s multiplier at %j is %d', (name, change, expected) => {
    expect(twoPlaces(multipliers({ ...origin, ...change }, 'customary')[name])).toBeCloseTo(expected, 2);
  });

  it('allows 51 lb, or 23 kg, where nothing speaks against it', () => {
    const ideal: Lift = { ...origin, horizontal: 10, vertical: 30, travel: 10, coupling: 'good' };
    expect(recommendedLimit(ideal, 'customary')).toBe(51);
    const metric: Lift = { ...ideal, horizontal: 25, vertical: 75, travel: 25 };
    expect(recommendedLimit(metric, 'metric')).toBeCloseTo(23, 9);
  });

  it('gives nearly the same in both systems of units', () => {
    const cm = (inches: number) => inches * 2.54;
    const metric: Lift = { ...origin, horizontal: cm(23), vertical: cm(15), travel: cm(49) };
    expect(recommendedLimit(metric, 'metric') / 0.45359237).toBeCloseTo(recommendedLimit(origin, 'customary'), 0);
  });

  it('takes the worse of where a parcel is lifted from and where it is set down', () => {
    const low = postureLimit({ ...DEFAULT_POSTURE, to: { horizontal: 60, height: 10 } });
    expect(low).toBeLessThan(postureLimit(DEFAULT_POSTURE));
    expect(postureLimit(DEFAULT_POSTURE)).toBeGreaterThan(5);
    expect(postureLimit(DEFAULT_POSTURE)).toBeLessThan(23);
  });
});
