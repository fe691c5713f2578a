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
