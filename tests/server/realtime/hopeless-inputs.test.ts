import { expect, it } from 'vitest';
import { HopelessInputs } from '#server/realtime/hopeless-inputs.ts';

const takes = () => Promise.resolve();
const times = async (inputs: HopelessInputs, count: number, error: unknown) => {
  const told: boolean[] = [];
  for (let time = 0; time < count; time++) told.push(await inputs.failed('an-input', error));
  return told;
};

it('an input that fails in the same way again and again, while the store takes others, is given up at the fifth time', async () => {
  const fault = new Error('a slip without a weighed parcel');
  expect(await times(new HopelessInputs(takes), 5, fault)).toEqual([false, false, false, false, true]);
  const inputs = new HopelessInputs(takes);
  await times(inputs, 4, fault);
  expect(await inputs.failed('another-input', fault)).toBe(false);
  expect(await times(inputs, 5, new Error('something else'))).toEqual([false, false, false, false, true]);
});

it('what the store or the disk refuses waits as long as that lasts', async () => {
  const full = Object.assign(new Error('database or disk is full'), { code: 'SQLITE_FULL' });
  const gone = () => Promise.reject(new Error('Connection terminated unexpectedly'));
  expect(await times(new HopelessInputs(takes), 20, full)).not.toContain(true);
  expect(await times(new HopelessInputs(gone), 20, new Error('Connection terminated'))).not.toContain(true);
});
