import { describe, expect, it } from 'vitest';
import { divide, restNumbers } from '#shared/partial/divide.ts';
import type { Order } from '#shared/planning/types.ts';
import { money } from '#shared/units/money.ts';
import { order } from '#tests/support/run-fixtures.ts';

const lines = (...skus: string[]) => skus.map((sku) => ({ sku, count: sku === 'B' ? 3 : 1 }));
const FOUR: Order = {
  ...order(lines('A', 'B', 'C', 'D')),
  id: '4101',
  service: 'quick',
  arriveBy: '2026-12-01',
  paidPostage: money(850, 'USD'),
  note: 'gift',
};
const leaving = (skus: string[], follows: string | null) => ({ skus: new Set(skus), follows, by: 'ana', at: 1234 });

describe('an order without some of its pieces', () => {
  it('keeps the others, what was paid for postage and everything else, and remembers who left out what', () => {
    const { first } = divide(FOUR, leaving(['B', 'D'], null));
    expect(first).toEqual({
      ...FOUR,
      pieces: lines('A', 'C'),
      leftOut: [
        { sku: 'B', follows: null, by: 'ana', at: 1234 },
        { sku: 'D', follows: null, by: 'ana', at: 1234 },
      ],
    });
  });

  it('is followed by an order of the pieces left out, each as often as it was bought, and of no others', () => {
    const { first, rest } = divide(FOUR, leaving(['B', 'D'], '4101-2'));
    expect(first.leftOut?.map(({ follows }) => follows)).toEqual(['4101-2', '4101-2']);
    expect(rest).toMatchObject({ id: '4101-2', restOf: '4101', pieces: lines('B', 'D') });
    // to the same buyer, as quickly; postage was paid once
    for (const key of ['buyer', 'address', 'to', 'shipBy', 'service', 'arriveBy', 'note'] as const) {
      expect(rest?.[key]).toEqual(FOUR[key]);
    }
    expect(rest).not.toHaveProperty('paidPostage');
    expect(rest).not.toHaveProperty('leftOut');
    expect(first.paidPostage).toEqual(money(850, 'USD'));
    expect([...first.pieces, ...(rest?.pieces ?? [])].map(({ sku }) => sku).toSorted()).toEqual(['A', 'B', 'C', 'D']);
  });

  it('that nothing follows has no rest', () => {
    expect(divide(FOUR, leaving(['A'], null)).rest).toBeNull();
  });

  it('remembers also what it was sent without before, which is no matter of the rest', () => {
    const once = divide(FOUR, leaving(['A'], '4101-2')).first;
    const { first, rest } = divide(once, { ...leaving(['C'], '4101-3'), by: null, at: 5678 });
    expect(first.leftOut).toEqual([
      { sku: 'A', follows: '4101-2', by: 'ana', at: 1234 },
      { sku: 'C', follows: '4101-3', by: null, at: 5678 },
    ]);
    expect(first.pieces).toEqual(lines('B', 'D'));
    expect(rest?.pieces).toEqual(lines('C'));
    expect(rest).not.toHaveProperty('leftOut');
  });
});

describe('the number of the rest of an order', () => {
  it('is that of the order with what part it is: 2 to 99', () => {
    const numbers = restNumbers('4101');
    expect(numbers.slice(0, 3)).toEqual(['4101-2', '4101-3', '4101-4']);
    expect(numbers.at(-1)).toBe('4101-99');
    expect(new Set(numbers).size).toBe(98);
  });

  it('is none that is too long to be scanned: 40 signs at most', () => {
    const parts = (length: number) => restNumbers('9'.repeat(length)).length;
    // "-2" to "-9" are two signs more, "-10" to "-99" three
    expect([parts(37), parts(38), parts(39)]).toEqual([98, 8, 0]);
  });
});
