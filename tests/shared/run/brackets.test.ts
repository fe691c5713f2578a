import { describe, expect, it } from 'vitest';
import type { ParcelPlan } from '#shared/planning/types.ts';
import { IDLE } from '#shared/run/initial.ts';
import { bracketsOf, nextBracket, owed, plannedCeiling, settledBracket } from '#shared/run/pay.ts';
import type { RunInput } from '#shared/run/types.ts';
import { massFromBase, type Mass } from '#shared/units/mass.ts';
import { money } from '#shared/units/money.ts';
import { after, ounces, parcel } from '#tests/support/run-fixtures.ts';
import { toClose, toDone, toLabel, toMismatch, toOver, toSeal, toWeigh, weighed } from '#tests/support/run-moments.ts';

describe('what is paid', () => {
  const planned = parcel(['A', 'B']);
  const withOffer = (ceiling: Mass | null, minor: number): ParcelPlan => ({
    ...planned,
    offer: { ...planned.offer, bracketCeiling: ceiling, price: money(minor, 'USD') },
  });
  const steps = (...list: readonly (readonly [string, number])[]) =>
    list.map(([ceiling, minor]) => ({ ceiling: ounces(ceiling), price: money(minor, 'USD') }));
  const priced = (
    own: readonly (readonly [string, number])[],
    ...others: readonly Partial<ParcelPlan['prices']>[]
  ): ParcelPlan => ({
    ...planned,
    prices: { ...planned.prices, steps: steps(...own) },
    otherServices: others.map((each) => ({ ...planned.prices, service: 'other', carrier: 'hill-post', ...each })),
  });
  const shown = (each: ParcelPlan) =>
    bracketsOf(each).map(({ ceiling, price, service }) => [ceiling / ounces('1'), price.minor, service]);

  it('is planned up to the ceiling of the offer, or where mass plays no part, of its price', () => {
    expect(plannedCeiling(withOffer(ounces('12'), 465))).toBe(ounces('12'));
    expect(plannedCeiling(withOffer(null, 465))).toBe(ounces('12'));
    // What is put on a price does not move its bracket.
    expect(plannedCeiling(withOffer(ounces('12'), 625))).toBe(ounces('12'));
    // A ceiling that the card does not have any more is found by the price.
    expect(plannedCeiling(withOffer(ounces('13'), 410))).toBe(ounces('8'));
    expect(plannedCeiling(withOffer(null, 1))).toBe(ounces('32'));
  });

  it('without a price is refused by name', () => {
    expect(() => plannedCeiling(priced([]))).toThrow('a plan of service light-parcel without a price');
  });

  const CASES: readonly (readonly [string, ParcelPlan, readonly (readonly [number, number, string])[]])[] = [
    [
      'the planned service goes on',
      priced([
        ['8', 410],
        ['16', 625],
        ['32', 805],
      ]),
      [
        [8, 410, 'light-parcel'],
        [16, 625, 'light-parcel'],
        [32, 805, 'light-parcel'],
      ],
    ],
    [
      'another one is cheaper beyond the planned ceiling, but not up to it',
      priced(
        [
          ['8', 410],
          ['16', 625],
          ['32', 805],
        ],
        { steps: steps(['8', 300], ['16', 500], ['32', 700]) },
      ),
      [
        [8, 410, 'light-parcel'],
        [16, 625, 'light-parcel'],
        [32, 700, 'other'],
      ],
    ],
    [
      'another one costs the same and takes more',
      priced(
        [
          ['16', 625],
          ['32', 805],
        ],
        { steps: steps(['64', 805]) },
      ),
      [
        [16, 625, 'light-parcel'],
        [64, 805, 'other'],
      ],
    ],
    [
      'another one takes no parcel as light as the planned ceiling',
      priced(
        [
          ['16', 625],
          ['32', 805],
        ],
        { steps: steps(['64', 700]), least: ounces('16.1') },
      ),
      [
        [16, 625, 'light-parcel'],
        [32, 805, 'light-parcel'],
      ],
    ],
    [
      'another one begins at the planned ceiling',
      priced(
        [
          ['16', 625],
          ['32', 805],
        ],
        { steps: steps(['64', 700]), least: ounces('16') },
      ),
      [
        [16, 625, 'light-parcel'],
        [64, 700, 'other'],
      ],
    ],
    [
      'another one only repeats a ceiling, dearer',
      priced(
        [
          ['16', 625],
          ['32', 805],
        ],
        { steps: steps(['32', 900]) },
      ),
      [
        [16, 625, 'light-parcel'],
        [32, 805, 'light-parcel'],
      ],
    ],
  ];
  it.each(CASES)('%s', (_, each, expected) => {
    expect(shown(each)).toEqual(expected);
  });

  it('once it is settled, from sealing to the end, and not before', () => {
    const settled = (inputs: readonly RunInput[]) => settledBracket(after(inputs))?.price.minor ?? null;
    expect([toWeigh, toClose, toMismatch].map(settled)).toEqual([null, null, null]);
    expect([toSeal, toLabel, toDone].map(settled)).toEqual([625, 625, 625]);
    expect(settledBracket(IDLE)).toBeNull();
    expect(settledBracket({ ...after(toSeal), progress: [] })).toBeNull();
  });

  it('is the next bracket only where that lies above the planned one', () => {
    const next = (inputs: readonly RunInput[]) => nextBracket(after(inputs))?.price.minor ?? null;
    expect([toWeigh, toSeal, toClose, toOver].map(next)).toEqual([null, null, 805, 805]);
    expect(next([...toWeigh, weighed('33')])).toBeNull();
    expect(nextBracket({ ...after(toClose), parcels: [] })).toBeNull();
  });

  it('is the bracket that holds the mass with its margin to the last unit, and the dearest above all', () => {
    const weighing = after(toSeal).progress[0]!.weighing!;
    const owes = (total: number) =>
      owed(planned, {
        ...weighing,
        verdict: { ...weighing.verdict, total: massFromBase(total), uncertainty: massFromBase(10) },
      }).price.minor;
    expect(owes(ounces('12') - 10)).toBe(465);
    expect(owes(ounces('12') - 9)).toBe(625);
    expect(owes(ounces('32') - 10)).toBe(805);
    expect(owes(ounces('40'))).toBe(805);
  });
});
