import { afterAll, beforeAll, expect, it } from 'vitest';
import { orderCode } from '#shared/codes/our-codes.ts';
import { BenchClient } from '#tests/support/bench-client.ts';
import { startProcess, temporaryFolder, type ServerProcess } from '#tests/support/server-process.ts';

const data = temporaryFolder('left');
let server: ServerProcess;
let hands: BenchClient;

beforeAll(async () => {
  server = await startProcess({ data: data.path });
  hands = new BenchClient(server.url, 'bench-1');
  await hands.at('idle');
});

afterAll(async () => {
  hands.close();
  await server.stop();
  data.remove();
});

/** Presses on from the order's code until it is to be weighed. */
async function toWeigh(order: string): Promise<void> {
  await hands.simulate({ do: 'scan', text: orderCode(order) });
  await hands.until(({ view }) => view?.order?.id === order && view.task.at === 'gather', `order ${order}`);
  await pressOn();
}

/** From there the scale goes on by itself: one more press would go past what it does. */
async function pressOn(): Promise<void> {
  for (let guard = 0; guard < 40 && !['weigh', 'seal', 'decide'].includes(hands.view?.task.at ?? ''); guard++) {
    const seq = hands.view?.seq ?? 0;
    await hands.command('next');
    await hands.until(({ view }) => (view?.seq ?? 0) > seq, 'the next step');
  }
}

it('a parcel that is left on the scale is never weighed as the one of the next order', async () => {
  await toWeigh('4130');
  await hands.emptyPan();
  await hands.simulate({ do: 'put-expected' });
  await hands.at('seal');
  await hands.command('next');
  await hands.command('next');
  await hands.command('confirm');
  await hands.at('done');

  await toWeigh('4144');
  await hands.until(({ live }) => live?.needsEmptying, 'the word that the pan must be emptied');
  expect(hands.view?.task.at).toBe('weigh');
  // Nor is it shown as this one's weight.
  await hands.until(({ live }) => live?.another, 'the word that another parcel lies there');
  await hands.emptyPan();
  expect(hands.live?.another).toBeUndefined();
  await hands.simulate({ do: 'put-expected' });
  await hands.at('seal');
}, 60_000);

it('a parcel put on the scale before it is said to be closed is weighed at once', async () => {
  await hands.command('next');
  await hands.command('next');
  await hands.command('confirm');
  await hands.at('done');
  await hands.emptyPan();
  await hands.simulate({ do: 'scan', text: orderCode('4137') });
  await hands.at('gather');
  await hands.simulate({ do: 'put-expected' });
  await hands.until(({ live }) => (live?.reading?.mass ?? 0) > 0 && live?.reading?.stability === 'still', 'the load');
  await new Promise((soon) => setTimeout(soon, 900));
  await pressOn();
  await hands.at('seal');
}, 60_000);
