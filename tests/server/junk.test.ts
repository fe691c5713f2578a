import { randomUUID } from 'node:crypto';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import SqliteDatabase from 'better-sqlite3';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { BenchClient } from '#tests/support/bench-client.ts';
import { startProcess, temporaryFolder, type ServerProcess } from '#tests/support/server-process.ts';
import { commandCode } from '#shared/codes/our-codes.ts';
import type { Ack } from '#shared/wire/events.ts';

const data = temporaryFolder('junk');
let server: ServerProcess;
let bench: BenchClient;

beforeAll(async () => {
  server = await startProcess({ data: data.path });
  bench = new BenchClient(server.url, 'bench-1');
  await bench.at('idle');
});

afterAll(async () => {
  bench.close();
  await server.stop();
  data.remove();
});

/** The socket without its types, as a broken or hostile page would use it. */
const raw = () => bench.socket as unknown as { emit(event: string, ...values: readonly unknown[]): void };
const send = (event: string, value: unknown) => new Promise<Ack>((done) => raw().emit(event, value, done));

describe('junk over the socket', () => {
  it.each<{ readonly junk: unknown }>([
    { junk: null },
    { junk: 5 },
    { junk: 'next' },
    { junk: [] },
    { junk: {} },
    { junk: { id: 'short', type: 'command', command: 'next', by: 'touch' } },
    { junk: { id: 'long-enough-1', type: 'command', command: 'constructor', by: 'touch' } },
    { junk: { id: 'long-enough-1', type: 'command', command: 'next', by: 'touch', extra: 1 } },
    { junk: { id: 'long-enough-1', type: 'scan', text: 'x'.repeat(501), by: 'scan' } },
    { junk: { id: 'long-enough-1', type: 'language', language: 'xx' } },
  ])('$junk is refused as a bad request and moves nothing', async ({ junk }) => {
    const seq = bench.view?.seq;
    expect(await send('input', junk)).toMatchObject({ ok: false, error: 'bad-request' });
    expect(await send('simulate', junk)).toMatchObject({ ok: false, error: 'bad-request' });
    expect(bench.view?.seq).toBe(seq);
  });

  it('without an acknowledgement, of an unknown name, or too large: the server goes on', async () => {
    raw().emit('input');
    raw().emit('input', { id: 1 });
    raw().emit('simulate', { do: 'put-expected' });
    raw().emit('nothing', 1, 2, 3);
    raw().emit('input', { id: 'long-enough-2', type: 'scan', text: 'x'.repeat(2_000_000), by: 'scan' });
    await bench.until(({ socket }) => !socket.connected, 'the link cut for a message that is too large');
    bench.socket.connect();
    await bench.until(({ socket }) => socket.connected, 'the link back');
    expect(await bench.command('repeat')).toMatchObject({ ok: true });
  });

  it('a flood is answered to the last, and the view shows the last', async () => {
    const acks = await Promise.all(Array.from({ length: 150 }, () => bench.command('repeat')));
    expect(acks.every((ack) => ack.ok)).toBe(true);
    const last = Math.max(...acks.map((ack) => (ack.ok ? ack.seq : 0)));
    await bench.until(({ view }) => view?.seq === last, 'the view of the last input');
  });
});

describe('junk over HTTP', () => {
  const post = (path: string, body: string | Uint8Array<ArrayBuffer>, headers: Readonly<Record<string, string>> = {}) =>
    fetch(`${server.url}${path}`, { method: 'POST', body, headers });

  it('a file name that is not percent-encoded is taken as it is, whatever the content type', async () => {
    const table = 'sku,title,kind\nOT-1,Scarf,scarf\n';
    for (const name of ['100%.csv', '%E0%A4%A']) {
      const answer = await post('/api/imports/pieces/preview', table, {
        'content-type': 'image/png',
        'x-file-name': name,
      });
      expect(answer.status).toBe(200);
    }
  });

  it('a file that is too large is refused with how much may come', async () => {
    const answer = await post('/api/imports/pieces/preview', new Uint8Array(70_000_000));
    expect(answer.status).toBe(413);
    expect(await answer.json()).toMatchObject({ error: 'too-large', message: 'This file is larger than 64 MB.' });
  });

  it('a body that cannot be read is refused in words that say why, a little that becomes much when unpacked as well', async () => {
    const json = { 'content-type': 'application/json' };
    const packed = (bytes: Uint8Array) => Uint8Array.from(gzipSync(bytes));
    const told = async (body: string | Uint8Array<ArrayBuffer>, headers: Readonly<Record<string, string>>) => {
      const answer = await post('/api/log-level', body, headers);
      return [answer.status, ((await answer.json()) as { readonly message: string }).message];
    };
    const bomb = packed(new Uint8Array(20 * 2 ** 20).fill(32));
    expect(bomb.length).toBeLessThan(30_000);
    const gzip = { ...json, 'content-encoding': 'gzip' };
    expect(await told(bomb, gzip)).toEqual([413, 'What was sent is larger than 100 kB.']);
    expect(await told('{}', gzip)).toEqual([
      400,
      expect.stringMatching(/^The body: expected what Content-Encoding says/),
    ]);
    expect(await told(packed(Buffer.from('{"level":"info"}')).subarray(0, 20), gzip)).toEqual([
      400,
      expect.stringMatching(/^The body: expected what Content-Encoding says/),
    ]);
    expect(await told('{"level":', json)).toEqual([400, expect.stringMatching(/^The body: expected JSON/)]);
    expect(await told('{"level":"info"}', { 'content-type': 'text/plain' })).toEqual([
      400,
      'Expected a body of JSON, with "Content-Type: application/json"; there was none.',
    ]);
    expect((await post('/api/log-level', packed(Buffer.from('{"level":"info"}')), gzip)).status).toBe(200);
    const table = await post('/api/imports/orders/preview', bomb, { 'content-encoding': 'gzip' });
    expect([table.status, await table.text()]).toEqual([422, expect.stringContaining('gzip archive')]);
  });

  it('no path leads out of the pages', async () => {
    const secret = /benchfold|root:/;
    for (const path of [
      '/..%2f..%2fpackage.json',
      '/assets/..%2f..%2f..%2fpackage.json',
      '/..%5c..%5cpackage.json',
      '/%00',
    ]) {
      const answer = await fetch(`${server.url}${path}`);
      expect([path, answer.status]).toEqual([path, 404]);
      expect(await answer.text()).not.toMatch(secret.test(path) ? /"scripts"/ : secret);
    }
  });
});

it('what the store refuses is not acknowledged, moves nothing, and is told to the packer, also when a scanner sent it', async () => {
  // Another program that holds the store for writing refuses every write, as a full or read-only disk does.
  const other = new SqliteDatabase(join(data.path, 'benchfold.db'));
  other.exec('BEGIN IMMEDIATE');
  const seq = bench.view?.seq;
  expect(await bench.command('next')).toMatchObject({ ok: false, error: 'store-failed' });
  await bench.simulate({ do: 'scan', text: commandCode('next') });
  const view = await bench.until(({ view: now }) => now?.notice?.code === 'not-stored' && now, 'the packer is told');
  expect(view).toMatchObject({ seq, task: { at: 'idle' }, notice: { tone: 'stop' } });
  other.exec('ROLLBACK');
  other.close();
  expect(await bench.command('next')).toMatchObject({ ok: true });
  // A scan of the simulator that a broken link had delivered twice may have been taken by now, too: then the order is further on.
  const after = await bench.until(({ view: now }) => now?.task.at !== 'idle' && now, 'the order');
  expect(after).toMatchObject({ order: { id: expect.any(String) as string } });
  expect(after.notice?.code).not.toBe('not-stored');
});

it('the tray speaks the language of the bench', async () => {
  const there = new BenchClient(server.url, 'bench-2');
  const labels = () => there.offers?.codes.map((code) => code.label) ?? [];
  await there.until(() => labels().some((label) => /^order \d+$/.test(label)), 'orders in English');
  await there.input({ id: randomUUID(), type: 'language', language: 'es' });
  await there.until(() => labels().some((label) => /^pedido \d+$/.test(label)), 'orders in Spanish');
  await there.command('next');
  await there.at('gather');
  await there.until(() => labels().includes('una prenda de otro pedido'), 'a foreign piece in Spanish');
  there.close();
});
