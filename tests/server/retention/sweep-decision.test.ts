import fc from 'fast-check';
import { expect, it } from 'vitest';
import { decideSweep, type SweepMemory } from '#server/retention/sweep-decision.ts';

const HOUR = 3_600_000;
const DAY = 24 * HOUR;
const NOW = Date.UTC(2026, 10, 25);

/** Looks every hour, as the server does; answers the hours at which it swept. */
function sweeps(memory: SweepMemory, clock: readonly number[]): readonly number[] {
  const swept: number[] = [];
  for (const [index, now] of clock.entries()) {
    const decision = decideSweep(memory, now);
    if (decision.do === 'sweep') swept.push(index);
    memory = decision.memory;
  }
  return swept;
}
const hours = (from: number, count: number) => Array.from({ length: count }, (_, hour) => from + hour * HOUR);

it('a day after the last time it is swept, and not sooner', () => {
  expect(sweeps({ at: NOW, heldAt: null }, hours(NOW, 49))).toEqual([20, 40]);
});

it('the first time, and after weeks switched off, it waits until the clock has gone on for a day', () => {
  expect(sweeps({ at: null, heldAt: null }, hours(NOW, 30))).toEqual([20]);
  expect(sweeps({ at: NOW - 21 * DAY, heldAt: null }, hours(NOW, 30))).toEqual([20]);
});

it('a clock that jumps and is put right sweeps nothing meanwhile', () => {
  const future = [...hours(NOW + 5 * HOUR, 1), ...hours(NOW + 900 * DAY, 12), ...hours(NOW + 18 * HOUR, 10)];
  expect(sweeps({ at: NOW, heldAt: null }, future)).toEqual([15]);
  const past = [...hours(0, 12), ...hours(NOW + 18 * HOUR, 10)];
  expect(sweeps({ at: NOW, heldAt: null }, past)).toEqual([14]);
});

it('a clock that was wrong for long and was believed does not stop it for ever once it is right', () => {
  const believed = { at: NOW + 900 * DAY, heldAt: null };
  expect(sweeps(believed, hours(NOW, 60))).toEqual([20, 40]);
});

it('whatever a clock does, nothing is swept at a time that no earlier one vouches for', () => {
  const times = fc.array(fc.integer({ min: -5000, max: 5000 }), { maxLength: 40 });
  fc.assert(
    fc.property(times, (hoursAway) => {
      const clock = hoursAway.map((hour) => NOW + hour * HOUR);
      for (const index of sweeps({ at: NOW, heldAt: null }, clock)) {
        const now = clock[index] ?? 0;
        const vouches = (before: number) => now - before >= 20 * HOUR && now - before <= 72 * HOUR;
        expect([NOW, ...clock.slice(0, index)].some(vouches)).toBe(true);
      }
    }),
  );
});
