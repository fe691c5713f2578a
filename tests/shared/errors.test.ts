import { describe, expect, it } from 'vitest';
import { FitError, isFitError } from '#shared/fitting/fit-error.ts';
import { FoldError, isFoldError } from '#shared/folding/fold-error.ts';
import { GarmentError, isGarmentError } from '#shared/garments/garment-error.ts';
import { PlanError, isPlanError } from '#shared/planning/plan-error.ts';

describe.each([
  ['FitError', () => new FitError('bad-measure', 'a'), isFitError, 'bad-measure', 'missing-depth'],
  ['FoldError', () => new FoldError('no-such-part', 'a'), isFoldError, 'no-such-part', 'not-foldable'],
  ['GarmentError', () => new GarmentError('bad-mass', 'a'), isGarmentError, 'bad-mass', 'unknown-kind'],
  ['PlanError', () => new PlanError('too-many-pieces', 'a'), isPlanError, 'too-many-pieces', 'no-pieces'],
] as const)('%s', (name, make, narrows, code, other) => {
  const is = narrows as (caught: unknown, code?: string) => boolean;

  it('is told from anything else that was thrown, and by its code where one is asked for', () => {
    const error = make();
    expect([is(error), is(error, code), is(error, other)]).toEqual([true, true, false]);
    for (const caught of [new Error('a'), { code }, code, undefined]) {
      expect([is(caught), is(caught, code)]).toEqual([false, false]);
    }
  });

  it('says in a log what it is', () => {
    expect(String(make())).toBe(`${name}: a`);
  });
});
