import { describe, expect, it } from 'vitest';
import { combined, groupsToCombine } from '#shared/combining/combine.ts';
import type { Order } from '#shared/planning/types.ts';
import { money } from '#shared/units/money.ts';

const order = (id: string, change: Partial<Order> = {}): Order => ({
  id,
  pieces: [{ sku: `P-${id}`, count: 1 }],
  buyer: 'Di Dot',
  address: ['5 Rose Lane', 'Duluth MN 55802'],
  to: { postcode: '55802', country: 'US' },
  shipBy: '2027-01-05T22:30:00.000Z',
  ...change,
});

const ids = (orders: readonly Order[]) => groupsToCombine(orders).map((group) => group.map(({ id }) => id));

describe('orders that may be one', () => {
  it('are of one buyer to one address, however it is written, the soonest first', () => {
    const sooner = order('2', {
      buyer: 'DI  DOT',
      address: ['5, rose lane', 'Duluth, MN 55802-1234'],
      shipBy: '2027-01-04',
    });
    const other = { ...sooner, to: { postcode: '55802-1234', country: 'US' } };
    expect(ids([order('1'), other])).toEqual([['2', '1']]);
  });

  it.each<[string, Partial<Order>]>([
    ['another buyer', { buyer: 'Al Dot' }],
    ['another flat', { address: ['5 Rose Lane', 'Apt 3', 'Duluth MN 55802'] }],
    ['another service', { service: 'light-parcel' }],
    ['another country', { to: { postcode: '55802', country: 'MX' } }],
    ['an address that nobody knows', { address: [] }],
    ['orders that are one already', { combines: ['8', '9'] }],
  ])('are not of %s', (_what, change) => {
    expect(ids([order('1'), order('2', change)])).toEqual([]);
  });

  it('are neither two whose addresses nobody knows nor two that are several already', () => {
    expect(ids([order('1', { address: [] }), order('2', { address: [] })])).toEqual([]);
    expect(ids([order('1+2', { combines: ['1', '2'] }), order('3+4', { combines: ['3', '4'] })])).toEqual([]);
  });

  it('are taken by when they leave, not by their numbers', () => {
    const leaves = (id: string, day: string) => order(id, { shipBy: `2027-01-${day}` });
    expect(ids([leaves('2', '06'), leaves('1', '07'), leaves('4', '04'), leaves('3', '05')])).toEqual([
      ['4', '3', '2', '1'],
    ]);
  });

  it('are no more than one order may have pieces', () => {
    const many = Array.from({ length: 39 }, (_, at) => ({ sku: `M-${String(at)}`, count: 1 }));
    expect(ids([order('1', { pieces: many }), order('2'), order('3')])).toEqual([['1', '2']]);
  });

  it('come one after the other by their numbers where they leave together', () => {
    expect(ids([order('3'), order('1'), order('2')])).toEqual([['1', '2', '3']]);
  });

  it('may have the postcode in their lines or beside them', () => {
    const beside = order('2', { address: ['5 Rose Lane', 'Duluth MN'] });
    expect(ids([order('1'), beside])).toEqual([['1', '2']]);
  });

  it('are paid in one currency, or not at all', () => {
    const paid = (id: string, currency: string) => order(id, { paidPostage: money(100, currency) });
    expect(ids([paid('1', 'USD'), paid('2', 'USD'), order('3')])).toEqual([['1', '2', '3']]);
    expect(ids([paid('1', 'USD'), paid('2', 'EUR')])).toEqual([]);
  });

  it('have one number of at most 40 characters', () => {
    expect(ids([order('a'.repeat(19)), order('b'.repeat(20))])).toHaveLength(1);
    expect(ids([order('a'.repeat(20)), order('b'.repeat(20))])).toEqual([]);
  });
});

it('the one order has all pieces, the earliest times, all that was paid, and every note', () => {
  const first = order('1', { arriveBy: '2027-01-09', paidPostage: money(500, 'USD'), note: 'no plastic' });
  const second = order('2', {
    arriveBy: '2027-01-08',
    paidPostage: money(450, 'USD'),
    shipBy: '2027-01-04T22:30:00.000Z',
  });
  expect(combined([first, second])).toEqual({
    ...first,
    id: '1+2',
    pieces: [...first.pieces, ...second.pieces],
    shipBy: second.shipBy,
    arriveBy: '2027-01-08',
    paidPostage: money(950, 'USD'),
    note: '1: no plastic',
    combines: ['1', '2'],
  });
  expect(combined([first, order('3')]).paidPostage).toBeUndefined();
  const third = order('3', { note: 'a gift', shipBy: '2027-01-06' });
  expect(combined([second, third, first])).toMatchObject({
    shipBy: second.shipBy,
    arriveBy: '2027-01-08',
    note: '3: a gift; 1: no plastic',
  });
});

it('what no order says, the one order does not say either', () => {
  const { combines, ...one } = combined([order('1'), order('2')]);
  expect(combines).toEqual(['1', '2']);
  expect(Object.keys(one).sort()).toEqual(Object.keys(order('1')).sort());
  const paid = order('1', { service: 'light-parcel', paidPostage: money(0, 'USD') });
  expect(combined([paid, paid])).toMatchObject({ service: 'light-parcel', paidPostage: money(0, 'USD') });
});
