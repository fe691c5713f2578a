import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ROUTES } from '#server/access/route-table.ts';
import { BenchClient } from '#tests/support/bench-client.ts';
import { startProcess, temporaryFolder, type ServerProcess } from '#tests/support/server-process.ts';
import { orderCode } from '#shared/codes/our-codes.ts';
import type { Attention } from '#shared/wire/hand-over.ts';
import type { OrderPage } from '#shared/wire/office.ts';

const data = temporaryFolder('two-benches');
let server: ServerProcess;
let benches: readonly BenchClient[];

beforeAll(async () => {
  server = await startProcess({ data: data.path });
  benches = ['bench-1', 'bench-2'].map((id) => new BenchClient(server.url, id));
  for (const bench of benches) await bench.at('idle');
});

afterAll(async () => {
  for (const bench of benches) bench.close();
  await server.stop();
  data.remove();
});

const rows = async () => ((await (await fetch(`${server.url}/api/orders?count=500`)).json()) as OrderPage).rows;

/** Puts an order that was taken, and nothing of it gathered, back to the others. */
async function release(bench: BenchClient): Promise<void> {
  await bench.command('back');
  await bench.at('idle');
}

async function scanned(bench: BenchClient, text: string, id: string): Promise<void> {
  expect(await bench.input({ id, type: 'scan', text, by: 'key' })).toMatchObject({ ok: true });
}

describe('two benches at the same moment', () => {
  it('one order goes to exactly one of them, and the other is told so, time and again', async () => {
    const [wanted] = (await rows()).filter((row) => row.state === 'open');
    const id = wanted?.id ?? '';
    for (let round = 0; round < 6; round++) {
      await Promise.all(
        benches.map((bench, index) => scanned(bench, orderCode(id), `same-order-${String(round)}-${String(index)}`)),
      );
      const winner = await benches[0]?.until(
        () => benches.find((bench) => bench.view?.task.at === 'gather'),
        'one bench with the order',
      );
      const loser = benches.find((bench) => bench !== winner);
      if (winner === undefined || loser === undefined) throw new Error('no bench won');
      await loser.until(({ view }) => view?.notice?.code === 'order-taken-elsewhere', 'the other bench told');
      expect(loser.view?.task.at).toBe('idle');
      expect((await rows()).filter((row) => row.state === 'packing').map((row) => row.id)).toEqual([id]);
      await release(winner);
    }
  });

  it('"next" at both takes two different orders, the first two of the queue', async () => {
    for (let round = 0; round < 3; round++) {
      const all = await benches[0]?.until(({ view }) => view?.day.waiting === 50 && view, 'every order waiting');
      const queue = all?.queue.slice(0, 2).map(({ id }) => id);
      await Promise.all(benches.map((bench) => bench.command('next')));
      const taken = await Promise.all(benches.map(async (bench) => (await bench.at('gather')).order?.id));
      expect([...taken].sort()).toEqual([...(queue ?? [])].sort());
      await Promise.all(benches.map(release));
    }
  });

  it('each sees what the other takes: the queue, what is left, and why the next one is next', async () => {
    const [one, two] = benches;
    if (one === undefined || two === undefined) throw new Error('two benches are needed');
    const before = await two.until(
      ({ view }) => view?.day.waiting === 50 && view.next?.container != null && view,
      'every order waiting, the next one planned',
    );
    expect(before.next?.order).toBe(before.queue[0]?.id);
    // In the past or not: that depends on the hour at which the tests run.
    const until = (Date.parse(before.next?.collection ?? '') - Date.now()) / 60_000;
    expect(Math.abs((before.next?.minutes ?? NaN) - until)).toBeLessThan(2);
    await one.command('next');
    await one.at('gather');
    const after = await two.until(
      ({ view }) => view?.day.waiting === before.day.waiting - 1 && view,
      'the other order gone from the queue',
    );
    expect(after.queue[0]?.id).toBe(before.queue[1]?.id);
    expect(one.view?.day.waiting).toBe(after.day.waiting);
    await release(one);
  });
});

it('a call for help is seen at the other bench, on the day board and at the start of the office until the caller goes on', async () => {
  const [caller, other] = benches as readonly [BenchClient, BenchClient];
  const waits = async () => ((await (await fetch(`${server.url}/api/attention`)).json()) as Attention).help;
  await caller.command('help');
  await caller.until(({ view }) => view?.helpCalled, 'its own word of it');
  await other.until(
    ({ view }) => view?.helpWanted?.includes(caller.view?.bench.name ?? ''),
    'the call at the other bench',
  );
  expect(other.view?.helpCalled).toBeUndefined();
  expect(await waits()).toEqual([caller.view?.bench.name]);
  // Hearing it again is no sign that somebody came.
  await caller.command('repeat');
  expect(await waits()).toHaveLength(1);

  await caller.command('practice');
  await caller.at('practice');
  await other.until(({ view }) => view?.helpWanted === undefined, 'the end of the call');
  expect(await waits()).toEqual([]);
  // Whoever learns may call as well.
  await caller.command('help');
  await other.until(({ view }) => view?.helpWanted, 'a call out of practice');
  // Who scanned a badge there stands at the bench when practice is over.
  await scanned(caller, 'STAFF-TOBIAS-02', 'badge-in-practice');
  await caller.until(({ view }) => view?.packer?.name === 'Tobias', 'Tobias in practice');
  await caller.command('back');
  await other.until(({ view }) => view?.helpWanted === undefined, 'its end');
  await caller.until(({ view }) => view?.task.at === 'idle' && view.packer?.name === 'Tobias', 'Tobias at the bench');
});

it('an id that is none, or that no number holds, is of nothing: no route fails on it, whatever the store', async () => {
  const routes = Object.keys(ROUTES).filter((each) => /^(GET|POST|DELETE) \/api.*:/.test(each));
  const ask = async (route: string, id: string): Promise<string> => {
    const [method = '', path = ''] = route.split(' ');
    const asked = path.replace(':bench', 'bench-1').replace(/:\w+/g, id);
    const body = { body: '{"reason":"why"}', headers: { 'content-type': 'application/json' } };
    const { status } = await fetch(`${server.url}${asked}`, { method, ...(method === 'POST' ? body : {}) });
    return status >= 500 ? `${method} ${asked}: ${String(status)}` : '';
  };
  for (const id of ['none', '1e99', '99999999999999999999']) {
    expect((await Promise.all(routes.map((route) => ask(route, id)))).filter((wrong) => wrong !== '')).toEqual([]);
  }
});
