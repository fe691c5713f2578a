import { describe, expect, it } from 'vitest';
import { bruteForceCost } from './brute-force.ts';
import { randomOrder, randomShop } from './random-orders.ts';
import { DAY } from './small-shop.ts';
import { isPlanError } from '#shared/planning/plan-error.ts';
import { planOrder } from '#shared/planning/plan-order.ts';
import { seeded } from '#tests/support/seeded.ts';

/**
 * How many random orders of each size are planned, 1,516 in all and 484 more with what a shop prefers and promises
 * (preferences.test.ts): 2,000. Trying everything takes long for large ones.
 */
const ORDERS: readonly (readonly [size: number, orders: number])[] = [
  [1, 650],
  [2, 460],
  [3, 290],
  [4, 90],
  [5, 22],
  [6, 4],
];

describe('planOrder against trying everything', () => {
  it.each(ORDERS)('finds the least cost of orders of %d pieces, %d times', (size, orders) => {
    const uniform = seeded(4000 + size);
    let possible = 0;
    for (let i = 0; i < orders; i++) {
      const shop = randomShop(uniform);
      const { order, pieces, bySku } = randomOrder(size, uniform);
      const route = { from: shop.from, to: order.to };
      const least = bruteForceCost(pieces, { shop, route, day: DAY, mayUse: () => true });
      const plan = () => planOrder({ order, pieces: bySku, shop, day: DAY });
      if (least === Infinity) {
        expect(plan).toThrow();
        continue;
      }
      possible++;
      const found = plan();
      expect(found.proven).toBe(true);
      expect(Math.abs(found.cost.total - least), JSON.stringify(pieces)).toBeLessThan(1e-6);
    }
    expect(possible).toBeGreaterThan(orders / 2);
  });

  it('says so when nothing takes an order', () => {
    const { order, bySku } = randomOrder(1, seeded(1));
    const shop = { ...randomShop(seeded(1)), containers: new Map() };
    try {
      planOrder({ order, pieces: bySku, shop, day: DAY });
      expect.unreachable();
    } catch (error) {
      expect(isPlanError(error) && error.code).toBe('nothing-fits');
    }
  });
});
