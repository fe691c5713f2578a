import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, it } from 'vitest';
import { BenchClient } from '#tests/support/bench-client.ts';
import { startProcess, temporaryFolder, type ServerProcess } from '#tests/support/server-process.ts';

const data = temporaryFolder('tray');
let server: ServerProcess;
let bench: BenchClient;

beforeAll(async () => {
  server = await startProcess({ data: data.path });
  bench = new BenchClient(server.url, 'bench-2');
  await bench.at('idle');
});

afterAll(async () => {
  bench.close();
  await server.stop();
  data.remove();
});

it('the tray speaks the language of the bench', async () => {
  const labels = () => bench.offers?.codes.map((code) => code.label) ?? [];
  await bench.until(() => labels().some((label) => /^order \d+$/.test(label)), 'orders in English');
  await bench.input({ id: randomUUID(), type: 'language', language: 'es' });
  await bench.until(() => labels().some((label) => /^pedido \d+$/.test(label)), 'orders in Spanish');
  await bench.command('next');
  await bench.at('gather');
  await bench.until(() => labels().includes('una prenda de otro pedido'), 'a foreign piece in Spanish');
});
