import { describe, expect, it } from 'vitest';
import { liftCaution } from '#shared/care/lift-caution.ts';
import { DEFAULT_POSTURE, postureLimit } from '#shared/care/lifting.ts';
import { pauseDue, workedOn, type Stretch } from '#shared/care/pause.ts';

const MINUTE = 60_000;
const rule = { afterMinutes: 50, restMinutes: 5 };
/** Something done every so many minutes from one minute to another. */
const every = (step: number, from: number, to: number) =>
  Array.from({ length: Math.floor((to - from) / step) + 1 }, (_, index) => (from + index * step) * MINUTE);

describe('a pause', () => {
  it.each<[string, readonly number[], number, number | null]>([
    ['nothing done yet', [], 100, null],
    ['half an hour', every(2, 0, 30), 30, null],
    ['fifty minutes', every(2, 0, 50), 50, 50],
    ['an hour, with short waits', every(4, 0, 60), 61, 61],
    ['a pause of five minutes in between', [...every(2, 0, 40), ...every(2, 45, 80)], 80, null],
    ['a wait just short of a pause', [...every(2, 0, 40), ...every(2, 44, 80)], 80, 80],
    ['resting already', every(2, 0, 60), 65, null],
  ])('%s', (_, times, now, worked) => {
    expect(pauseDue(workedOn(null, times, rule), now * MINUTE, rule)?.worked ?? null).toBe(worked);
  });

  it('is the same when what was done is told in parts', () => {
    const times = [...every(2, 0, 40), ...every(2, 45, 80)];
    const parts = [times.slice(0, 7), times.slice(7, 30), [], times.slice(30)];
    const told = parts.reduce<Stretch | null>((before, part) => workedOn(before, part, rule), null);
    expect(told).toEqual(workedOn(null, times, rule));
  });

  it('is never told where the shop does not want it', () => {
    expect(pauseDue(workedOn(null, every(2, 0, 600), rule), 600 * MINUTE, null)).toBeNull();
  });
});

describe('lifting', () => {
  const limit = postureLimit(DEFAULT_POSTURE) * 1000;
  it.each([
    [limit * 0.4, null],
    [limit * 0.6, false],
    [limit * 1.01, true],
  ])('%d g', (grams, tooMuch) => {
    expect(liftCaution(grams, DEFAULT_POSTURE)?.tooMuch ?? null).toBe(tooMuch);
  });
});
