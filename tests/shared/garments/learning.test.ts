import { describe, expect, it } from 'vitest';
import { learn, predictedMass, priorBelief, singleUnknown, withLearned } from '#shared/garments/learning.ts';
import { pieceMass } from '#shared/garments/mass.ts';
import { demoWardrobe } from '#tests/support/demo-wardrobe.ts';

describe('singleUnknown', () => {
  it.each([
    [500, [null], 500],
    [500, [120, null, 80], 300],
    [500, [null, null], null],
    [500, [250, 250], null],
    [500, [600, null], null],
    [500, [], null],
  ] as const)('of %d g with %j is %j', (total, intake, expected) => {
    expect(singleUnknown(total, intake)).toBe(expected);
  });
});

describe('withLearned', () => {
  const wardrobe = demoWardrobe();
  const piece = { sku: 's', title: 't', kind: 't-shirt', size: 'XL', cloth: 'jersey' };

  it('changes what a piece of the kind is expected to weigh, and nothing else', () => {
    const kind = wardrobe.kinds.get('t-shirt')!;
    const belief = [190, 195, 205, 200].reduce(learn, priorBelief(kind.mass));
    const learned = withLearned(wardrobe, new Map([['t-shirt', belief]]));
    const before = pieceMass(piece, wardrobe);
    const after = pieceMass(piece, learned);
    expect(after.mean / before.mean).toBeCloseTo(predictedMass(belief).mean / kind.mass.mean, 9);
    expect(learned.kinds.get('jeans')).toBe(wardrobe.kinds.get('jeans'));
    expect(wardrobe.kinds.get('t-shirt')!.mass.mean).toBe(160);
  });

  it('leaves a kind alone of which nothing was weighed', () => {
    const belief = priorBelief({ mean: 160, sd: 28 });
    const learned = withLearned(wardrobe, new Map([['t-shirt', belief]]));
    expect(learned.kinds.get('t-shirt')).toBe(wardrobe.kinds.get('t-shirt'));
  });
});
