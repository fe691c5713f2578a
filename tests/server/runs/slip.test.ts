import { describe, expect, it } from 'vitest';
import { loadShop } from '#config/load.ts';
import { slipBytes } from '#server/runs/slip.ts';
import type { RunInput } from '#shared/run/types.ts';
import type { BenchConfig } from '#shared/shop/shop.ts';
import { after, command, parcel, pieceScan, reading, taken } from '#tests/support/run-fixtures.ts';

const shop = loadShop('config');
function benchHere(): BenchConfig {
  const [bench] = shop.benches;
  if (bench === undefined) throw new Error('the demo shop has no bench');
  return bench;
}
const next = command('next');
const toWeigh: readonly RunInput[] = [taken([parcel(['A'])]), pieceScan('A'), next, next, next, next];
/** The words of the slip after these inputs; expected are 15 oz, and the planned bracket ends at 16 oz. */
function slipAfter(...inputs: readonly RunInput[]): string {
  const state = after([...toWeigh, ...inputs]);
  return Buffer.from(slipBytes(state, shop, benchHere()).bytes).toString('latin1');
}
const weighed = (text: string): RunInput => ({ type: 'reading', reading: reading(text) });

const WARNING = 'Pay the next bracket';

describe('what a slip says of the weight', () => {
  it('begins with the warning while nothing was decided', () => {
    expect(slipAfter(weighed('15.2'))).not.toContain(WARNING);
    expect(slipAfter(weighed('15.9'))).toContain(WARNING);
  });

  it('begins with the warning, too, where an unlikely mass was kept as it is', () => {
    const light = { ...parcel(['A']), mass: { mean: 200, sd: 2 } };
    const state = after([taken([light]), ...toWeigh.slice(1), weighed('15.9'), next, command('confirm')]);
    expect(state.step).toEqual({ at: 'decide', because: 'close' });
    expect(Buffer.from(slipBytes(state, shop, benchHere()).bytes).toString('latin1')).toContain(WARNING);
  });

  it('has the bracket that is paid once the next one is, and no warning', () => {
    const close = slipAfter(weighed('15.9'));
    expect(close).toContain('0.00 oz to 16 oz');
    const paid = slipAfter(weighed('15.9'), command('pay-next-bracket'), command('confirm'));
    expect(paid).not.toContain(WARNING);
    expect(paid).toContain('16.00 oz to 2 lb');
  });
});
