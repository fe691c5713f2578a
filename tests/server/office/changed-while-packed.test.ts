import { afterAll, beforeAll, expect, it } from 'vitest';
import { BenchClient } from '#tests/support/bench-client.ts';
import { startProcess, temporaryFolder, type ServerProcess } from '#tests/support/server-process.ts';
import type { ImportApplied, ImportPreview } from '#shared/wire/office.ts';

const data = temporaryFolder('changed');
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

const post = async <Answer>(path: string, body: string): Promise<Answer> =>
  (await (await fetch(`${server.url}/api/imports/${path}`, { method: 'POST', body })).json()) as Answer;

it('an order that a bench took after the preview keeps its address, and the office is told that it was refused', async () => {
  const [first] = bench.view?.queue ?? [];
  const order = first?.id ?? '';
  await bench.command('next');
  const taken = await bench.at('gather');
  expect(taken.order?.id).toBe(order);
  const skus = taken.order?.pieces.map((piece) => piece.sku).join(' ') ?? '';
  await bench.command('back');
  await bench.at('idle');
  const moved = `order,skus,buyer,postcode,country,shipBy\n${order},${skus},Ida Tamberlow,00501,US,2030-01-01\n`;
  const preview = await post<ImportPreview>('orders/preview', moved);
  expect(preview.changed.map(({ id }) => id)).toEqual([order]);

  await bench.command('next');
  await bench.at('gather');
  expect(await post<ImportApplied>(`${preview.id}/apply`, '')).toMatchObject({ added: 0, changed: 0, refused: 1 });
  await bench.command('back');
  await bench.at('idle');
  await bench.command('next');
  expect((await bench.at('gather')).order?.id).toBe(order);
  const again = await post<ImportPreview>('orders/preview', moved);
  expect(again.refused[0]?.found).toMatch(/being packed .*postcode/);
});
