import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cheapestPartition } from '#shared/planning/partition.ts';

/** Every way to cut a mask into groups, by plain recursion. */
function divisions(mask: number): number[][] {
  if (mask === 0) return [[]];
  const lowest = mask & -mask;
  const found: number[][] = [];
  for (let part = mask; part > 0; part = (part - 1) & mask) {
    if ((part & lowest) !== 0) for (const rest of divisions(mask ^ part)) found.push([part, ...rest]);
  }
  return found;
}

const bits = (mask: number) => mask.toString(2).replaceAll('0', '').length;

describe('cheapestPartition', () => {
  it('knows the Bell numbers of ways', () => {
    // Bell numbers 1, 2, 5, 15, 52 (computed): the recursion that the next test rests on is complete.
    expect([1, 2, 3, 4, 5].map((count) => divisions(2 ** count - 1).length)).toEqual([1, 2, 5, 15, 52]);
  });

  it('is the least of all partitions whatever the bounds', () => {
    const cost = fc.oneof({ weight: 6, arbitrary: fc.integer({ min: 1, max: 90 }) }, fc.constant(Infinity));
    const costs = fc.array(cost, { minLength: 32, maxLength: 32 });
    const slack = fc.array(fc.integer({ min: 0, max: 60 }), { minLength: 32, maxLength: 32 });
    fc.assert(
      fc.property(costs, slack, fc.integer({ min: 1, max: 5 }), (exact, below, count) => {
        const asked = new Set<number>();
        const found = cheapestPartition(
          count,
          (group) => Math.min(exact[group]!, 90) - below[group]!,
          (group) => {
            expect(asked.has(group)).toBe(false);
            asked.add(group);
            return exact[group]!;
          },
        );
        const all = 2 ** count - 1;
        const least = Math.min(
          ...divisions(all).map((groups) => groups.reduce((sum, group) => sum + exact[group]!, 0)),
        );
        expect(found?.cost ?? Infinity).toBe(least);
        if (found !== null) {
          expect(found.groups.reduce((union, group) => union | group, 0)).toBe(all);
          expect(found.groups.reduce((sum, group) => sum + bits(group), 0)).toBe(count);
          expect(found.groups.reduce((sum, group) => sum + exact[group]!, 0)).toBe(least);
        }
      }),
    );
  });

  it('ends where the sum of the same costs depends on the order in which they are added', () => {
    // IEEE 754: 0.1 + (0.2 + 0.3) is 0.6, (0.1 + 0.2) + 0.3 is one step more.
    const costs = [NaN, 0.1, 0.2, 1, 0.3, 1, 1, 1];
    let rounds = 0;
    const found = cheapestPartition(
      3,
      (group) => costs[group]! / 2,
      (group) => {
        rounds++;
        return costs[group]!;
      },
    );
    expect(found?.groups.toSorted()).toEqual([1, 2, 4]);
    expect(found?.cost).toBeCloseTo(0.6, 12);
    expect(rounds).toBeLessThanOrEqual(7);
  });

  it('is the least within a rounding error whatever the fractions, and always ends', () => {
    const size = 64;
    const costs = fc.array(fc.integer({ min: 1, max: 400 }), { minLength: size, maxLength: size });
    fc.assert(
      fc.property(
        costs,
        fc.integer({ min: 3, max: 6 }),
        fc.constantFrom(3, 7, 10, 100),
        (hundredths, count, divisor) => {
          const costOf = (group: number) => (hundredths[group]! * bits(group)) / divisor;
          const found = cheapestPartition(count, (group) => costOf(group) * 0.9, costOf);
          const sums = divisions(2 ** count - 1).map((groups) => groups.reduce((sum, group) => sum + costOf(group), 0));
          expect(found?.cost).toBeCloseTo(Math.min(...sums), 9);
        },
      ),
    );
  });

  it('works out only the groups that could be cheapest', () => {
    let asked = 0;
    const found = cheapestPartition(
      6,
      (group) => 10 + bits(group),
      (group) => {
        asked++;
        return 10 + bits(group);
      },
    );
    expect(found).toEqual({ groups: [63], cost: 16 });
    expect(asked).toBe(1);
  });
});
