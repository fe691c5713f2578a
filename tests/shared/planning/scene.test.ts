import { describe, expect, it } from 'vitest';
import { Packing } from '#shared/planning/packing.ts';
import { cheapestPostage, type Scene } from '#shared/planning/scene.ts';
import { itemFrom } from '#shared/planning/item.ts';
import type { Prices } from '#shared/planning/market.ts';
import type { PriceSteps } from '#shared/rating/types.ts';
import { massFromGrams } from '#shared/units/mass.ts';
import { money } from '#shared/units/money.ts';
import { aBlock, aContainer, NO_WRAP } from '#tests/support/demo-wardrobe.ts';
import { parcel } from '#tests/support/run-fixtures.ts';
import { piece, smallShop } from './small-shop.ts';
import type { Fold } from '#shared/folding/types.ts';

/** A service that asks so many cents up to so many grams. */
const asks = (service: string, ...steps: readonly (readonly [grams: number, cents: number])[]): PriceSteps => ({
  ...parcel([]).prices,
  service,
  steps: steps.map(([grams, cents]) => ({ ceiling: massFromGrams(grams), price: money(cents, 'USD') })),
});
const any = { mayUse: () => true };
const exactly = (grams: number) => ({ mean: grams, sd: 0 });
const chosen = (steps: readonly PriceSteps[], grams: number, scene: Pick<Scene, 'mayUse'> = any) => {
  const found = cheapestPostage({ steps }, exactly(grams), 100, scene);
  return found === null ? null : [found.steps.service, found.expected];
};

describe('the service that a parcel goes by', () => {
  const light = asks('light', [200, 400], [500, 900]);
  const heavy = asks('heavy', [1000, 700]);

  it('is the cheapest at its mass', () => {
    expect(chosen([heavy, light], 150)).toEqual(['light', 400]);
    expect(chosen([heavy, light], 300)).toEqual(['heavy', 700]);
    expect(chosen([heavy, light], 800)).toEqual(['heavy', 700]);
    expect(chosen([heavy, light], 1200)).toBeNull();
    expect(chosen([], 150)).toBeNull();
  });

  it('is one that may be used', () => {
    const mayUse = ({ service }: PriceSteps) => service !== 'light';
    expect(chosen([light, heavy], 150, { mayUse })).toEqual(['heavy', 700]);
    expect(chosen([light], 150, { mayUse })).toBeNull();
  });

  it('is of two that cost the same the one that the card names first', () => {
    const same = asks('same', [500, 700]);
    expect(chosen([heavy, same], 300)).toEqual(['heavy', 700]);
    expect(chosen([same, heavy], 300)).toEqual(['same', 700]);
  });
});

describe('items in a container', () => {
  const shop = smallShop({ additions: [] });
  const film = aContainer('pouch', [300, 400], { mass: massFromGrams(10), massSd: massFromGrams(0) });
  const folds = [{ recipe: 'flat', steps: [], block: aBlock([200, 250, 20]) } as unknown as Fold];
  const item = itemFrom(piece('P', 'shoes'), exactly(90), folds);

  it('ask the rate cards once for prices that are the same, and the wages for none', () => {
    const prices: Prices = { steps: [asks('light', [100, 400], [500, 900])] };
    const calls: string[] = [];
    const scene: Pick<Scene, 'shop' | 'market' | 'leastPrices' | 'mayUse'> = {
      shop,
      market: () => prices,
      leastPrices: () => (calls.push('least'), prices),
      mayUse: (steps) => (calls.push(steps.service), true),
    };
    const packing = new Packing([item], film, NO_WRAP, scene as Scene);
    expect(packing.mass.mean).toBeCloseTo(100, 9);
    expect(packing.postage({ width: 280, length: 380, thickness: 20 })?.expected).toBe(400);
    expect(packing.postage({ width: 270, length: 370, thickness: 25 })?.expected).toBe(400);
    expect([packing.leastPostage(), packing.leastPostage()]).toEqual([400, 400]);
    expect(calls).toEqual(['light', 'least']);
  });

  it('have no least postage where no service takes them', () => {
    const none: Prices = { steps: [asks('tiny', [50, 300])] };
    const scene = { shop, market: () => none, leastPrices: () => none, mayUse: () => true } as unknown as Scene;
    const packing = new Packing([item], film, NO_WRAP, scene);
    expect(packing.leastPostage()).toBe(Infinity);
    expect(packing.postage({ width: 280, length: 380, thickness: 20 })).toBeNull();
  });
});
