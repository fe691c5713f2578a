import { chmodSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { LabelsView } from '#shared/wire/label.ts';
import { BenchClient } from '#tests/support/bench-client.ts';
import { copyOfConfig, edit, removeConfigFolders } from '#tests/support/config-folder.ts';
import { LabelReceiver } from '#tests/support/label-receiver.ts';
import { startProcess, temporaryFolder, type ServerProcess } from '#tests/support/server-process.ts';

const SECRET = 'thimble-and-thread-42';
const data = temporaryFolder('label-kill');
const receiver = new LabelReceiver(SECRET);
let server: ServerProcess;
let bench: BenchClient;
let config: string;

beforeAll(async () => {
  await receiver.start();
  config = copyOfConfig();
  writeFileSync(join(config, 'secret.txt'), SECRET);
  chmodSync(join(config, 'secret.txt'), 0o600);
  const settings = `labels: { url: '${receiver.url}', secret: { file: secret.txt }, timeoutSeconds: 3, firstRetrySeconds: 0.2, patienceSeconds: 0.3 }`;
  edit(config, 'shop.yaml', /$/, `\n${settings}\n`);
  server = await startProcess({ data: data.path, config });
  bench = new BenchClient(server.url, 'bench-1');
});

afterAll(async () => {
  bench.close();
  await server.stop();
  await receiver.stop();
  data.remove();
  removeConfigFolders();
});

const view = async () => (await (await fetch(`${server.url}/api/labels`)).json()) as LabelsView;

/** Packs on until the label is due. */
async function toLabel(): Promise<void> {
  await bench.at('idle');
  for (let guard = 0; bench.view?.task.at !== 'label' && guard < 100; guard++) {
    const { task, seq, confirming, commands } = bench.view ?? (await bench.at('idle'));
    if (confirming !== null) await bench.command('confirm');
    else if (task.at === 'weigh') {
      await bench.emptyPan();
      await bench.simulate({ do: 'put-expected' });
    } else if (task.at === 'decide') {
      await bench.command(commands.includes('pay-next-bracket') ? 'pay-next-bracket' : 'next');
    } else await bench.command('next');
    await bench.until((client) => (client.view?.seq ?? 0) > seq, `a step after ${task.at}`);
  }
}

it('a server that is killed after sending asks again under the same key: one label is sold, printed and expected', async () => {
  receiver.next.push({ do: 'hang' });
  const bytes = Buffer.from('\x1b@a label\n', 'latin1').toString('base64');
  receiver.sell = () => ({ trackingNumber: 'SOLDONCE12', label: { type: 'escpos', data: bytes } });
  await toLabel();
  await bench.until(() => receiver.deliveries.length === 1, 'a delivery');
  await bench.until((client) => client.view?.label?.state === 'late', 'the bench to be told how to go on');
  bench.close();
  await server.kill();
  server = await startProcess({ data: data.path, config });
  bench = new BenchClient(server.url, 'bench-1');
  await bench.until((client) => client.view?.label?.paper === 'printed', 'the printed label', 15_000);
  expect(bench.view?.label).toMatchObject({ state: 'here', number: 'SOLDONCE12', document: 'escpos' });
  expect(new Set(receiver.deliveries.map(({ key }) => key)).size).toBe(1);
  expect(receiver.deliveries.length).toBeGreaterThan(1);
  expect(receiver.sold.size).toBe(1);
  expect(receiver.refused).toBe(0);
  const { rows, to, trouble } = await view();
  expect({ to, trouble }).toEqual({ to: 'receiver', trouble: null });
  expect(rows).toEqual([expect.objectContaining({ state: 'answered', tracking: 'SOLDONCE12', paper: 'printed' })]);

  const attention = await (await fetch(`${server.url}/api/attention`)).json();
  expect(attention).toMatchObject({ labels: 0 });
  const key = rows[0]?.key ?? '';
  const post = (path: string, body: object) =>
    fetch(`${server.url}/api/labels/${path}`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(body),
    });
  expect((await post('print-again', { key })).status).toBe(200);
  expect((await post('print-again', { key: 'nobody' })).status).toBe(404);
  expect((await post('send-again', { key })).status).toBe(409);
  expect((await post('stand-in', { on: true })).status).toBe(409);
  const document = await fetch(`${server.url}/api/labels/document?key=${encodeURIComponent(key)}`);
  expect(document.headers.get('content-disposition')).toContain('attachment');
  expect(Buffer.from(await document.arrayBuffer()).toString('base64')).toBe(bytes);

  await bench.simulate({ do: 'scan', text: 'OTHERLABEL9' });
  await bench.until(({ view: shown }) => shown?.notice?.code === 'label-other-number', 'the stop');
  await bench.simulate({ do: 'scan', text: 'sold-once 12' });
  await bench.until(({ view: shown }) => shown?.task.at !== 'label', 'the next step');
}, 60_000);
