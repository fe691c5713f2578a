import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { newestChanges } from '#server/store/changes.ts';
import type { AccessRefused, AccessView } from '#shared/wire/access.ts';
import { BenchClient } from '#tests/support/bench-client.ts';
import { CONFIG } from '#tests/support/config-folder.ts';
import { comingAs, lock, OWNER_PIN } from '#tests/support/coming-as.ts';
import { serverOn } from '#tests/support/in-process-server.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';

// What somebody finds out by trying: a stranger on the shop's network, and whoever packs there and has a badge of their own.

const MINUTE = 60_000;
const DAY = 24 * 60 * MINUTE;
const data = temporaryFolder('guessing');
let server: Awaited<ReturnType<typeof serverOn>>;
let ahead = 0;

beforeAll(async () => {
  server = await serverOn(CONFIG, data.path, { now: () => Date.now() + ahead });
});
beforeEach(() => {
  // Nothing of the test before counts any more, and nobody is signed in.
  ahead += 30 * DAY;
});
afterAll(async () => {
  await server.stop();
  data.remove();
});

type Headers = Readonly<Record<string, string>>;
const post = async (path: string, body: unknown, headers: Headers = {}) => {
  const answer = await fetch(`${server.url}${path}`, {
    method: 'POST',
    headers: { 'content-type': 'application/json', ...headers },
    body: JSON.stringify(body),
  });
  return { status: answer.status, body: (await answer.json()) as AccessRefused };
};
const statusOf = async (path: string, headers: Headers) => (await fetch(`${server.url}${path}`, { headers })).status;

it('a program that passes others on makes them nobody, whatever it calls them', async () => {
  for (const header of ['x-forwarded-for', 'x-forwarded-proto', 'x-real-ip', 'forwarded', 'via', 'x-original-url']) {
    expect(await statusOf('/api/orders', { [header]: '10.0.0.9' }), header).toBe(401);
  }
  expect(await statusOf('/api/orders', {})).toBe(200);
});

describe('who works here', () => {
  it('is not told by how the first PIN is refused, unless the code is right; that is then not used up', async () => {
    await lock(server);
    const far = { 'x-forwarded-for': '10.0.0.9' };
    const answers = new Set<string>();
    for (const [person, pin] of [
      ['maren', '12'],
      ['lucia', '518263'],
      ['nobody-of-that-name', '518263'],
      ['maren', '518263'],
    ] as const) {
      const { status, body } = await post('/api/access/set-up', { person, pin, code: '0000 0000' }, far);
      answers.add(`${String(status)} ${JSON.stringify(body)}`);
    }
    expect([...answers]).toEqual([expect.stringMatching(/^403 .*"wrong"/)]);
    ahead += DAY;
    const { code } = await server.entry.makeCode('set-up');
    expect((await post('/api/access/set-up', { person: 'maren', pin: '12', code }, far)).body.error).toBe('too-short');
    expect((await post('/api/access/set-up', { person: 'maren', pin: OWNER_PIN, code }, far)).status).toBe(200);
    expect((await post('/api/access/set-up', { person: 'maren', pin: OWNER_PIN, code }, far)).status).toBe(403);
  });
});

describe('a clock that is set back', () => {
  it('keeps nobody out for longer than the wait', async () => {
    const device = await comingAs(server, 'device');
    const right = { place: 'office', person: 'maren', pin: OWNER_PIN };
    for (let wrong = 0; wrong < 5; wrong++) await post('/api/access/sign-in', { ...right, pin: '000000' }, device);
    ahead -= 10 * DAY;
    const early = await post('/api/access/sign-in', right, device);
    expect(early.status).toBe(429);
    expect(early.body.seconds).toBeLessThanOrEqual(30);
    ahead += MINUTE;
    expect((await post('/api/access/sign-in', right, device)).status).toBe(200);
  });

  it('keeps nobody in for longer than a session, and no code good for longer than a code', async () => {
    const owner = await comingAs(server, 'owner');
    const { code } = await server.entry.makeCode('pair');
    ahead -= 10 * DAY;
    expect((await server.entry.useCode('pair', code, { address: '10.0.0.77' })).ok).toBe(false);
    expect(await statusOf('/api/learned', owner)).toBe(200);
    ahead += 31 * MINUTE;
    expect(await statusOf('/api/learned', owner)).toBe(401);
    ahead += 11 * DAY;
  });
});

describe('somebody with a badge of their own', () => {
  const at = { place: 'bench', bench: 'bench-1' };
  const own = { ...at, badge: 'STAFF-LUCIA-03' };

  it('guesses those of others no oftener for using it in between, and is let in by PIN meanwhile', async () => {
    const tablet = await comingAs(server, 'device');
    await server.entry.setPin('lucia', '4071');
    const answers: number[] = [];
    for (let guess = 0; guess < 24; guess++) {
      if (guess % 3 === 0) await post('/api/access/sign-in', own, tablet);
      answers.push(
        (await post('/api/access/sign-in', { ...at, badge: `STAFF-TOBIAS-${String(guess)}` }, tablet)).status,
      );
    }
    expect(answers.filter((status) => status === 403)).toHaveLength(20);
    expect(answers.slice(20)).toEqual([429, 429, 429, 429]);
    expect((await post('/api/access/sign-in', { ...at, person: 'lucia', pin: '4071' }, tablet)).status).toBe(200);
    ahead += 15 * MINUTE;
    expect((await post('/api/access/sign-in', own, tablet)).status).toBe(200);
    expect((await post('/api/access/sign-in', { ...at, badge: 'STAFF-TOBIAS-9' }, tablet)).status).toBe(403);
    expect((await post('/api/access/sign-in', { ...at, badge: 'STAFF-TOBIAS-8' }, tablet)).status).toBe(429);
  });

  it('is offered no other by the simulated devices, and finds none by scans or by what a camera may ask', async () => {
    const tablet = await comingAs(server, 'device');
    await post('/api/access/sign-in', own, tablet);
    const bench = new BenchClient(server.url, 'bench-1', { extraHeaders: tablet });
    await bench.until(({ view }) => view?.packer?.name === 'Lucía', 'Lucía at the bench');
    const offers = await bench.until(({ offers }) => offers, 'what the tray offers');
    expect(offers.codes.map(({ text }) => text).filter((text) => text.startsWith('STAFF-'))).toEqual([own.badge]);

    const scan = (text: string) => bench.input({ id: randomUUID(), type: 'scan', text, by: 'key' });
    const knows = (text: string) =>
      new Promise<unknown>((answer) => bench.socket.emit('code', text, (told) => answer(told)));
    const standing = async () =>
      ((await (await fetch(`${server.url}/api/access`, { headers: tablet })).json()) as AccessView).standing;
    // A piece that a shop's tag names is no guess, and the same strange text is one.
    for (let each = 0; each < 70; each++) await knows('STAFF-ZACK-00');
    expect(await knows('STAFF-TOBIAS-02')).toEqual({ ok: true, known: true });
    await scan('STAFF-TOBIAS-02');
    await expect.poll(standing).toBe('supervisor');
    await scan(own.badge);
    await expect.poll(standing).toBe('packer');
    for (let guess = 1; guess < 60; guess++) await (guess % 2 === 0 ? scan : knows)(`STAFF-ZACK-${String(guess)}`);
    expect(await knows('STAFF-TOBIAS-02')).toEqual({ ok: true, known: false });
    // Scanned or looked up, it is no other than a wrong one: it neither signs in nor says who packs from now on.
    await scan('STAFF-ZACK-99');
    const wrong = await bench.until(({ view }) => view?.lastScan?.text === 'STAFF-ZACK-99' && view, 'the wrong one');
    await scan('STAFF-TOBIAS-02');
    const right = await bench.until(({ view }) => view?.lastScan?.text === 'STAFF-TOBIAS-02' && view, 'the right one');
    expect(await standing()).toBe('packer');
    expect([right.packer?.name, right.lastScan?.meaning]).toEqual(['Lucía', wrong.lastScan?.meaning]);
    expect(right.notice?.code).toBe(wrong.notice?.code);
    const [told] = await newestChanges(server.store, null);
    expect(told).toMatchObject({ what: 'locked-out', from: 'bench', details: { with: 'badge', bench: 'bench-1' } });
    bench.close();
  });
});
