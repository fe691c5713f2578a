import { join } from 'node:path';
import SqliteDatabase from 'better-sqlite3';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { BenchClient } from '#tests/support/bench-client.ts';
import { startProcess, temporaryFolder, type ServerProcess } from '#tests/support/server-process.ts';
import { commandCode } from '#shared/codes/our-codes.ts';

const data = temporaryFolder('not-stored');
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
