import { describe, expect, it } from 'vitest';
import { DEFAULT_POSTURE, multipliers, postureLimit, type Lift } from '#shared/care/lifting.ts';
import { liftCaution } from '#shared/care/lift-caution.ts';

// Applications Manual for the Revised NIOSH Lifting Equation, DHHS (NIOSH) publication 94-110 (rev. 2021).
const lift: Lift = { horizontal: 23, vertical: 30, travel: 40, turn: 0, coupling: 'fair', perMinute: 0.2, hours: 1 };
const of = (change: Partial<Lift>) => multipliers({ ...lift, ...change }, 'customary');

describe('table 5: lifts a minute, hours, hands below 30 in or not', () => {
  // From memory.
  it.each([
    [1, 1, 0.94, 0.94],
    [1, 2, 0.88, 0.88],
    [1, 8, 0.75, 0.75],
    [9, 1, 0.52, 0.52],
    [9, 2, 0.3, 0.3],
    [9, 8, 0, 0.15],
    [12, 2, 0, 0.21],
    [13, 1, 0, 0.34],
    [15.5, 1, 0, 0],
  ] as const)('%d a minute, up to %d h: %d and %d', (perMinute, hours, below, not) => {
    expect(of({ perMinute, hours, vertical: 29.9 }).frequency).toBe(below);
    expect(of({ perMinute, hours, vertical: 30 }).frequency).toBe(not);
  });
});

describe('table 7: coupling, hands below 30 in or not', () => {
  it.each([
    ['good', 1, 1],
    ['fair', 0.95, 1],
    ['poor', 0.9, 0.9],
  ] as const)('%s: %d and %d', (coupling, below, not) => {
    expect(of({ coupling, vertical: 29.9 }).coupling).toBe(below);
    expect(of({ coupling, vertical: 30 }).coupling).toBe(not);
  });
});

it('nothing should be lifted from below the floor, farther than 70 in, or turned by more than 135 degrees either way', () => {
  expect([of({ vertical: -0.1 }).vertical, of({ travel: 70.1 }).distance, of({ travel: -70.1 }).distance]).toEqual([
    0, 0, 0,
  ]);
  expect([of({ turn: 135.1 }).asymmetric, of({ turn: -135.1 }).asymmetric]).toEqual([0, 0]);
  expect(of({ turn: -90 }).asymmetric).toBe(of({ turn: 90 }).asymmetric);
});

it('from a bench to a cart one person should lift at most 10.52 kg, by hand', () => {
  // 23 x 25/35 x (1 - .003 x 15) x (.82 + 4.5/30) x (1 - .0032 x 30) x .92 x 1 where it begins, 90 cm high: 12.657;
  // 23 x 25/40 x (1 - .003 x 15) x (.82 + 4.5/30) x (1 - .0032 x 30) x .92 x .95 where it ends, 60 cm high
  expect(postureLimit(DEFAULT_POSTURE)).toBeCloseTo(10.521, 3);
  const turned = { ...DEFAULT_POSTURE, from: DEFAULT_POSTURE.to, to: DEFAULT_POSTURE.from };
  expect(postureLimit(turned)).toBe(postureLimit(DEFAULT_POSTURE));
});

it('care begins at half of that, and at all of it one person is still enough', () => {
  const limit = postureLimit(DEFAULT_POSTURE) * 1000;
  expect(liftCaution(limit / 2, DEFAULT_POSTURE)).toMatchObject({ tooMuch: false });
  expect(liftCaution(limit / 2 - 1, DEFAULT_POSTURE)).toBeNull();
  expect(liftCaution(limit, DEFAULT_POSTURE)).toMatchObject({ tooMuch: false });
  expect(liftCaution(limit + 1, DEFAULT_POSTURE)).toMatchObject({ tooMuch: true });
});
