import fc from 'fast-check';
import { expect, it } from 'vitest';
import { Collections } from '#shared/day-board/collections.ts';

const time = fc.integer({ min: -3_000_000, max: 3_000_000 });
const timesOf = (collections: Pick<Collections, 'inTurn'>): readonly number[] =>
  collections.inTurn().flatMap(({ from, until, orders, collections: counts }) => {
    const times = [...counts].flatMap(([at, count]) => Array.from({ length: count }, () => at));
    const holds = times.length === orders && orders > 0 && times.every((at) => from <= at && at < until);
    if (!holds) throw new Error('a block holds other orders than it says');
    return times.sort((a, b) => a - b);
  });
const sorted = (times: readonly number[]) => [...times].sort((a, b) => a - b);

it('keeps each order that was added and not taken out, the soonest first', () => {
  fc.assert(
    fc.property(fc.array(time), fc.array(fc.nat(100)), fc.array(time), (added, picked, never) => {
      const collections = new Collections();
      for (const at of added) collections.add(at);
      const left = [...added];
      for (const pick of picked) {
        const [at] = left.splice(pick % Math.max(1, left.length), 1);
        if (at !== undefined) collections.remove(at);
      }
      for (const at of never) if (!left.includes(at)) collections.remove(at);
      expect(timesOf(collections)).toEqual(sorted(left));
      collections.clear();
      expect(timesOf(collections)).toEqual([]);
    }),
  );
});

it('is the same without some orders and keeps them itself', () => {
  fc.assert(
    fc.property(fc.array(time, { minLength: 1 }), fc.array(time), fc.array(time), (out, rest, later) => {
      const collections = new Collections();
      for (const at of [...out, ...rest]) collections.add(at);
      const without = collections.without(out);
      expect(timesOf(without)).toEqual(sorted(rest));
      expect(timesOf(collections)).toEqual(sorted([...out, ...rest]));
      for (const at of later) collections.add(at);
      expect(timesOf(collections)).toEqual(sorted([...out, ...rest, ...later]));
    }),
  );
});
