import { describe, expect, it } from 'vitest';
import { after, command, ounces, parcel, pieceScan, reading, taken } from '#tests/support/run-fixtures.ts';
import { benchViewFixture } from '#tests/support/view-fixture.ts';
import type { RunInput } from '#shared/run/types.ts';

const weighed = (text: string): RunInput => ({ type: 'reading', reading: reading(text) });
const next = command('next');
const toWeigh: readonly RunInput[] = [taken([parcel(['A'])]), pieceScan('A'), next, next, next, next];

/** What the tag and the weigh line say is paid: price, and up to which mass. */
function said(inputs: readonly RunInput[]) {
  const view = benchViewFixture(after([...toWeigh, ...inputs]));
  const bracket = view.weigh?.brackets[view.weigh.planned];
  return {
    at: view.task.at,
    price: view.container?.price.minor,
    ceiling: bracket?.ceiling,
    line: bracket?.price.minor,
  };
}

describe('what the screen says is paid', () => {
  it('is the plan until the weight is settled', () => {
    expect(said([])).toEqual({ at: 'weigh', price: 625, ceiling: ounces('16'), line: 625 });
    expect(said([weighed('15.9')])).toEqual({ at: 'decide', price: 625, ceiling: ounces('16'), line: 625 });
  });

  it('is the next bracket once that is paid, on the tag and on the weigh line', () => {
    const paid = [weighed('15.9'), command('pay-next-bracket'), command('confirm')];
    expect(said(paid)).toEqual({ at: 'seal', price: 805, ceiling: ounces('32'), line: 805 });
    expect(said([...paid, next])).toEqual({ at: 'label', price: 805, ceiling: ounces('32'), line: 805 });
  });

  it('is the plan again after going back to the scale', () => {
    const back = [weighed('15.9'), command('pay-next-bracket'), command('confirm'), command('back')];
    expect(said(back)).toMatchObject({ price: 625, ceiling: ounces('16') });
  });

  it('is the bracket that the weight truly falls into', () => {
    expect(said([weighed('15.2')])).toMatchObject({ at: 'seal', price: 625 });
  });
});
