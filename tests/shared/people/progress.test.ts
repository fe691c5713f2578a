import { describe, expect, it } from 'vitest';
import { mistakeCounts, progressByKind, runsOf, streaks, type PackFacts } from '#shared/people/progress.ts';
import { workedMs } from '#shared/people/worked.ts';
import type { MistakeKind } from '#shared/run/types.ts';

const pack = (kind: string, seconds: number | null, ...mistakes: MistakeKind[]): PackFacts => ({
  kind,
  seconds,
  mistakes,
  at: 0,
});

describe('streaks', () => {
  it.each([
    ['', 0, 0],
    ['cc', 2, 2],
    ['ccmc', 1, 2],
    ['ccm', 0, 2],
    ['mccc', 3, 3],
  ])('%s -> %d now, %d at most', (row, now, longest) => {
    const packs = row.split('').map((each) => ({ mistakes: each === 'c' ? [] : (['wrong-label'] as const) }));
    expect(streaks(packs)).toEqual({ now, longest });
  });
});

it('each kind has its own count, streak, mistakes and times; mixed orders give no time', () => {
  const packs = [
    pack('shirt', 200),
    pack('shirt', null, 'wrong-piece'),
    pack('jeans', 90),
    pack('shirt', 160),
    pack('shirt', 140),
    pack('shirt', 128),
  ];
  const [shirt, jeans] = progressByKind(packs);
  expect(shirt).toMatchObject({ kind: 'shirt', packs: 5, clean: 4, streak: { now: 3, longest: 3 } });
  expect(shirt?.times).toEqual([200, 160, 140, 128]);
  expect(shirt?.curve?.rate).toBeCloseTo(0.8, 1);
  expect(shirt?.mistakes).toMatchObject({ 'wrong-piece': 1, 'wrong-label': 0 });
  expect(jeans).toMatchObject({ kind: 'jeans', curve: null });
  expect(mistakeCounts(packs)['wrong-piece']).toBe(1);
});

it('the kind that was packed most often stands first, and of two alike the first of the alphabet', () => {
  const order = (...kinds: string[]) => progressByKind(kinds.map((kind) => pack(kind, 60))).map(({ kind }) => kind);
  expect(order('shirt', 'jeans', 'jeans')).toEqual(['jeans', 'shirt']);
  expect(order('shirt', 'jeans', 'coat')).toEqual(['coat', 'jeans', 'shirt']);
});

it('no time is learned from that took none', () => {
  expect(
    progressByKind([pack('shirt', 0), pack('shirt', -5), pack('shirt', null), pack('shirt', 60)])[0]?.times,
  ).toEqual([60]);
});

it('a run with several kinds is one order with one mistake', () => {
  const packs = ['a', 'b'].map((kind) => ({ ...pack(kind, null, 'wrong-label'), run: 'r1' }));
  const runs = runsOf([...packs, { ...pack('a', 5), run: 'r2' }]);
  expect(runs.map(({ mistakes }) => mistakes)).toEqual([['wrong-label'], []]);
});

it('time that nobody worked is not counted: a gap counts as the longest step', () => {
  expect(workedMs([0, 1000, 5000])).toBe(5000);
  expect(workedMs([0, 1000, 3_600_000], 60_000)).toBe(61_000);
  expect(workedMs([5])).toBe(0);
});
