import { afterAll, beforeAll, expect, it } from 'vitest';
import { parcelFacts } from '#server/office/reports/facts.ts';
import { findOrder } from '#server/store/orders.ts';
import { loadShop } from '#config/load.ts';
import { orderCode } from '#shared/codes/our-codes.ts';
import type { CombiningView } from '#shared/wire/combining.ts';
import type { ImportPreview } from '#shared/wire/office.ts';
import type { OrderDetail } from '#shared/wire/search.ts';
import type { Running } from '#server/server.ts';
import { BenchClient } from '#tests/support/bench-client.ts';
import { copyOfConfig, removeConfigFolders } from '#tests/support/config-folder.ts';
import { serverOn } from '#tests/support/in-process-server.ts';
import { packNext } from '#tests/support/pack-order.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';

const data = temporaryFolder('combining');
const config = copyOfConfig();
let running: Running & { readonly url: string };
let bench: BenchClient;

beforeAll(async () => {
  running = await serverOn(config, data.path);
  bench = new BenchClient(running.url, 'bench-1');
  await bench.at('idle');
});

afterAll(async () => {
  bench.close();
  await running.stop();
  data.remove();
  removeConfigFolders();
});

async function post<Answer>(path: string, body: unknown): Promise<{ status: number; body: Answer }> {
  const response = await fetch(`${running.url}/api${path}`, {
    method: 'POST',
    body: typeof body === 'string' ? body : JSON.stringify(body),
    headers: { 'content-type': 'application/json' },
  });
  return { status: response.status, body: (await response.json()) as Answer };
}

async function store(subject: 'pieces' | 'orders', ...lines: readonly string[]): Promise<ImportPreview> {
  const { body } = await post<ImportPreview>(`/imports/${subject}/preview`, lines.join('\n'));
  await post(`/imports/${body.id}/apply`, '');
  return body;
}

const view = async () => (await (await fetch(`${running.url}/api/combining`)).json()) as CombiningView;
const stateOf = async (id: string) => (await findOrder(running.store, id))?.state;
const proposed = async () => (await view()).proposals.map(({ orders }) => orders.map(({ id }) => id));

const HEADER = 'order,sku,buyer,street,city,region,postcode,country,ship by,paid postage';
const ORDERS = [
  HEADER,
  'CO-1,CP-1,Di Dot,5 Rose Lane,Duluth,MN,55802,US,2026-01-05,5.00',
  'CO-2,CP-2,di  dot,"5, Rose Lane",Duluth,MN,55802,US,2026-01-06,4.50',
];
const PAIR = { orders: ['CO-1', 'CO-2'] };

it('two orders of one buyer are proposed with what it saves, are one when taken, and come apart again', async () => {
  await store('pieces', 'sku,title,kind,size,cloth', 'CP-1,Tee,t-shirt,M,jersey', 'CP-2,Tee,t-shirt,M,jersey');
  expect(await proposed()).toEqual([]);
  await store('orders', ...ORDERS);
  const [proposal] = (await view()).proposals;
  expect(proposal?.orders.map(({ id }) => id)).toEqual(PAIR.orders);
  expect(proposal?.saves.minor).toBeGreaterThan(100);
  expect(proposal?.saves.minor).toBe((proposal?.apart.minor ?? 0) - (proposal?.together.minor ?? 0));
  expect([proposal?.parcelsApart, proposal?.parcelsTogether]).toEqual([2, 1]);

  expect((await post('/combining', { orders: ['CO-1', 'NONE'] })).status).toBe(409);
  expect((await post<CombiningView>('/combining', PAIR)).body).toMatchObject({
    proposals: [],
    taken: [{ id: 'CO-1+CO-2', orders: PAIR.orders, state: 'open' }],
  });
  expect(await Promise.all([...PAIR.orders, 'CO-1+CO-2'].map(stateOf))).toEqual(['combined', 'combined', 'open']);
  expect((await post('/combining', PAIR)).status).toBe(409);

  const again = await store('orders', ...ORDERS);
  expect(again).toMatchObject({ added: [], changed: [], unchanged: 2, refused: [] });
  const changed = await store('orders', HEADER, 'CO-1,CP-1,Di Dot,6 Rose Lane,Duluth,MN,55802,US,2026-01-05,5.00');
  expect(changed.refused[0]?.found).toContain('combined with others');

  expect((await post<CombiningView>('/combining/CO-1%2BCO-2/part', {})).body.taken).toEqual([]);
  expect(await Promise.all([...PAIR.orders, 'CO-1+CO-2'].map(stateOf))).toEqual(['open', 'open', undefined]);
  expect((await post('/combining/CO-1%2BCO-2/part', {})).status).toBe(404);
  expect(await proposed()).toEqual([PAIR.orders]);
});

it('packed as one, by the number of either, it closes both and counts once', async () => {
  await post('/combining', PAIR);
  await bench.input({ id: 'combined-scan', type: 'scan', text: orderCode('CO-2'), by: 'scan' });
  await bench.at('gather');
  expect(bench.view?.order).toMatchObject({ id: 'CO-1+CO-2', pieces: [{ sku: 'CP-1' }, { sku: 'CP-2' }] });
  expect((await post('/combining/CO-1%2BCO-2/part', {})).status).toBe(409);
  await bench.command('back');
  await bench.at('idle');
  const packed = await packNext(bench);
  expect(packed).toMatchObject({ order: 'CO-1+CO-2', labels: [expect.any(String)] });
  expect(await Promise.all([...PAIR.orders, 'CO-1+CO-2'].map(stateOf))).toEqual(['packed', 'packed', 'packed']);
  expect((await post('/combining/CO-1%2BCO-2/part', {})).status).toBe(409);

  const [slip] = await running.store.selectFrom('print_job').select('bytes').execute();
  expect(Buffer.from(slip?.bytes ?? []).toString('latin1')).toContain('CO-1+CO-2');
  for (const id of PAIR.orders) {
    const detail = (await (await fetch(`${running.url}/api/orders/${id}`)).json()) as OrderDetail;
    expect(detail.parcels).toHaveLength(1);
  }
  const { facts } = await parcelFacts(running.store, loadShop(config), { first: 0, last: Number.MAX_SAFE_INTEGER });
  expect(facts.map(({ order }) => order)).toEqual(['CO-1+CO-2']);
  expect(facts[0]?.paid).toBe(950);
});

it('what was declined is not proposed again, until another order joins', async () => {
  await store('pieces', 'sku,title,kind', 'CP-3,Tee,t-shirt', 'CP-4,Tee,t-shirt', 'CP-5,Tee,t-shirt');
  const line = (at: number) => `CO-${String(at)},CP-${String(at)},Cy Dash,7 Elm Row,Duluth,MN,55802,US,2027-01-05,5`;
  await store('orders', HEADER, line(3), line(4));
  expect(await proposed()).toEqual([['CO-3', 'CO-4']]);
  await post('/combining/decline', { orders: ['CO-4', 'CO-3'] });
  expect(await proposed()).toEqual([]);
  await store('orders', HEADER, line(5));
  expect(await proposed()).toEqual([['CO-3', 'CO-4', 'CO-5']]);
});
