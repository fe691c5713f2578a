import { appendFileSync, mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { strFromU8, unzipSync } from 'fflate';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { saveOrder } from '#server/store/orders.ts';
import type { ChangesView } from '#shared/wire/audit.ts';
import type { HealthView } from '#shared/wire/inside.ts';
import { BenchClient } from '#tests/support/bench-client.ts';
import { copyOfConfig, edit, removeConfigFolders } from '#tests/support/config-folder.ts';
import { familyOf, parseExposition } from '#tests/support/exposition.ts';
import { serverOn } from '#tests/support/in-process-server.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';

/** Nothing of these may be in anything that leaves the shop, nor in a figure. */
const MARKS = {
  shop: 'Zqshopname',
  street: 'Zqstreet 7',
  person: 'Zqperson',
  badge: 'ZQBADGE99',
  bench: 'Zqbenchname',
  buyer: 'Zqbuyer Zqson',
  town: 'Zqtown',
  postcode: '98765',
  phone: '+49 151 23456789',
  email: 'zq@example.com',
  token: 'zqtoken-abcdef',
  pin: '739152',
  note: 'Zqnote',
  sku: 'ZQ-SKU-1',
};

let data: ReturnType<typeof temporaryFolder>;
let server: Awaited<ReturnType<typeof serverOn>>;
let bench: BenchClient;

beforeAll(async () => {
  data = temporaryFolder('inside');
  mkdirSync(data.path, { recursive: true });
  const config = copyOfConfig();
  edit(config, 'shop.yaml', 'name: Oddment & Thrum', `name: ${MARKS.shop}`);
  edit(config, 'shop.yaml', '  - 118 Lanternway Slip', `  - ${MARKS.street}\n  - ${MARKS.phone}\n  - ${MARKS.email}`);
  edit(config, 'staff.yaml', /name: [^,}]*/, `name: ${MARKS.person}`);
  edit(config, 'staff.yaml', /badge: [^,}]*/, `badge: ${MARKS.badge}`);
  edit(config, 'devices.yaml', /name: Bench 1/, `name: ${MARKS.bench}`);
  edit(
    config,
    'shop.yaml',
    /^# labels:$\n.*\n.*$/m,
    `labels:\n  url: https://${MARKS.token}.example/\n  secret: { variable: ZQ_SECRET }`,
  );
  const line = {
    level: 50,
    time: 1,
    buyer: MARKS.buyer,
    error: {
      type: 'Error',
      message: MARKS.buyer,
      stack: `Error: ${MARKS.buyer} ${MARKS.phone}\n    at pack (/home/${MARKS.person}/pack.ts:4:9)`,
    },
    msg: 'an input could not be stored',
  };
  appendFileSync(
    join(data.path, 'server.log'),
    `${JSON.stringify(line)}\n${JSON.stringify({ ...line, msg: `expected "${MARKS.buyer}"` })}\n`,
  );
  server = await serverOn(config, data.path);
  await saveOrder(
    server.store,
    {
      id: 'ZQ-1',
      pieces: [{ sku: MARKS.sku, count: 1 }],
      buyer: MARKS.buyer,
      address: [MARKS.street, MARKS.town, MARKS.phone, MARKS.email],
      to: { postcode: MARKS.postcode, country: 'US' },
      shipBy: '2026-11-26T22:30:00.000Z',
      note: `${MARKS.note} ${MARKS.pin}`,
    },
    1,
  );
  bench = new BenchClient(server.url, 'bench-1');
  await bench.at('idle');
  await bench.simulate({ do: 'scan', text: `${MARKS.badge} ${MARKS.buyer}` });
  await bench.command('next');
  await bench.at('gather');
  await bench.command('confirm');
}, 40_000);
afterAll(async () => {
  bench.close();
  await server.stop();
  data.remove();
  removeConfigFolders();
});

const marksIn = (text: string) => Object.entries(MARKS).flatMap(([what, mark]) => (text.includes(mark) ? [what] : []));

describe('the figures', () => {
  it('are in the text format, of bounded kinds, and tell what was done', async () => {
    const answer = await fetch(`${server.url}/metrics`);
    expect(answer.headers.get('content-type')).toContain('text/plain; version=0.0.4');
    const text = await answer.text();
    const { types, samples } = parseExposition(text);
    for (const { name } of samples) expect(types.has(familyOf(name, types)), name).toBe(true);
    const value = (name: string, labels: Readonly<Record<string, string>>) =>
      samples.find((each) => each.name === name && Object.entries(labels).every(([key, is]) => each.labels[key] === is))
        ?.value;
    expect(
      value('benchfold_inputs_total', { bench: 'bench-1', kind: 'command', outcome: 'taken' }),
    ).toBeGreaterThanOrEqual(1);
    expect(value('benchfold_runs', { bench: 'bench-1', step: 'gather' })).toBe(1);
    expect(value('benchfold_runs', { bench: 'bench-2', step: 'idle' })).toBe(1);
    expect(value('benchfold_orders', { state: 'packing' })).toBe(1);
    expect(value('benchfold_sockets', { namespace: 'bench' })).toBe(1);
    expect(value('benchfold_device_frames', { bench: 'bench-1', device: 'scale', outcome: 'good' })).toBeGreaterThan(0);
    // The label printer counts like the others.
    expect(value('benchfold_device_state', { bench: 'bench-1', device: 'label-printer', state: 'working' })).toBe(1);
    expect(value('benchfold_device_connections', { bench: 'bench-1', device: 'label-printer' })).toBe(1);
    expect(value('benchfold_device_frames', { bench: 'bench-1', device: 'label-printer', outcome: 'discarded' })).toBe(
      0,
    );
    expect(value('benchfold_device_state', { bench: 'bench-2', device: 'label-printer' })).toBeUndefined();
    expect(value('benchfold_recogniser_state', {})).toBe(1);
    expect(value('benchfold_store_commit_seconds_count', {})).toBeGreaterThan(0);
    const buckets = samples
      .filter(({ name }) => name === 'benchfold_store_commit_seconds_bucket')
      .map((each) => each.value);
    expect(buckets).toEqual([...buckets].sort((one, other) => one - other));
    expect(buckets.at(-1)).toBe(value('benchfold_store_commit_seconds_count', {}));
    expect(types.has('nodejs_eventloop_lag_p99_seconds')).toBe(true);
    expect(marksIn(text)).toEqual([]);
    expect(samples.filter(({ name }) => name.startsWith('benchfold_')).length).toBeLessThan(200);
  });
});

it('health names each part and why it is not well, and stays ready', async () => {
  await bench.simulate({ do: 'unplug', device: 'scale' });
  await bench.until(
    ({ devices }) => devices.some(({ device, state }) => device === 'scale' && state === 'lost'),
    'a lost scale',
  );
  const answer = await fetch(`${server.url}/healthz`);
  expect(answer.status).toBe(200);
  const { ok, parts } = (await answer.json()) as HealthView;
  expect(ok).toBe(true);
  expect(parts.find(({ part }) => part === 'devices')).toEqual({
    part: 'devices',
    state: 'degraded',
    reasons: ['scale-away'],
  });
  expect(parts.find(({ part }) => part === 'store')).toEqual({ part: 'store', state: 'ok', reasons: [] });
  await bench.simulate({ do: 'plug', device: 'scale' });
  const reasons = async () => {
    const looked = (await (await fetch(`${server.url}/healthz`)).json()) as HealthView;
    return looked.parts.find(({ part }) => part === 'devices')?.reasons;
  };
  await expect.poll(reasons).toEqual([]);
  const simulator = server.stations.get('bench-1')?.labels.simulator;
  await simulator?.unplug();
  await expect.poll(reasons).toEqual(['label-printer-away']);
  const figures = await (await fetch(`${server.url}/metrics`)).text();
  expect(figures).toContain('benchfold_device_state{bench="bench-1",device="label-printer",state="lost"} 1');
  await simulator?.plug();
  await expect.poll(reasons).toEqual([]);
});

it('how much goes into the log is changed at once, and kept as a change', async () => {
  const level = async (body?: object) => {
    const request =
      body === undefined
        ? {}
        : { method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) };
    const answer = await fetch(`${server.url}/api/log-level`, request);
    return answer.ok ? ((await answer.json()) as { level: string }).level : answer.status;
  };
  expect(await level({ level: 'debug' })).toBe('debug');
  expect(await level()).toBe('debug');
  expect(await level({ level: 'everything' })).toBe(400);
  const { rows } = (await (await fetch(`${server.url}/api/changes`)).json()) as ChangesView;
  expect(rows[0]).toMatchObject({ what: 'log-level', about: 'debug' });
});

it('the file for a helper far away holds no name, address, number, token or text of the shop', async () => {
  const answer = await fetch(`${server.url}/api/diagnostics.zip`);
  expect(answer.headers.get('content-type')).toBe('application/zip');
  const files = Object.entries(unzipSync(new Uint8Array(await answer.arrayBuffer()))).map(
    ([name, bytes]) => [name, strFromU8(bytes)] as const,
  );
  expect(files.map(([name]) => name).sort()).toEqual(
    [
      'about.json',
      'about.txt',
      'config.json',
      'devices.json',
      'health.json',
      'log.jsonl',
      'metrics.txt',
      'store.json',
    ].sort(),
  );
  for (const [name, text] of files) {
    expect({ name, marks: marksIn(text) }).toEqual({ name, marks: [] });
    // Nothing that looks like an address of mail, of the web or of the network either.
    expect(text).not.toMatch(/[\w.]+@[\w.]+|https?:|\b\d{1,3}\.\d{1,3}\.\d{1,3}\.\d{1,3}\b/);
  }
  const told = Object.fromEntries(files);
  expect(told['log.jsonl']).toContain('an input could not be stored');
  expect(told['log.jsonl']).toContain('pack.ts:4:9');
  expect(JSON.parse(told['store.json'] ?? '')).toMatchObject({ tables: { shop_order: expect.any(Number) as number } });
  parseExposition(told['metrics.txt'] ?? '');
});
