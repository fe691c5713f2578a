import { describe, expect, it } from 'vitest';
import { IDLE } from '#shared/run/initial.ts';
import { bracketsOf, nextBracket, owed } from '#shared/run/pay.ts';
import { transition } from '#shared/run/transition.ts';
import type { RunInput, RunState } from '#shared/run/types.ts';
import { after, command, FACTS, ounces, parcel, pieceScan, taken } from '#tests/support/run-fixtures.ts';
import { toWeigh, weighed, toSeal, toClose, toOver, toMismatch } from '#tests/support/run-moments.ts';

describe('what is owed', () => {
  const owedAfter = (inputs: readonly RunInput[]) => {
    const state: RunState = after(inputs);
    const weighing = state.progress[0]?.weighing;
    return weighing ? owed(state.parcels[0]!, weighing).price.minor : null;
  };

  it('is the planned bracket when it holds with its margin of error', () => {
    expect(owedAfter(toSeal)).toBe(625);
  });

  it('is a lower bracket only when that one surely holds', () => {
    expect(owedAfter([...toMismatch, command('next'), command('confirm')])).toBe(465);
    expect(owedAfter([...toWeigh, weighed('11.9'), command('next'), command('confirm')])).toBe(625);
  });

  it('is the next bracket after paying for it, and never the planned one at close or over', () => {
    expect(owedAfter([...toClose, command('pay-next-bracket'), command('confirm')])).toBe(805);
    expect(owedAfter([...toOver, command('pay-next-bracket'), command('confirm')])).toBe(805);
  });
});

describe('idle', () => {
  it('says why an order could not be had', () => {
    const result = transition(IDLE, { type: 'order-refused', code: 'order-taken-elsewhere', order: '1047' }, FACTS);
    expect(result.state.notice).toMatchObject({ code: 'order-taken-elsewhere', values: { order: '1047' } });
  });
});

describe('the next bracket', () => {
  const light = parcel(['A', 'B']);
  const steps = light.prices.steps.slice(0, 3);
  const price = (minor: number) => ({ minor, currency: 'USD' });
  const elsewhere = (service: string, ounceCeilings: readonly (readonly [string, number])[]) => ({
    ...light.prices,
    service,
    steps: ounceCeilings.map(([ceiling, minor]) => ({ ceiling: ounces(ceiling), price: price(minor) })),
  });
  /** The planned service ends at 16 oz; two others go on, one of them undercut by the other. */
  const ends = {
    ...light,
    prices: { ...light.prices, steps },
    otherServices: [
      elsewhere('by-weight', [
        ['16', 700],
        ['32', 905],
        ['48', 1010],
      ]),
      elsewhere('soft-cubic', [['320', 950]]),
    ],
  };

  it('is the cheapest of all services that surely hold the mass, where the planned one ends', () => {
    expect(bracketsOf(ends).map(({ service, price: { minor } }) => [service, minor])).toEqual([
      ['light-parcel', 410],
      ['light-parcel', 465],
      ['light-parcel', 625],
      ['by-weight', 905],
      ['soft-cubic', 950],
    ]);
    const close = after([taken([ends]), pieceScan('A'), pieceScan('B'), ...toWeigh.slice(3), weighed('15.9')]);
    expect(close.step).toEqual({ at: 'decide', because: 'close' });
    expect(nextBracket(close)).toMatchObject({ service: 'by-weight', price: { minor: 905 } });
  });
});
