import { randomUUID } from 'node:crypto';
import SqliteDatabase from 'better-sqlite3';
import { join } from 'node:path';
import { io } from 'socket.io-client';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { runCli } from '#server/cli/cli.ts';
import type { AccessRefused, AccessView, PairingCode, RightsView } from '#shared/wire/access.ts';
import { BenchClient } from '#tests/support/bench-client.ts';
import { newestChanges } from '#server/store/changes.ts';
import { CONFIG, copyOfConfig, edit, removeConfigFolders } from '#tests/support/config-folder.ts';
import { comingAs, lock, OWNER_PIN } from '#tests/support/coming-as.ts';
import { serverOn } from '#tests/support/in-process-server.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';

const MINUTE = 60_000;
const DAY = 24 * 60 * MINUTE;
let data: ReturnType<typeof temporaryFolder>;
let server: Awaited<ReturnType<typeof serverOn>>;
let ahead = 0;
const clock = { now: () => Date.now() + ahead };

async function begin(config = CONFIG): Promise<void> {
  data = temporaryFolder('coming-in');
  server = await serverOn(config, data.path, clock);
}
async function end(): Promise<void> {
  await server.stop();
  data.remove();
}
/** Nothing of the test before counts any more, and nobody is signed in. */
const later = () => (ahead += 30 * DAY);

type Headers = Readonly<Record<string, string>>;
const FAR: Headers = { 'x-forwarded-for': '10.0.0.9' };

const get = async <Answer>(path: string, headers: Headers = {}) => {
  const answer = await fetch(`${server.url}${path}`, { headers });
  return { status: answer.status, body: (await answer.json()) as Answer };
};
const post = async <Answer>(path: string, body: unknown, headers: Headers = {}) => {
  const answer = await fetch(`${server.url}${path}`, {
    method: 'POST',
    headers: { 'content-type': 'application/json', ...headers },
    body: JSON.stringify(body),
  });
  const cookies = answer.headers.getSetCookie();
  return { status: answer.status, body: (await answer.json()) as Answer, cookies, headers: answer.headers };
};
const pairOf = (cookie = '') => cookie.split(';')[0] ?? '';

describe('a shop that nobody has locked', () => {
  beforeEach(() => begin());
  afterEach(end);

  it('is the owner’s who sits at its computer, until the owner has a PIN', async () => {
    expect((await get<AccessView>('/api/access')).body).toMatchObject({
      locked: false,
      ownerPin: false,
      standing: 'owner',
    });
    expect((await get('/api/intake-tokens')).status).toBe(200);

    const set = await post('/api/access/set-up', { person: 'maren', pin: OWNER_PIN });
    expect(set.status).toBe(200);
    const [cookie] = set.cookies;
    expect(cookie).toMatch(/^benchfold_session=[\w-]{43}; .*HttpOnly; SameSite=Strict$/);
    expect((await get('/api/intake-tokens')).status).toBe(401);
    expect((await get('/api/intake-tokens', { cookie: pairOf(cookie) })).status).toBe(200);
    expect((await get<AccessView>('/api/access')).body).toMatchObject({ locked: true, standing: 'device', here: true });
    // Now it takes a code.
    expect((await post('/api/access/set-up', { person: 'maren', pin: '918273' })).status).toBe(403);
  });

  it('takes no owner’s PIN that is short, long or the first to be tried, begins with an owner, and is nobody’s for whom a program passes on', async () => {
    for (const [pin, error] of [
      ['123', 'too-short'],
      ['12345', 'too-short'],
      ['123456', 'too-plain'],
      ['111111', 'too-plain'],
      ['121212', 'too-plain'],
      ['987654', 'too-plain'],
      ['90817263544536', 'too-long'],
      ['12a456', 'not-digits'],
    ] as const) {
      const { body } = await post('/api/access/set-up', { person: 'maren', pin });
      expect(body, pin).toMatchObject({ error });
    }
    expect((await get<AccessView>('/api/access')).body.locked).toBe(false);

    expect((await post('/api/access/set-up', { person: 'lucia', pin: OWNER_PIN })).body).toMatchObject({
      error: 'not-an-owner',
    });
    expect((await post('/api/access/pins', { person: 'lucia', pin: '7301' })).body).toMatchObject({
      error: 'owner-first',
    });

    expect((await get<AccessView>('/api/access', FAR)).body).toMatchObject({ locked: true, standing: 'nobody' });
    for (const path of ['/api/orders', '/api/settings', '/api/benches']) {
      expect((await get(path, FAR)).status, path).toBe(401);
      expect((await get(path, { forwarded: 'for=10.0.0.9' })).status, path).toBe(401);
    }
    expect((await post('/api/access/set-up', { person: 'maren', pin: OWNER_PIN }, FAR)).status).toBe(403);
    const bench = new BenchClient(server.url, 'bench-1', { extraHeaders: FAR });
    const refused = await new Promise<string>((why) => bench.socket.on('connect_error', ({ message }) => why(message)));
    expect(refused).toBe('not-paired');
    bench.close();
    expect((await get<AccessView>('/api/access')).body.standing).toBe('owner');
  });

  it('locks open screens at once', async () => {
    const bench = new BenchClient(server.url, 'bench-1');
    await bench.at('idle');
    const doors: boolean[] = [];
    bench.socket.on('door', (open) => doors.push(open));
    await lock(server);
    await expect.poll(() => doors).toEqual([false]);
    const ack = await bench.command('next', 'touch');
    expect(ack).toMatchObject({ ok: false, error: 'signed-out' });
    bench.close();
  });
});

it('closes the open screens of whoever loses a role, or works here no more, as soon as the files say so', async () => {
  const config = copyOfConfig();
  await begin(config);
  await lock(server);
  const owner = await comingAs(server, 'owner');
  const supervisor = await comingAs(server, 'supervisor');
  const packer = await comingAs(server, 'packer');
  const office = io(`${server.url}/office`, { transports: ['websocket'], extraHeaders: { ...supervisor } });
  await new Promise((connected) => office.once('connect', () => connected(true)));
  const bench = new BenchClient(server.url, 'bench-1', { extraHeaders: { ...packer } });
  await bench.at('idle');
  edit(config, 'staff.yaml', /(tobias: .*role: )supervisor/, '$1packer');
  edit(config, 'staff.yaml', /^.*lucia: .*$/m, '');
  const closed = new Promise((done) => office.once('disconnect', done));
  expect((await post('/api/rates/reload', {}, owner)).status).toBe(200);
  expect(await closed).toBe('io server disconnect');
  expect((await get('/api/orders', supervisor)).status).toBe(403);
  await expect.poll(() => bench.command('next', 'touch')).toMatchObject({ ok: false, error: 'signed-out' });
  expect((await get('/api/what-fits', packer)).status).toBe(401);
  office.close();
  bench.close();
  await end();
  removeConfigFolders();
});

describe('a locked shop', () => {
  beforeAll(() => begin());
  beforeEach(async () => {
    later();
    await lock(server);
  });
  afterAll(end);

  it('tells a stranger no name, takes nothing from one, and keeps no secret but as a hash', async () => {
    expect((await get<AccessView>('/api/access', FAR)).body).toMatchObject({
      standing: 'nobody',
      paired: false,
      people: [],
    });
    expect((await get('/api/benches', FAR)).body).toMatchObject({ error: 'not-paired' });
    expect((await post('/api/access/sign-in', { place: 'office', person: 'maren', pin: OWNER_PIN }, FAR)).status).toBe(
      401,
    );
    expect((await post('/api/intake/orders', [], FAR)).body).toMatchObject({ error: 'no-token' });
    expect(await get('/healthz', FAR)).toMatchObject({ status: 200, body: { ok: true, shop: '' } });

    const owner = await comingAs(server, 'owner');
    const { code } = await server.entry.makeCode('pair');
    const file = new SqliteDatabase(join(data.path, 'benchfold.db'), { readonly: true });
    const all = ['access_pin', 'access_device', 'access_session', 'access_code'].map((table) =>
      file.prepare(`select * from ${table}`).all(),
    );
    file.close();
    const text = JSON.stringify(all);
    expect(text).toContain('$argon2id$v=19$m=19456,t=2,p=1$');
    for (const secret of [OWNER_PIN, code, ...String(owner['cookie']).split(/[=;] ?/)]) {
      if (/^(benchfold_\w+|)$/.test(secret)) continue;
      expect(text).not.toContain(secret);
    }
  });

  it('pairs a device once for a code, and forgets the device when it is revoked', async () => {
    const owner = await comingAs(server, 'owner');
    const { code } = (await post<PairingCode>('/api/access/codes', {}, owner)).body;
    expect(code).toMatch(/^\d{4} \d{4}$/);
    const paired = await post('/api/access/pair', { code, name: 'tablet 1' }, FAR);
    expect(paired.status).toBe(200);
    const tablet = { ...FAR, cookie: pairOf(paired.cookies[0]) };
    expect((await get('/api/benches', tablet)).status).toBe(200);
    expect((await get('/api/orders', tablet)).body).toMatchObject({ error: 'signed-out' });
    expect((await post('/api/access/pair', { code, name: 'again' }, FAR)).status).toBe(403);

    const { devices } = (await get<RightsView>('/api/access/rights', owner)).body;
    const id = devices.find(({ name }) => name === 'tablet 1')?.id;
    expect((await post(`/api/access/devices/${String(id)}/revoke`, {}, owner)).status).toBe(200);
    expect((await get('/api/benches', tablet)).body).toMatchObject({ error: 'not-paired' });
  });

  it('takes a pairing code for ten minutes, and not after ten wrong ones', async () => {
    const late = await server.entry.makeCode('pair');
    ahead += 11 * MINUTE;
    expect((await post('/api/access/pair', { code: late.code, name: 'late' }, FAR)).status).toBe(403);
    const guessed = await server.entry.makeCode('pair');
    const made = ahead;
    for (let wrong = 0; wrong < 10; wrong++) {
      ahead += 2 * 60 * MINUTE;
      expect((await post('/api/access/pair', { code: '0000 0000', name: 'guess' }, FAR)).status).toBe(403);
    }
    ahead = made;
    expect((await server.entry.useCode('pair', guessed.code, { address: '10.0.0.77' })).ok).toBe(false);
  });

  it('lets wait longer and longer who guesses a PIN, from wherever, also after a restart', async () => {
    const before = await newestChanges(server.store, null);
    const tries = await Promise.all(
      Array.from({ length: 8 }, () =>
        post<AccessRefused>('/api/access/sign-in', { place: 'office', person: 'maren', pin: '000000' }),
      ),
    );
    // However many at once: five are looked at.
    expect(tries.filter(({ status }) => status === 403)).toHaveLength(5);
    expect(tries.filter(({ status }) => status === 429)).toHaveLength(3);
    // Those that were looked at are in the record of changes, with where they came from; those that had to wait fill it with nothing.
    const kept = await newestChanges(server.store, null);
    const wrong = kept.slice(0, kept.length - before.length);
    // Which of them is looked at last is chance.
    const told = wrong.map(({ what, about, who, from, details }) => [what, about, who, from, details] as const);
    expect(told.toSorted(([one], [other]) => one.localeCompare(other))).toEqual([
      ['locked-out', 'maren', null, 'office', { with: 'pin', address: '127.0.0.1', seconds: '30' }],
      ...Array.from({ length: 4 }, () => [
        'signed-in-failed',
        'maren',
        null,
        'office',
        { with: 'pin', address: '127.0.0.1' },
      ]),
    ]);
    const right = { place: 'office', person: 'maren', pin: OWNER_PIN };
    const early = await post<AccessRefused>('/api/access/sign-in', right);
    expect(early).toMatchObject({ status: 429, body: { error: 'wait' } });
    expect(early.body.seconds).toBeGreaterThan(20);
    expect(early.headers.get('retry-after')).toBe(String(early.body.seconds));

    await server.stop();
    server = await serverOn('config', data.path, clock);
    expect((await post('/api/access/sign-in', right)).status).toBe(429);
    // The person is known to nobody else, but an innocent at another address waits as well: it is her PIN that is guessed.
    ahead += MINUTE;
    expect((await post<AccessRefused>('/api/access/sign-in', { ...right, pin: '000000' })).body.error).toBe('wrong');
    expect((await post<AccessRefused>('/api/access/sign-in', right)).body.seconds).toBeGreaterThan(50);
    ahead += 2 * MINUTE;
    expect((await post('/api/access/sign-in', right)).status).toBe(200);
    // A right one clears what was wrong before.
    expect((await post<AccessRefused>('/api/access/sign-in', { ...right, pin: '000000' })).body.error).toBe('wrong');
    expect((await post('/api/access/sign-in', right)).status).toBe(200);
  });

  it('ends a session when nothing is done, at the latest after twelve hours, and when it is left', async () => {
    const owner = await comingAs(server, 'owner');
    const status = async () => (await get('/api/learned', owner)).status;
    const begun = ahead;
    ahead = begun + 29 * MINUTE;
    expect(await status()).toBe(200);
    // Looking alone, as a page does by itself, keeps nothing open.
    ahead = begun + 31 * MINUTE;
    expect(await status()).toBe(401);
    ahead = begun;
    for (let hour = 0; hour < 12 * 60; hour += 25) {
      ahead = begun + hour * MINUTE;
      expect((await post('/api/access/active', {}, owner)).status).toBe(200);
    }
    ahead = begun + 12 * 60 * MINUTE + 1;
    expect(await status()).toBe(401);

    ahead = begun;
    const other = await comingAs(server, 'owner');
    expect((await get('/api/learned', other)).status).toBe(200);
    await post('/api/access/sign-out', { place: 'office' }, other);
    expect((await get('/api/learned', other)).status).toBe(401);
  });

  it('knows a session on its own device only, and ends it when the PIN becomes another', async () => {
    const owner = await comingAs(server, 'owner');
    const elsewhere = await comingAs(server, 'device');
    const stolen = `${String(elsewhere['cookie'])}; ${String(owner['cookie']).split('; ')[1] ?? ''}`;
    expect((await get('/api/learned', { ...FAR, cookie: stolen })).status).toBe(401);
    expect((await get('/api/learned', owner)).status).toBe(200);
    await server.entry.setPin('maren', '518263');
    expect((await get('/api/learned', owner)).status).toBe(401);
  });

  it('gives a forgotten owner’s PIN a way back from the server’s own computer', async () => {
    const surroundings = {
      now: clock.now(),
      config: 'config',
      wire: 'build/api/wire.json',
      templates: 'config',
      data: data.path,
      workingFolder: process.cwd(),
      stdin: () => new Uint8Array(),
    };
    const { stdout, exit } = await runCli(['code', 'owner', '--json'], surroundings);
    expect(exit).toBe(0);
    const { code } = JSON.parse(stdout) as { code: string };
    expect((await post('/api/access/set-up', { code, person: 'maren', pin: '518263' })).status).toBe(200);
    expect((await post('/api/access/sign-in', { place: 'office', person: 'maren', pin: '518263' })).status).toBe(200);
    expect((await runCli(['code', 'nonsense'], surroundings)).exit).toBe(2);
  });
});

describe('a locked bench', () => {
  let headers: Headers;
  let bench: BenchClient;
  let doors: boolean[];

  beforeAll(async () => {
    await begin();
    await lock(server);
  });
  beforeEach(async () => {
    later();
    headers = await comingAs(server, 'device');
    bench = new BenchClient(server.url, 'bench-1', { extraHeaders: headers });
    doors = [];
    bench.socket.on('door', (open) => doors.push(open));
    await expect.poll(() => doors).toEqual([false]);
  });
  afterEach(() => bench.close());
  afterAll(end);

  it('shows nothing and takes nothing until a badge is scanned at its own scanner, hands free', async () => {
    expect(bench.view).toBeNull();
    // Hands at the simulated scanner of the same bench.
    const station = server.stations.get('bench-1');
    station?.devices.simulators.scanner?.scan('OT-0556');
    station?.devices.simulators.scanner?.scan('STAFF-LUCIA-03');
    await expect.poll(() => doors).toEqual([false, true]);
    const view = await bench.at('idle');
    expect(view.packer?.name).toBe('Lucía');
    expect((await bench.command('next', 'touch')).ok).toBe(true);
    expect((await bench.command('back', 'touch')).ok).toBe(true);
  });

  it('is signed in to by PIN or by a badge at its tablet; a wrong one is no way in', async () => {
    await server.entry.setPin('tobias', '4071');
    const tries = { place: 'bench', bench: 'bench-1' };
    expect((await post('/api/access/sign-in', { ...tries, badge: 'STAFF-NOBODY' }, headers)).status).toBe(403);
    expect((await post('/api/access/sign-in', { ...tries, person: 'tobias', pin: '4072' }, headers)).status).toBe(403);
    const made = { ...tries, person: 'Zq Nobody', pin: '4072' };
    expect((await post('/api/access/sign-in', made, headers)).status).toBe(403);
    expect((await post('/api/access/pair', { code: '0000 0000', name: 'x' }, FAR)).status).toBe(403);
    const kept = await newestChanges(server.store, null);
    expect(
      kept.filter(({ what }) => what === 'signed-in-failed').map(({ about, from, details }) => [about, from, details]),
    ).toMatchObject([
      ['', 'bench', { with: 'pair code' }],
      ['', 'bench', { with: 'pin' }],
      ['tobias', 'bench', { with: 'pin', device: expect.stringMatching(/^\d+$/) as string }],
      ['', 'bench', { with: 'badge' }],
    ]);
    expect(JSON.stringify(kept)).not.toMatch(/Zq|STAFF-|4072|0000/);
    expect((await post('/api/access/sign-in', { ...tries, person: 'tobias', pin: '4071' }, headers)).status).toBe(200);
    await expect.poll(() => doors).toEqual([false, true]);
    await bench.until(({ view }) => view?.packer?.name === 'Tobias', 'Tobias at the bench');
    await post('/api/access/sign-out', { place: 'bench' }, headers);
    await expect.poll(() => doors).toEqual([false, true, false]);
    expect((await post('/api/access/sign-in', { ...tries, badge: 'STAFF-LUCIA-03' }, headers)).status).toBe(200);
    await bench.until(({ view }) => view?.packer?.name === 'Lucía', 'Lucía at the bench');
  });

  it('an owner’s badge alone opens a bench and nothing that is the owner’s', async () => {
    await post('/api/access/sign-in', { place: 'bench', bench: 'bench-1', badge: 'STAFF-MAREN-01' }, headers);
    expect((await get('/api/orders', headers)).status).toBe(200);
    expect((await get('/api/intake-tokens', headers)).body).toMatchObject({ error: 'not-allowed' });
  });

  it('refuses an input when the session is over, and takes the same one, once, after the next badge', async () => {
    const badge = { place: 'bench', bench: 'bench-1', badge: 'STAFF-LUCIA-03' };
    await post('/api/access/sign-in', badge, headers);
    await bench.at('idle');
    ahead += 61 * MINUTE;
    const input = { id: randomUUID(), type: 'command', command: 'next', by: 'touch' } as const;
    expect(await bench.input(input)).toMatchObject({ ok: false, error: 'signed-out' });
    await expect.poll(() => doors, { timeout: 5000 }).toEqual([false, true, false]);
    await post('/api/access/sign-in', badge, headers);
    await expect.poll(() => doors).toEqual([false, true, false, true]);
    const first = await bench.input(input);
    expect(first.ok).toBe(true);
    expect(await bench.input(input)).toEqual(first);
    await bench.at('gather');
  });
});
