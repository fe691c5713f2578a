import { afterAll, beforeAll, expect, it } from 'vitest';
import { BenchClient } from '#tests/support/bench-client.ts';
import { startProcess, temporaryFolder, type ServerProcess } from '#tests/support/server-process.ts';
import { orderCode } from '#shared/codes/our-codes.ts';

const data = temporaryFolder('two-benches');
let server: ServerProcess;
let first: BenchClient;
let second: BenchClient;

beforeAll(async () => {
  server = await startProcess({ data: data.path });
  first = new BenchClient(server.url, 'bench-1');
  second = new BenchClient(server.url, 'bench-2');
  await Promise.all([first.at('idle'), second.at('idle')]);
});

afterAll(async () => {
  first.close();
  second.close();
  await server.stop();
  data.remove();
});

const scan = (client: BenchClient, text: string, id: string) => client.input({ id, type: 'scan', text, by: 'scan' });

it('of two benches that scan one order at the same moment exactly one packs it, and the other is told', async () => {
  for (let round = 0; round < 12; round++) {
    const order = first.view?.queue[round % 4]?.id ?? '';
    await Promise.all([
      scan(first, orderCode(order), `race-${String(round)}-first`),
      scan(second, orderCode(order), `race-${String(round)}-second`),
    ]);
    const outcome = (client: BenchClient) =>
      client.until(
        ({ view }) =>
          view?.task.at === 'gather' ? 'packs' : view?.notice?.code === 'order-taken-elsewhere' ? 'told' : null,
        'an outcome of the race',
      );
    expect((await Promise.all([outcome(first), outcome(second)])).sort()).toEqual(['packs', 'told']);
    const packer = first.view?.task.at === 'gather' ? first : second;
    expect(packer.view?.order?.id).toBe(order);
    await packer.command('back');
    await packer.at('idle');
    // Clears the other bench's notice, so that the next round starts clean.
    const other = packer === first ? second : first;
    await other.command('next');
    await other.at('gather');
    await other.command('back');
    await other.at('idle');
  }
});

it('a bench that asks for the next order never gets one that another bench is packing', async () => {
  await Promise.all([first.command('next'), second.command('next')]);
  const [mine, yours] = await Promise.all([first.at('gather'), second.at('gather')]);
  expect(mine.order?.id).not.toBe(yours.order?.id);
});
