import { existsSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, expect, it } from 'vitest';
import type { IncomingView } from '#shared/wire/incoming.ts';
import type { OrderPage } from '#shared/wire/office.ts';
import { orderFile, pieceFile } from '#tests/support/order-file.ts';
import { startProcess, temporaryFolder, type ServerProcess } from '#tests/support/server-process.ts';

const COUNT = 400;
const data = temporaryFolder('incoming-kill');
let server: ServerProcess | null = null;
afterEach(async () => {
  await server?.stop();
  data.remove();
});

const at = (...names: readonly string[]): string => join(data.path, 'incoming', ...names);
const ask = async <Answer>(path: string): Promise<Answer> =>
  (await (await fetch(`${server?.url ?? ''}/api${path}`)).json()) as Answer;

async function until(what: (view: IncomingView) => boolean): Promise<IncomingView> {
  for (const end = Date.now() + 30_000; Date.now() < end;) {
    const view = await ask<IncomingView>('/incoming');
    if (what(view)) return view;
    await new Promise((resolve) => setTimeout(resolve, 5));
  }
  throw new Error('the watched folder did not come so far');
}

it('a server killed while it stores a file of the watched folder stores the rest when it is back, and moves it', async () => {
  server = await startProcess({ data: data.path });
  await until(({ trouble }) => trouble === null && existsSync(at()));
  const before = (await ask<OrderPage>('/orders?count=1')).all;
  writeFileSync(at('rack.csv'), pieceFile(COUNT));
  writeFileSync(at('orders.csv'), orderFile(COUNT));
  await until(({ files }) => files.some(({ name }) => name === 'orders.csv'));
  await server.kill();
  server = await startProcess({ data: data.path });
  const { files } = await until(({ waiting }) => waiting.length === 0 && !existsSync(at('orders.csv')));
  expect(files.map(({ name, state, counts }) => [name, state, counts.added])).toEqual([
    ['orders.csv', 'stored', COUNT],
    ['rack.csv', 'stored', COUNT],
  ]);
  expect(readdirSync(at('taken')).sort()).toEqual(['orders.csv', 'rack.csv']);
  expect((await ask<OrderPage>('/orders?count=1')).all).toBe(before + COUNT);
}, 60_000);
