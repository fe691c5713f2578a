import { describe, expect, it } from 'vitest';
import { doubleBagged } from '#shared/fitting/double-bag.ts';
import { isFitError } from '#shared/fitting/fit-error.ts';
import { fitStack } from '#shared/fitting/fit-stack.ts';
import { lengthFromMillimetres } from '#shared/units/length.ts';
import { toGrams } from '#shared/units/mass.ts';
import { NO_WRAP, aBlock, aContainer, demoContainers } from '#tests/support/demo-wardrobe.ts';

describe('doubleBagged', () => {
  const { containers } = demoContainers();
  const inner = containers.get('pouch-10x13')!;
  const outer = containers.get('pouch-12x15')!;

  it('weighs, costs and takes what both do', () => {
    const both = doubleBagged(inner, outer);
    expect(toGrams(both.mass)).toBeCloseTo(toGrams(inner.mass) + toGrams(outer.mass), 9);
    expect(both.cost.minor).toBe(inner.cost.minor + outer.cost.minor);
    expect(both.seconds).toBe(inner.seconds + outer.seconds);
    expect(both.outside).toEqual(outer.outside);
    expect(both.cautions).toEqual(['film-bag-children']);
  });

  it('holds what the inner one holds, and no more', () => {
    const both = doubleBagged(inner, outer);
    for (const thickness of [10, 30, 60, 90]) {
      const block = aBlock([180, 260, thickness]);
      expect(fitStack([block], both, NO_WRAP).verdict).toBe(fitStack([block], inner, NO_WRAP).verdict);
    }
  });

  it('belongs to the carrier whose pouch is outside', () => {
    const owned = aContainer('pouch', [400, 500], { ownedBy: 'merrow-post' });
    expect(doubleBagged(inner, owned).ownedBy).toBe('merrow-post');
  });

  it.each([
    ['not-a-pouch', inner, aContainer('carton', [300, 400, 100])],
    ['not-a-pouch', aContainer('card', [200, 300]), outer],
    ['bad-measure', outer, inner],
    ['bad-measure', aContainer('pouch', [255, 100]), aContainer('pouch', [254, 330])],
  ] as const)('refuses: %s', (code, one, other) => {
    try {
      doubleBagged(one, other);
      expect.unreachable();
    } catch (error) {
      expect(isFitError(error, code)).toBe(true);
    }
  });

  it('adds the padding of both to the thickness that a carrier measures', () => {
    const padded = aContainer('pouch', [400, 500], { wall: lengthFromMillimetres(3) });
    const both = doubleBagged(aContainer('pouch', [300, 400], { wall: lengthFromMillimetres(1) }), padded);
    expect(fitStack([aBlock([200, 300, 20])], both, NO_WRAP).filled.thickness).toBeCloseTo(28, 9);
  });
});
