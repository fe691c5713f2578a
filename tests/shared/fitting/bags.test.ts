import { describe, expect, it } from 'vitest';
import { bagsOf, doubleBagged } from '#shared/fitting/double-bag.ts';
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

  it('is named after both, the outer one first, and takes both off the shelf', () => {
    const both = doubleBagged(inner, outer);
    expect(both.id).toBe('pouch-12x15+pouch-10x13');
    expect(both.name.en).toBe(`${inner.name.en} in ${outer.name.en}`);
    expect(both.name.es).toBe(`${inner.name.es} dentro de ${outer.name.es}`);
    expect(bagsOf(both)).toEqual(['pouch-12x15', 'pouch-10x13']);
    expect(bagsOf(inner)).toEqual(['pouch-10x13']);
  });

  it('takes an inner one that is just as large as the room in the outer one', () => {
    const [small, same] = [aContainer('pouch', [254, 330]), aContainer('pouch', [254, 330])];
    expect(doubleBagged(small, same).inside).toEqual(same.inside);
  });

  it('belongs to the carrier whose pouch is outside', () => {
    const owned = aContainer('pouch', [400, 500], { ownedBy: 'merrow-post' });
    expect(doubleBagged(inner, owned).ownedBy).toBe('merrow-post');
  });

  it.each([
    ['not-a-pouch', inner, aContainer('carton', [300, 400, 100]), 'two pouches, found a-container, which is a carton'],
    ['not-a-pouch', aContainer('card', [200, 300]), outer, 'two pouches, found a-container, which is a card'],
    ['bad-measure', outer, inner, 'pouch-12x15 to lie flat in pouch-10x13'],
    [
      'bad-measure',
      aContainer('pouch', [255, 100]),
      aContainer('pouch', [254, 330]),
      'a-container to lie flat in a-container',
    ],
    [
      'bad-measure',
      aContainer('pouch', [100, 331]),
      aContainer('pouch', [254, 330]),
      'a-container to lie flat in a-container',
    ],
  ] as const)('refuses: %s', (code, one, other, expected) => {
    try {
      doubleBagged(one, other);
      expect.unreachable();
    } catch (error) {
      expect(isFitError(error, code)).toBe(true);
      expect((error as Error).message).toContain(`double bag: expected ${expected}`);
    }
  });

  it('adds the padding of both to the thickness that a carrier measures', () => {
    const padded = aContainer('pouch', [400, 500], { wall: lengthFromMillimetres(3) });
    const both = doubleBagged(aContainer('pouch', [300, 400], { wall: lengthFromMillimetres(1) }), padded);
    expect(fitStack([aBlock([200, 300, 20])], both, NO_WRAP).filled.thickness).toBeCloseTo(28, 9);
  });
});
