import { describe, expect, it } from 'vitest';
import { CODE_LASTS_MS, FORGOTTEN_AFTER_MS, sessionEnds, waitAfter } from '#shared/access/limits.ts';

const MINUTE = 60_000;
const HOUR = 3_600_000;

describe('a session', () => {
  it.each([
    ['office', 0, 0, 30 * MINUTE],
    ['office', 0, 3 * HOUR, 3.5 * HOUR],
    ['office', HOUR, 12.75 * HOUR, 13 * HOUR],
    ['bench', 0, 0, HOUR],
    ['bench', HOUR, 2 * HOUR, 3 * HOUR],
    ['bench', 0, 11.5 * HOUR, 12 * HOUR],
  ] as const)('of the %s, made at %d and last used at %d, ends at %d', (place, made, seen, ends) => {
    expect(sessionEnds(place, made, seen)).toBe(ends);
  });
});

describe('wrong tries', () => {
  it.each([
    [0, 0],
    [4, 0],
    [5, 30_000],
    [6, 60_000],
    [7, 120_000],
    [11, 1_920_000],
    [12, HOUR],
    [200, HOUR],
  ])('after %d of them in a row one waits %d ms', (failures, wait) => {
    expect(waitAfter(failures)).toBe(wait);
  });

  it('are forgotten after a day; a code to pair lasts ten minutes, one to set the PIN a day', () => {
    expect(FORGOTTEN_AFTER_MS).toBe(24 * HOUR);
    expect(CODE_LASTS_MS).toEqual({ pair: 10 * MINUTE, 'set-up': 24 * HOUR });
  });
});
