import { expect, it } from 'vitest';
import { CERTAIN, probabilityOf, scoreOf } from '#shared/fitting/normal.ts';

it.each([
  [6, 2, 3],
  [-6, 2, -3],
  [1, 0, Infinity],
  [0, 0, Infinity],
  [-1, 0, -Infinity],
])('a margin of %d mm with a spread of %d is %d standard deviations', (margin, sd, score) => {
  expect(scoreOf(margin, sd)).toBe(score);
});

it('is certain from six standard deviations on, either way', () => {
  expect([probabilityOf(CERTAIN), probabilityOf(-CERTAIN), probabilityOf(-40)]).toEqual([1, 0, 0]);
  expect(probabilityOf(CERTAIN - 1)).toBeLessThan(1);
  expect(probabilityOf(1 - CERTAIN)).toBeGreaterThan(0);
});
