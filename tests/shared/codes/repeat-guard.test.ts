import { describe, expect, test } from 'vitest';
import { repeatGuard, type RepeatState } from '#shared/codes/repeat-guard.ts';

describe('repeat guard', () => {
  const run = (all: readonly (readonly [string, number])[]): readonly boolean[] => {
    let state: RepeatState | null = null;
    return all.map(([text, at]) => {
      const step: { readonly state: RepeatState; readonly act: boolean } = repeatGuard(state, text, at);
      state = step.state;
      return step.act;
    });
  };
  test('the same code in the same moment acts once, later it acts again', () => {
    expect(
      run([
        ['A', 0],
        ['A', 400],
        ['A', 801],
        ['B', 810],
        ['A', 820],
      ]),
    ).toEqual([true, false, true, true, true]);
  });
  test('a trigger held for seconds acts once', () => {
    expect(
      run([
        ['A', 0],
        ['A', 300],
        ['A', 600],
        ['A', 900],
      ]),
    ).toEqual([true, false, false, false]);
  });
});
