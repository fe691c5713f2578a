import { expect, it } from 'vitest';
import { inHand } from '#shared/run/in-hand.ts';
import { after } from '#tests/support/run-fixtures.ts';
import { ONE, toDone, toLabel, toWeigh } from '#tests/support/run-moments.ts';

it('an order is in hand from when it is taken until it is packed, though it still stands on the screen then', () => {
  expect(inHand(after([]))).toBe(false);
  for (const inputs of [[ONE], toWeigh, toLabel]) expect(inHand(after(inputs))).toBe(true);
  const packed = after(toDone);
  expect(packed.step.at).toBe('done');
  expect(packed.order).not.toBeNull();
  expect(inHand(packed)).toBe(false);
});
