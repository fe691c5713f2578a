import { randomUUID } from 'node:crypto';
import { chmodSync, existsSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import SqliteDatabase from 'better-sqlite3';
import { strFromU8, unzipSync } from 'fflate';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { PhotoDue } from '#shared/proof/types.ts';
import type { NewIntakeToken } from '#shared/wire/intake.ts';
import { BenchClient } from '#tests/support/bench-client.ts';
import { copyOfConfig, edit, removeConfigFolders } from '#tests/support/config-folder.ts';
import { LabelReceiver } from '#tests/support/label-receiver.ts';
import { startProcess, temporaryFolder, type ServerProcess } from '#tests/support/server-process.ts';
import { smallJpeg } from '#tests/support/small-jpeg.ts';
import { toLabel } from '#tests/support/to-label.ts';

// A real server that tells everything it can is led through good and bad; then what it told is looked through for what was planted.

const PLANTED = {
  buyer: 'Zqbuyer Zqson',
  street: '77 Zqlane',
  town: 'Zqtown',
  mail: 'zq.buyer@example.org',
  postcode: '55802-9173',
  note: 'Zqnote for the neighbour',
  tracking: 'ZQTRACK8801726',
  secret: 'zqsecret-thimble-and-thread',
  pin: '730164',
  wrongPin: '918265',
  badge: 'STAFF-MAREN-01',
};
const marks = new Map(Object.entries(PLANTED));
const data = temporaryFolder('planted');
const temporary = temporaryFolder('planted-tmp');
const receiver = new LabelReceiver(PLANTED.secret);
let server: ServerProcess;
let bench: BenchClient;

const post = async (path: string, body: string | object, headers: Readonly<Record<string, string>> = {}) => {
  const text = typeof body === 'string' ? body : JSON.stringify(body);
  const kind = { 'content-type': 'application/json', ...headers };
  const answer = await fetch(`${server.url}/api${path}`, { method: 'POST', headers: kind, body: text });
  return { status: answer.status, body: await answer.json() };
};

const order = {
  order: 'P-1',
  skus: ['P-SKU'],
  buyer: PLANTED.buyer,
  street: PLANTED.street,
  city: PLANTED.town,
  region: 'MN',
  postcode: PLANTED.postcode,
  country: 'US',
  shipBy: '2026-01-02',
  note: `${PLANTED.note} ${PLANTED.mail}`,
};

beforeAll(async () => {
  await receiver.start();
  const config = copyOfConfig();
  writeFileSync(join(config, 'secret.txt'), PLANTED.secret);
  chmodSync(join(config, 'secret.txt'), 0o600);
  edit(config, 'shop.yaml', /^# proof: .*$/m, 'proof: { photos: always }');
  edit(
    config,
    'shop.yaml',
    /$/,
    `\nlabels:\n  url: ${receiver.url}\n  secret: { file: secret.txt }\n  firstRetrySeconds: 0.1\n  longestRetrySeconds: 0.2\n`,
  );
  mkdirSync(temporary.path, { recursive: true });
  server = await startProcess({ data: data.path, config, environment: { TMPDIR: temporary.path } });
  expect((await post('/log-level', { level: 'trace' })).status).toBe(200);
  bench = new BenchClient(server.url, 'bench-1');
  await bench.at('idle');
}, 60_000);
afterAll(async () => {
  bench.close();
  await server.stop();
  await receiver.stop();
  data.remove();
  temporary.remove();
  removeConfigFolders();
});

describe('a day of good and bad', () => {
  it('orders come in, and are refused, in every way', async () => {
    const made = (await post('/intake-tokens', { name: 'another system', may: ['pieces', 'orders'] }))
      .body as NewIntakeToken;
    marks.set('token', made.token);
    const authorization = `Bearer ${made.token}`;
    const sent = (path: string, body: string | object) => post(path, body, { authorization });
    expect((await sent('/intake/pieces', [{ sku: 'P-SKU', kind: 't-shirt', size: 'M' }])).status).toBe(200);
    expect((await sent('/intake/orders', [order])).status).toBe(200);
    expect((await sent('/intake/orders', [{ ...order, order: 'P-2', skus: [PLANTED.buyer] }])).status).toBe(422);
    expect((await sent('/intake/orders', JSON.stringify([order]).slice(0, -9))).status).toBe(400);
    expect((await post('/intake/orders', [order], { authorization: `${authorization}x` })).status).toBe(401);
    const csv = `order,sku,buyer,street,postcode,ship by\nP-3,none,${PLANTED.buyer},${PLANTED.street},${PLANTED.postcode},someday\n`;
    const file = { 'content-type': 'text/csv', 'x-file-name': encodeURIComponent(`${PLANTED.buyer}.csv`) };
    await post('/imports/orders/preview', csv, file);
    await post('/imports/orders/preview', `${PLANTED.buyer}\0${PLANTED.street}`, file);
    await post('/labels/numbers', `key,tracking\nnone,${PLANTED.tracking}\n`, file);
    mkdirSync(join(data.path, 'incoming'), { recursive: true });
    writeFileSync(join(data.path, 'incoming', 'orders.csv'), csv);
    await fetch(`${server.url}/api/search?text=${encodeURIComponent(PLANTED.buyer)}`);
    await fetch(`${server.url}/api/privacy/buyer?name=${encodeURIComponent(PLANTED.street)}`);
    await fetch(`${server.url}/api/${encodeURIComponent(PLANTED.buyer)}`);
    await post('/settings/text', { file: 'shop.yaml', text: PLANTED.buyer, digest: PLANTED.mail, by: PLANTED.buyer });
  });

  it('the order is packed: badge, bad scans, a store that fails, a receiver that refuses and repeats the address, a photo', async () => {
    const due: PhotoDue[] = [];
    bench.socket.on('view', ({ photo }) => {
      if (photo !== undefined) due.push(photo);
    });
    await bench.simulate({ do: 'scan', text: PLANTED.badge });
    await bench.until(({ view }) => view?.packer?.name === 'Maren', 'who packs');
    for (const text of [PLANTED.buyer, `]C1420${PLANTED.postcode}`, `BFO-${PLANTED.tracking}`, `\x1b${PLANTED.note}`]) {
      await bench.simulate({ do: 'scan', text });
      await bench.input({ id: randomUUID(), type: 'scan', text, by: 'scan' });
    }
    await bench.input({ id: randomUUID(), type: PLANTED.buyer, text: PLANTED.mail } as never);

    const store = new SqliteDatabase(join(data.path, 'benchfold.db'));
    store.exec(`create trigger refuse before update on bench_state begin select raise(abort, 'the disk is full'); end`);
    expect(await bench.command('next')).toMatchObject({ ok: false });
    await bench.input({ id: randomUUID(), type: 'scan', text: 'BFO-P-1', by: 'scan' });
    store.exec('drop trigger refuse');
    store.close();

    const repeated = JSON.stringify({ message: `cannot deliver to ${PLANTED.buyer}, ${PLANTED.street}` });
    receiver.next.push(
      { do: 'status', status: 503, body: repeated },
      { do: 'junk', body: `${repeated}{` },
      { do: 'drop' },
      { do: 'redirect', to: `http://127.0.0.1:9/${encodeURIComponent(PLANTED.buyer)}` },
    );
    receiver.sell = () => ({ trackingNumber: PLANTED.tracking });
    await toLabel(bench);
    expect(bench.view?.order?.id).toBe('P-1');
    await expect.poll(() => receiver.deliveries.length).toBeGreaterThanOrEqual(4);
    await expect
      .poll(async () => JSON.stringify(await (await fetch(`${server.url}/api/labels`)).json()))
      .toContain('"redirect"');
    const request = receiver.deliveries[0];
    await post('/labels/send-again', { key: request?.key ?? '' });
    await expect.poll(() => receiver.sold.size).toBe(1);
    await bench.simulate({ do: 'scan', text: PLANTED.tracking });
    await bench.at('done');
    const photo = { ...due[0]!, ago: 0 };
    const send = (jpeg: Buffer) =>
      new Promise((done) => bench.socket.emit('photo', { ...photo, id: randomUUID(), jpeg }, done));
    await send(Buffer.from(smallJpeg(32, 12)));
    await send(Buffer.from(`no picture: ${PLANTED.buyer}`));
    await expect.poll(() => existsSync(join(data.path, 'incoming', 'refused'))).toBe(true);
    await fetch(`${server.url}/api/backups`, { method: 'POST' });
  });

  it('the owner locks the shop with a PIN, and somebody tries another', async () => {
    expect((await post('/access/set-up', { person: 'maren', pin: PLANTED.pin })).status).toBe(200);
    await post('/access/sign-in', { place: 'office', person: 'maren', pin: PLANTED.wrongPin });
    await post('/access/sign-in', { place: 'office', person: PLANTED.buyer, pin: PLANTED.pin });
  });
});

/** What of the planted stands in a text, in any case or coding that it could have come to. */
const found = (text: string): readonly string[] =>
  [...marks].flatMap(([what, mark]) => {
    const forms = [mark, encodeURIComponent(mark), Buffer.from(mark).toString('base64').slice(0, -4)];
    return forms.some((form) => text.toLowerCase().includes(form.toLowerCase())) ? [what] : [];
  });

describe('what it told', () => {
  it('the log, at the level where everything is told, and the console: nothing of what was planted', async () => {
    const log = readFileSync(join(data.path, 'server.log'), 'utf8');
    // It did tell of what went wrong.
    expect(log).toContain('an input could not be stored');
    expect(log).toContain('what was sent was refused');
    expect(log).toContain('a label request was given up');
    expect(found(log)).toEqual([]);
    expect(server.output()).toContain('Office');
    expect(found(server.output())).toEqual([]);
    for (const path of ['/metrics', '/healthz'])
      expect(found(await (await fetch(server.url + path)).text())).toEqual([]);
  });

  it('the file for a helper far away, names of files, and what was left in the temporary folder: neither', async () => {
    const signed = await fetch(`${server.url}/api/access/sign-in`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ place: 'office', person: 'maren', pin: PLANTED.pin }),
    });
    const cookie = signed.headers
      .getSetCookie()
      .map((each) => each.split(';')[0])
      .join('; ');
    const answer = await fetch(`${server.url}/api/diagnostics.zip`, { headers: { cookie } });
    expect(answer.status).toBe(200);
    const files = Object.entries(unzipSync(new Uint8Array(await answer.arrayBuffer())));
    expect(files.length).toBeGreaterThan(5);
    for (const [name, bytes] of files) expect({ name, found: found(strFromU8(bytes)) }).toEqual({ name, found: [] });
    const names = [data.path, temporary.path].flatMap((folder) => readdirSync(folder, { recursive: true }).map(String));
    expect(found(names.join('\n'))).toEqual([]);
    for (const name of readdirSync(temporary.path, { recursive: true }).map(String)) {
      const path = join(temporary.path, name);
      if (statSync(path).isFile())
        expect({ name, found: found(readFileSync(path, 'latin1')) }).toEqual({ name, found: [] });
    }
  });

  it('the search for it would find it: the store holds it', () => {
    const held = found(
      readFileSync(join(data.path, 'benchfold.db'), 'latin1') +
        readFileSync(join(data.path, 'benchfold.db-wal'), 'latin1'),
    );
    expect(held).toEqual(expect.arrayContaining(['buyer', 'street', 'town', 'tracking', 'note', 'mail']));
    expect(held).not.toContain('pin');
    expect(held).not.toContain('token');
    expect(held).not.toContain('secret');
  });
});
