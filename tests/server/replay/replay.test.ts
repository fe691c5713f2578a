import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import { BenchClient } from '#tests/support/bench-client.ts';
import { packNext } from '#tests/support/pack-order.ts';
import { startProcess } from '#tests/support/server-process.ts';
import { runCli } from '#server/cli/cli.ts';
import { readDay } from '#server/replay/recorded-day.ts';

const root = mkdtempSync(join(tmpdir(), 'benchfold-replay-'));
afterAll(() => rmSync(root, { recursive: true, force: true }));

const cli = (...args: readonly string[]) =>
  runCli([...args, '--json'], {
    now: Date.now(),
    config: resolve(import.meta.dirname, '../../../config'),
    workingFolder: root,
    stdin: () => Buffer.alloc(0),
    wire: '',
    templates: '',
  });

it('a recorded day holds nobody’s data, and plays again on another server to the same ends', async () => {
  const first = await startProcess({ data: join(root, 'first') });
  const bench = new BenchClient(first.url, 'bench-1');
  await bench.at('idle');
  const packed = [await packNext(bench), await packNext(bench)];
  const orders = await (await fetch(`${first.url}/api/orders?count=100`)).json();
  bench.close();
  await first.stop();
  const recorded = await cli('replay', '--record', 'day.jsonl', '--data', join(root, 'first'));
  expect(recorded).toMatchObject({ exit: 0, stderr: '' });
  expect(JSON.parse(recorded.stdout)).toMatchObject({ orders: 2 });
  const text = readFileSync(join(root, 'day.jsonl'), 'utf8');
  for (const [to, why] of [
    ['day.jsonl', 'expected nothing there, found something'],
    ['nowhere/day.jsonl', 'expected something there, found nothing'],
  ] as const) {
    const refused = await cli('replay', '--record', to, '--data', join(root, 'first'));
    expect(refused).toMatchObject({ exit: 1, stderr: `${join(root, to)}: ${why}\n` });
  }
  expect(readFileSync(join(root, 'day.jsonl'), 'utf8')).toBe(text);
  const { rows } = orders as { readonly rows: readonly { readonly id: string; readonly buyer: string }[] };
  for (const { id, buyer } of rows) {
    expect(text).not.toContain(buyer);
    expect(text).not.toContain(`"${id}"`);
  }
  for (const { labels } of packed) for (const label of labels) expect(text).not.toContain(label.split('\u001d')[1]);

  const second = await startProcess({ data: join(root, 'second') });
  const played = await cli('replay', '--play', 'day.jsonl', '--server', second.url, '--speed', '1000');
  expect(played).toMatchObject({ exit: 0, stderr: '' });
  const { acts, taken, skipped, orders: done } = JSON.parse(played.stdout) as Record<string, number>;
  expect(acts).toBe(readDay(text).acts.length);
  // What a busy machine delays may be planned from other beliefs: the way differs, the ends do not.
  expect((taken ?? 0) + (skipped ?? 0)).toBe(acts);
  expect(taken).toBeGreaterThan(0.8 * (acts ?? NaN));
  expect(done).toBe(2);
  const csv = await (await fetch(`${second.url}/api/exports/parcels.csv`)).text();
  expect(csv).toContain('9000001');
  const tokens = (await (await fetch(`${second.url}/api/intake-tokens`)).json()) as { readonly revokedAt: number }[];
  expect(tokens.every(({ revokedAt }) => revokedAt > 0)).toBe(true);
  await second.stop();
}, 120_000);

it('says what is wrong with a file, and where', async () => {
  expect(() => readDay('{"version":1,"day":"2026-11-25","acts":1}\n{"at":1}\n')).toThrow('line 2: expected a piece');
  expect(() => readDay('{"version":1,"day":"2026-11-25","acts":1}\n')).toThrow('expected 1 acts, found 0');
  expect(await cli('replay', '--play', 'nowhere.jsonl', '--server', 'http://localhost:1')).toMatchObject({ exit: 1 });
  expect(await cli('replay')).toMatchObject({ exit: 2 });
});
