import { afterAll, beforeAll, expect, it } from 'vitest';
import { BenchClient } from '#tests/support/bench-client.ts';
import { startProcess, temporaryFolder, type ServerProcess } from '#tests/support/server-process.ts';
import type { BenchView } from '#shared/wire/views.ts';

const data = temporaryFolder('kill');
let server: ServerProcess;
let bench: BenchClient;

beforeAll(async () => {
  server = await startProcess({ data: data.path });
  bench = new BenchClient(server.url, 'bench-1');
});

afterAll(async () => {
  bench.close();
  await server.stop();
  data.remove();
});

/** As when the plug is pulled: killed, started again, and the screen comes back by itself. */
async function pullThePlug(): Promise<BenchView> {
  bench.close();
  await server.kill();
  server = await startProcess({ data: data.path });
  bench = new BenchClient(server.url, 'bench-1');
  return bench.until((client) => client.view, 'a view after the restart');
}

/** What must be the same after a restart. Timings and counters of the day are not of the run. */
const exactStep = (view: BenchView) => ({
  seq: view.seq,
  task: view.task,
  order: view.order,
  container: view.container,
  seam: view.seam,
  commands: view.commands,
  confirming: view.confirming,
});

it('a server killed at every step goes on in the exact step, and finishes the order once', async () => {
  const seen: string[] = [];
  let view = await bench.at('idle');
  await bench.command('next');
  view = await bench.at('gather');
  const order = view.order?.id;
  let guard = 0;
  while (view.task.at !== 'done') {
    if (++guard > 80) throw new Error(`the run does not end: ${seen.join(' ')}`);
    seen.push(view.task.at);
    view = await bench.until((client) => client.view?.slip !== 'queued' && client.view, 'the slip');
    const firstTime = seen.filter((each) => each === view.task.at).length === 1;
    if (firstTime || view.confirming !== null) {
      const before = exactStep(view);
      view = await pullThePlug();
      expect(exactStep(view)).toEqual(before);
    }
    const { seq } = view;
    if (view.task.at === 'weigh') {
      await bench.emptyPan();
      expect(await bench.simulate({ do: 'put-expected' })).toMatchObject({ ok: true });
    } else if (view.confirming !== null) {
      await bench.command('confirm');
    } else if (view.task.at === 'decide') {
      await bench.command(view.commands.includes('pay-next-bracket') ? 'pay-next-bracket' : 'next');
    } else {
      const ack = await bench.command('next');
      expect(ack).toMatchObject({ ok: true });
    }
    view = await bench.until(
      (client) => (client.view?.seq ?? 0) > seq && client.view,
      `something after ${seen.join(' ')}`,
    );
  }
  expect(new Set(seen)).toEqual(new Set(['gather', 'look-over', 'fold', 'fill', 'weigh', 'seal', 'label']));
  view = await pullThePlug();
  expect(view.task).toMatchObject({ at: 'done', order });
  const csv = await (await fetch(`${server.url}/api/exports/parcels.csv`)).text();
  expect(csv.split('\r\n').filter((line) => line.includes(String(order)))).toHaveLength(1);
}, 120_000);

it('the same input delivered twice, also across a restart, acts once', async () => {
  const view = await bench.until((client) => client.view, 'a view');
  const input = { id: 'delivered-twice-1', type: 'command', command: 'next', by: 'voice' } as const;
  const first = await bench.input(input);
  const taken = await bench.at('gather');
  expect(taken.seq).toBeGreaterThan(view.seq);
  const second = await bench.input(input);
  expect(second).toEqual(first);
  await pullThePlug();
  expect(await bench.input(input)).toEqual(first);
  expect((await bench.at('gather')).seq).toBe(taken.seq);
});
