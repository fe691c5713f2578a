import { expect, it } from 'vitest';
import { randomOrder, randomShop } from './random-orders.ts';
import { DAY } from './small-shop.ts';
import { compared } from '#shared/planning/comparison.ts';
import { isPlanError } from '#shared/planning/plan-error.ts';
import { planOrder } from '#shared/planning/plan-order.ts';
import { seeded } from '#tests/support/seeded.ts';

it('the rule of thumb takes one container that is sure enough to close where any is, and is never cheaper than the plan', () => {
  const uniform = seeded(6100);
  let byRule = 0;
  for (let i = 0; i < 120; i++) {
    const shop = randomShop(uniform);
    const { order, bySku } = randomOrder(1 + Math.floor(3 * uniform()), uniform);
    try {
      const plan = planOrder({ order, pieces: bySku, shop, day: DAY });
      const { ladder, carton, planned } = compared(plan);
      expect(planned).toBe(plan.cost.total);
      const singles = [plan, ...plan.alternatives].filter(({ parcels }) => parcels.length === 1);
      if (ladder === null) continue;
      byRule++;
      expect(ladder).toBeGreaterThanOrEqual(planned - 1e-6);
      const taken = singles.filter(({ cost }) => cost.total === ladder).map(({ parcels }) => parcels[0]!.fit);
      const sure = singles.some(({ parcels }) => parcels[0]!.fit.probability >= 0.9);
      expect(taken.some(({ probability }) => !sure || probability >= 0.9)).toBe(true);
      if (carton !== null) expect(singles.map(({ cost }) => cost.total)).toContain(carton);
    } catch (error) {
      if (!isPlanError(error)) throw error;
    }
  }
  expect(byRule).toBeGreaterThan(60);
});
