import { describe, expect, test } from 'vitest';
import { contradiction, NO_CONTRADICTION } from '#drivers/scale/contradiction.ts';
import { massFromDecimal } from '#shared/units/mass.ts';
import type { Reading } from '#shared/weighing/types.ts';

const reading = (at: number, ounces: string, more: Partial<Reading> = {}): Reading => ({
  mass: massFromDecimal(ounces, 'oz'),
  unit: 'oz',
  places: 1,
  division: massFromDecimal('0.1', 'oz'),
  stability: 'still',
  net: false,
  condition: 'ok',
  at,
  ...more,
});

/** At which reading the line is found to contradict itself; -1 where it never is. */
function foundAt(readings: readonly Reading[]): number {
  let state = NO_CONTRADICTION;
  return readings.findIndex((each) => {
    const step = contradiction(state, each);
    state = step.state;
    return step.contradicts;
  });
}
const every = (ms: number, masses: readonly string[], more: Partial<Reading> = {}): readonly Reading[] =>
  masses.map((each, index) => reading(index * ms, each, more));
const times = (count: number, masses: readonly string[]): readonly string[] =>
  Array.from({ length: count }, () => masses).flat();

describe('two scales on one line', () => {
  test('are found within a second, whoever sends more often, with or without a stability flag', () => {
    expect(foundAt(every(100, times(6, ['15.9', '48.2'])))).toBe(5);
    expect(foundAt(every(100, times(4, ['15.9', '15.9', '48.2'])))).toBeGreaterThan(0);
    expect(foundAt(every(100, times(6, ['0.0', '48.2']), { stability: 'unknown' }))).toBe(5);
  });
  test('are found although one of them moves now and then, and shows a division more or less', () => {
    const mixed = every(100, ['15.9', '48.2', '15.9', '48.1', '15.8', '48.2', '15.9', '48.2']);
    const moving = mixed.flatMap((each) => [each, reading(each.at + 50, '77.7', { stability: 'moving' })]);
    expect(foundAt(moving)).toBeGreaterThan(0);
  });
  test('are believed again once one of them is off the line for two seconds', () => {
    let state = NO_CONTRADICTION;
    let last = false;
    const mixed = every(100, times(6, ['15.9', '48.2']));
    const alone = Array.from({ length: 25 }, (_, index) => reading(1200 + index * 100, '15.9'));
    for (const each of [...mixed, ...alone]) {
      const step = contradiction(state, each);
      state = step.state;
      last = step.contradicts;
    }
    expect(last).toBe(false);
    expect(state.returns).toBe(0);
  });
});

describe('one scale', () => {
  test('is believed while loads come and go, a parcel is taken off and put back, and a display flickers', () => {
    expect(foundAt(every(400, ['0.0', '15.9', '0.0', '15.9', '0.0', '48.2', '0.0', '48.2']))).toBe(-1);
    expect(foundAt(every(1200, times(10, ['0.0', '15.9'])))).toBe(-1);
    expect(foundAt(every(100, times(20, ['15.9', '16.0'])))).toBe(-1);
    expect(foundAt(every(100, times(20, ['15.9', '16.2'])))).toBe(-1);
    const swinging = every(100, times(10, ['15.9', '22.0']), { stability: 'moving' });
    expect(foundAt(swinging)).toBe(-1);
    expect(foundAt(every(100, times(10, ['0.0']), { condition: 'over' }))).toBe(-1);
  });
});
