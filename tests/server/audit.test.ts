import { afterAll, beforeAll, expect, it } from 'vitest';
import { cancelOrder } from '#server/office/cancel-order.ts';
import { newestChanges, recordChange } from '#server/store/changes.ts';
import { findOrder } from '#server/store/orders.ts';
import { CHANGES_A_PAGE, type ChangesView } from '#shared/wire/audit.ts';
import { CONFIG } from '#tests/support/config-folder.ts';
import { serverOn } from '#tests/support/in-process-server.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';

let data: ReturnType<typeof temporaryFolder>;
let server: Awaited<ReturnType<typeof serverOn>>;
beforeAll(async () => {
  data = temporaryFolder('audit');
  server = await serverOn(CONFIG, data.path);
});
afterAll(async () => {
  await server.stop();
  data.remove();
});

const post = (path: string, body?: object) =>
  fetch(`${server.url}/api${path}`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body ?? {}),
  });
const changes = async (query = '') => (await (await fetch(`${server.url}/api/changes${query}`)).json()) as ChangesView;

it('what the office changes is kept with what it was about, the last first; what was refused is not', async () => {
  const [order] = await server.store
    .selectFrom('shop_order')
    .select('id')
    .where('state', '=', 'open')
    .limit(1)
    .execute();
  const id = order?.id ?? '';
  expect((await post(`/orders/${id}/cancel`)).status).toBe(200);
  expect((await post(`/orders/${id}/cancel`)).status).toBe(409);
  expect((await post(`/orders/${id}/reopen`)).status).toBe(200);
  expect((await post('/intake-tokens', { name: 'the web shop', may: ['orders'] })).status).toBe(200);
  expect((await post('/rates/reload')).status).toBe(200);
  const { rows, more } = await changes();
  expect(more).toBe(false);
  expect(rows.map(({ what, about, from, who }) => [what, about, from, who])).toEqual([
    ['prices-read-again', '', 'office', null],
    ['token-made', 'the web shop', 'office', null],
    ['order-reopened', id, 'office', null],
    ['order-cancelled', id, 'office', null],
  ]);
  expect(rows[1]?.details).toEqual({ may: 'orders' });
});

it('a change whose record cannot be kept is not made', async () => {
  const [order] = await server.store
    .selectFrom('shop_order')
    .select('id')
    .where('state', '=', 'open')
    .limit(1)
    .execute();
  const id = order?.id ?? '';
  const full = () => Promise.reject(new Error('disk full'));
  await expect(cancelOrder(server.store, id, 1, full)).rejects.toThrow('disk full');
  expect((await findOrder(server.store, id))?.state).toBe('open');
});

it('thousands of changes are read page by page, and a stranger page is refused', async () => {
  await server.store.transaction().execute(async (transaction) => {
    for (let n = 0; n < CHANGES_A_PAGE + 5; n++) {
      await recordChange(transaction, { what: 'log-level', about: String(n), who: 'nobody-known', from: 'console' }, n);
    }
  });
  const first = await changes();
  expect(first).toMatchObject({ more: true, rows: { length: CHANGES_A_PAGE } });
  expect(first.rows[0]).toMatchObject({ name: 'nobody-known', from: 'console', details: {} });
  const second = await changes(`?before=${String(first.rows.at(-1)?.id)}`);
  expect(second.rows.map(({ about }) => about).slice(0, 5)).toEqual(['4', '3', '2', '1', '0']);
  expect(await newestChanges(server.store, 1)).toEqual([]);
  expect((await fetch(`${server.url}/api/changes?before=x`)).status).toBe(400);
});
