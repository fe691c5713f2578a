import { io } from 'socket.io-client';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openPostgres, type Store } from '#server/store/open.ts';
import type { DevicesView } from '#shared/wire/devices.ts';
import { BenchClient } from '#tests/support/bench-client.ts';
import { startProcess, temporaryFolder, type ServerProcess } from '#tests/support/server-process.ts';
import { databaseOf } from '#tests/support/shared-cluster.ts';

const folders = [temporaryFolder('server-one'), temporaryFolder('server-two')];
let database: string;
let store: Store;
let servers: ServerProcess[];
let benches: BenchClient[];

/** Each has the devices of one bench. */
const launch = (index: number) =>
  startProcess({
    data: folders[index]?.path ?? '',
    database,
    environment: { BENCHFOLD_BENCHES: `bench-${String(index + 1)}` },
  });

beforeAll(async () => {
  database = await databaseOf(folders[0]?.path ?? '');
  servers = [await launch(0), await launch(1)];
  store = await openPostgres(database);
}, 60_000);

afterAll(async () => {
  for (const bench of benches) bench.close();
  await store.destroy();
  await Promise.all(servers.map((server) => server.stop()));
  for (const folder of folders) folder.remove();
}, 30_000);

/** What a screen is told that asks a server for a bench: where it is, or that it is here. */
function asked(url: string, bench: string): Promise<string> {
  const socket = io(`${url}/bench`, { auth: { bench }, transports: ['websocket'], forceNew: true });
  return new Promise((done) => {
    const end = (told: string) => {
      socket.disconnect();
      done(told);
    };
    socket.once('connect', () => end('here'));
    socket.once('connect_error', (error) =>
      end('data' in error && error.data !== undefined ? JSON.stringify(error.data) : error.message),
    );
  });
}

describe('two servers of one shop', () => {
  it('each has its own benches, and says where the others are', async () => {
    const [one, two] = servers;
    // The first to start had both until the second came, whose devices bench 2 has.
    await expect.poll(() => asked(two?.url ?? '', 'bench-2'), { timeout: 15_000, interval: 300 }).toBe('here');
    await expect
      .poll(() => asked(one?.url ?? '', 'bench-2'), { timeout: 15_000 })
      .toBe(JSON.stringify({ at: two?.url }));
    expect(await asked(one?.url ?? '', 'bench-1')).toBe('here');
    expect(await asked(two?.url ?? '', 'bench-1')).toBe(JSON.stringify({ at: one?.url }));
    expect(await asked(two?.url ?? '', 'bench-x')).toBe('unknown-bench');
  }, 40_000);

  it('give no order to two benches, whichever servers these are at', async () => {
    benches = servers.map((server, index) => new BenchClient(server.url, `bench-${String(index + 1)}`));
    for (const bench of benches) await bench.at('idle');
    for (let round = 0; round < 3; round++) {
      await Promise.all(benches.map((bench) => bench.command('next')));
      const taken = await Promise.all(benches.map(async (bench) => (await bench.at('gather')).order?.id));
      expect(new Set(taken).size).toBe(2);
      if (round === 2) return;
      for (const bench of benches) {
        await bench.command('back');
        await bench.at('idle');
      }
    }
  }, 40_000);

  it('tell a screen of each other, and let its page ask whether the other is there', async () => {
    const [one, two] = servers;
    const socket = io(`${one?.url ?? ''}/bench`, {
      auth: { bench: 'bench-1' },
      transports: ['websocket'],
      forceNew: true,
    });
    const told = await new Promise<unknown>((done) => socket.once('servers', done));
    socket.disconnect();
    expect(told).toEqual([two?.url]);
    const policy = (await fetch(`${one?.url ?? ''}/bench`)).headers.get('content-security-policy') ?? '';
    expect(policy).toContain(`connect-src 'self' ${two?.url ?? ''};`);
  });

  it('the office of each sees to the benches of both', async () => {
    const [one] = servers;
    const [, far] = benches;
    const at = `${one?.url ?? ''}/api`;
    const post = (path: string, body: object = {}) =>
      fetch(at + path, { method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) });
    for (const { url } of servers) {
      const { benches: desks } = (await (await fetch(`${url}/api/devices`)).json()) as DevicesView;
      expect(desks.map(({ bench }) => bench.id).sort()).toEqual(['bench-1', 'bench-2']);
    }
    expect((await post('/devices/bench-2/simulate', { do: 'put-mass', mass: '3.3 oz' })).status).toBe(200);
    await far?.until(({ live }) => (live?.reading?.mass ?? 0) > 0, 'a mass on the far scale');
    expect((await post('/devices/bench-2/simulate', { do: 'empty-pan' })).status).toBe(200);
    expect((await post('/devices/bench-2/simulate', { do: 'nothing of the kind' })).status).toBe(400);
    const paper = await post('/devices/bench-2/documents', { what: 'test', language: 'en', print: false });
    expect(((await paper.json()) as { svg: string }).svg).toContain('</svg>');
    expect((await post('/devices/bench-x/zero')).status).toBe(404);
    const order = far?.view?.order?.id ?? '';
    expect((await post(`/orders/${encodeURIComponent(order)}/release`, { by: 'tobias' })).status).toBe(200);
    await far?.at('idle');
    expect((await post(`/orders/${encodeURIComponent(order)}/release`, { by: 'tobias' })).status).toBe(409);
    await far?.command('next');
    await far?.at('gather');
  }, 40_000);

  it('when one is killed, the other goes on with its bench in the exact step, and gives it back', async () => {
    const [one] = benches;
    const before = await one?.at('gather');
    one?.close();
    await servers[0]?.kill();
    const { url = '' } = servers[1] ?? {};
    await expect.poll(() => asked(url, 'bench-1'), { timeout: 20_000, interval: 300 }).toBe('here');
    const moved = new BenchClient(url, 'bench-1');
    benches[0] = moved;
    const after = await moved.until((client) => client.view, 'the bench at the other server');
    expect(after.order).toEqual(before?.order);
    expect(after.seq).toBe(before?.seq);
    expect(await moved.command('next')).toMatchObject({ ok: true });
    const { seq } = await moved.until(({ view }) => (view?.seq ?? 0) > after.seq && view, 'the next step');
    // An order is in hand: the bench stays until it is given back.
    servers[0] = await launch(0);
    expect(await asked(servers[0].url, 'bench-1')).toBe(JSON.stringify({ at: url }));
    expect(seq).toBeGreaterThan(after.seq);
    const states = await store
      .selectFrom('shop_order')
      .select(['state', 'bench'])
      .where('state', '=', 'packing')
      .execute();
    expect(states.map(({ bench }) => bench).sort()).toEqual(['bench-1', 'bench-2']);
  }, 60_000);

  it('once the shop is locked, a server answers what another passes on to whoever has signed in there, and to nobody else', async () => {
    const [here, there] = servers;
    const headers = { 'content-type': 'application/json' };
    const set = await fetch(`${here?.url ?? ''}/api/access/set-up`, {
      ...{ method: 'POST', headers },
      body: JSON.stringify({ person: 'maren', pin: '730164' }),
    });
    expect(set.status).toBe(200);
    const cookie = set.headers.getSetCookie()[0]?.split(';')[0] ?? '';
    // Both benches are at the second server now.
    const zero = (more: Readonly<Record<string, string>>) =>
      fetch(`${here?.url ?? ''}/api/devices/bench-2/zero`, { method: 'POST', headers: { ...headers, ...more } });
    // Just started, it hears of the other within seconds.
    await expect.poll(async () => (await zero({ cookie })).status, { interval: 300 }).toBe(200);
    expect((await zero({})).status).toBe(401);
    expect((await zero({ cookie, 'x-forwarded-for': '10.0.0.9' })).status).toBe(401);
    expect(there).toBeDefined();
  }, 40_000);
});
