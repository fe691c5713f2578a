import { afterAll, beforeAll, expect, it } from 'vitest';
import { orderCode } from '#shared/codes/our-codes.ts';
import { findOrder } from '#server/store/orders.ts';
import type { AddressStored, DoubtfulAddress } from '#shared/wire/addresses.ts';
import type { ChangesView } from '#shared/wire/audit.ts';
import type { ImportPreview } from '#shared/wire/office.ts';
import type { Running } from '#server/server.ts';
import { BenchClient } from '#tests/support/bench-client.ts';
import { copyOfConfig, removeConfigFolders } from '#tests/support/config-folder.ts';
import { serverOn } from '#tests/support/in-process-server.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';

const data = temporaryFolder('addresses');
let running: Running & { readonly url: string };
let bench: BenchClient;

beforeAll(async () => {
  running = await serverOn(copyOfConfig(), data.path);
  bench = new BenchClient(running.url, 'bench-1');
  await bench.at('idle');
});

afterAll(async () => {
  bench.close();
  await running.stop();
  data.remove();
  removeConfigFolders();
});

async function post<Answer>(path: string, body: string): Promise<{ status: number; body: Answer }> {
  const response = await fetch(`${running.url}/api${path}`, {
    method: 'POST',
    body,
    headers: { 'content-type': 'application/json' },
  });
  return { status: response.status, body: (await response.json()) as Answer };
}

async function store(subject: 'pieces' | 'orders', ...lines: readonly string[]): Promise<ImportPreview> {
  const { body } = await post<ImportPreview>(`/imports/${subject}/preview`, lines.join('\n'));
  expect(body.refused).toEqual([]);
  await post(`/imports/${body.id}/apply`, '');
  return body;
}

const doubtful = async () => (await (await fetch(`${running.url}/api/addresses`)).json()) as DoubtfulAddress[];
const HEADER = 'order,sku,buyer,street,city,region,postcode,country,ship by';

it('an address that looks wrong is imported, told in the office and at the bench, until it is found right or changed', async () => {
  await store('pieces', 'sku,title,kind', 'AD-1,Tee,t-shirt', 'AD-2,Tee,t-shirt');
  expect(await doubtful()).toEqual([]);
  const { added } = await store(
    'orders',
    HEADER,
    'AD-9,AD-1,Ada Quill,1 Elm Street,Duluth,MN,02134,US,2027-01-05',
    'AD-8,AD-2,Bo Quill,1 Elm Street,Duluth,MN,55802,US,2027-01-05',
  );
  const elsewhere = { about: 'region-elsewhere', region: 'Minnesota', found: '02134', lies: 'Massachusetts' };
  expect(added.map(({ id, doubts }) => [id, doubts])).toEqual([
    ['AD-9', [elsewhere]],
    ['AD-8', undefined],
  ]);
  const [row, ...others] = await doubtful();
  expect(others).toEqual([]);
  expect(row).toMatchObject({ order: 'AD-9', state: 'open', doubts: [elsewhere] });

  await bench.input({ id: 'address-scan', type: 'scan', text: orderCode('AD-9'), by: 'scan' });
  await bench.at('gather');
  expect(bench.view?.notice).toMatchObject({ code: 'address-doubtful', tone: 'attention' });
  expect(bench.view?.address).toEqual([elsewhere]);

  expect((await post('/addresses/AD-9/right', '{"key":"another"}')).status).toBe(409);
  expect((await post('/addresses/NONE/right', '{"key":"another"}')).status).toBe(404);
  const right = await post<DoubtfulAddress[]>('/addresses/AD-9/right', JSON.stringify({ key: row?.key }));
  expect(right).toEqual({ status: 200, body: [] });
  await bench.until(({ view }) => view?.address === undefined, 'the doubt is gone at the bench');

  await store('orders', HEADER, 'AD-8,AD-2,Bo Quill,Elm Street,Duluth,MN,55802,US,2027-01-05');
  expect((await doubtful()).map(({ order, doubts }) => [order, doubts[0]?.about])).toEqual([['AD-8', 'no-number']]);
});

it('a new address is taken in the office by the rules of an import, is a change of the order, and goes to what follows it', async () => {
  await store('pieces', 'sku,title,kind', 'AD-3,Tee,t-shirt', 'AD-4,Tee,t-shirt');
  await store('orders', HEADER, 'AD-7,AD-3 AD-4,Cy Quill,1 Elm Street,Duluth,MN,55802,US,2027-01-05');
  await post('/orders/AD-7/leave-out', JSON.stringify({ skus: ['AD-4'], follow: true }));
  const before = await findOrder(running.store, 'AD-7');
  const give = (order: string, changes: object = {}) =>
    post<AddressStored & { error?: string }>(
      `/orders/${order}/address`,
      JSON.stringify({
        name: 'Cy Quill',
        lines: ['9 Mill Lane', 'Toronto ON M5V 2T6'],
        postcode: 'M5V 2T6',
        country: 'Canada',
        ...changes,
      }),
    );

  const refused = await give('AD-7', { name: ' ', postcode: '2134', country: 'US' });
  expect(refused.status).toBe(200);
  expect(refused.body).toMatchObject({ stored: false, doubts: [] });
  expect(refused.body.refused.map(({ field, found }) => [field, found])).toEqual([
    ['name', 'an empty cell'],
    ['postcode', '"2134"'],
  ]);
  expect((await give('AD-7', { country: 'Nowhere' })).body.refused).toMatchObject([
    { field: 'country' },
    { field: 'postcode' },
  ]);
  expect(await findOrder(running.store, 'AD-7')).toEqual(before);

  // The postcode is not among the lines: stored, and asked about.
  expect((await give('AD-7', { lines: ['9 Mill Lane'] })).body).toMatchObject({
    stored: true,
    doubts: [{ about: 'no-town' }],
  });
  expect((await give('AD-7')).body).toEqual({ order: 'AD-7', stored: true, refused: [], doubts: [] });
  expect((await give('AD-7')).body.stored).toBe(true);
  const after = await findOrder(running.store, 'AD-7');
  expect(after?.version).toBe((before?.version ?? 0) + 2);
  expect(after?.order).toEqual({
    ...before?.order,
    address: ['9 Mill Lane', 'Toronto ON M5V 2T6'],
    to: { postcode: 'M5V 2T6', country: 'CA' },
  });
  expect((await findOrder(running.store, 'AD-7-2'))?.order).toMatchObject({
    to: { postcode: 'M5V 2T6', country: 'CA' },
  });

  const { rows } = (await (await fetch(`${running.url}/api/changes`)).json()) as ChangesView;
  expect(rows.filter(({ about }) => about === 'AD-7').map(({ what, details }) => [what, details.fields])).toEqual([
    ['order-address', 'lines'],
    ['order-address', 'lines postcode country'],
    ['order-sent-in-part', undefined],
  ]);

  expect(await give('NONE')).toMatchObject({ status: 404 });
  // A bench has this one in hand since it was scanned above.
  expect(await give('AD-9')).toMatchObject({ status: 409, body: { error: 'in-hand' } });
});
