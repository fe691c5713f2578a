import { afterAll, beforeAll, expect, it } from 'vitest';
import { findOrder } from '#server/store/orders.ts';
import { findPieces } from '#server/store/pieces.ts';
import type { IntakeAnswer, IntakeToken, NewIntakeToken, RefusedRecord } from '#shared/wire/intake.ts';
import type { Running } from '#server/server.ts';
import { copyOfConfig, removeConfigFolders } from '#tests/support/config-folder.ts';
import { serverOn } from '#tests/support/in-process-server.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';

const data = temporaryFolder('intake');
let running: Running & { readonly url: string };

beforeAll(async () => {
  running = await serverOn(copyOfConfig(), data.path);
});

afterAll(async () => {
  await running.stop();
  data.remove();
  removeConfigFolders();
});

async function post<Answer>(path: string, body: unknown, token?: string) {
  const response = await fetch(`${running.url}/api${path}`, {
    method: 'POST',
    body: typeof body === 'string' ? body : JSON.stringify(body),
    headers: {
      'content-type': 'application/json',
      ...(token === undefined ? {} : { authorization: `Bearer ${token}` }),
    },
  });
  return { status: response.status, headers: response.headers, body: (await response.json()) as Answer };
}

const tokenFor = async (...may: readonly string[]) =>
  (await post<NewIntakeToken>('/intake-tokens', { name: 'web shop', may })).body.token;

const PIECE = { sku: 'IN-1', title: 'Harbour tee', kind: 't-shirt', size: 'M', mass: '181.4 g', value: 12.5 };
const ORDER = {
  order: 'IN-100',
  skus: ['IN-1'],
  buyer: 'Di Dot',
  street: '5 Rose Lane',
  city: 'Duluth',
  region: 'MN',
  postcode: '55802',
  country: 'US',
  shipBy: '2027-01-05 16:30',
  paidPostage: 9.88,
};

it('takes pieces and orders once, however often they are sent, by the rules of a file', async () => {
  const token = await tokenFor('pieces', 'orders');
  const sentPieces = await post<IntakeAnswer>('/intake/pieces', [PIECE], token);
  expect(sentPieces).toMatchObject({ status: 200, body: { added: ['IN-1'], changed: [], unchanged: 0 } });
  const [piece] = [...(await findPieces(running.store, ['IN-1'])).values()];
  expect(piece?.value).toEqual({ minor: 1250, currency: 'USD' });

  const first = await post<IntakeAnswer>('/intake/orders', [ORDER], token);
  expect(first).toMatchObject({ status: 200, body: { added: ['IN-100'], changed: [], unchanged: 0, doubts: [] } });
  expect((await findOrder(running.store, 'IN-100'))?.order).toMatchObject({
    address: ['5 Rose Lane', 'Duluth MN 55802'],
    paidPostage: { minor: 988, currency: 'USD' },
  });
  const again = await post<IntakeAnswer>('/intake/orders', [ORDER], token);
  expect(again.body).toEqual({ added: [], changed: [], unchanged: 1, doubts: [] });
  const changed = await post<IntakeAnswer>('/intake/orders', [{ ...ORDER, region: 'WI' }], token);
  expect(changed.body).toMatchObject({
    changed: ['IN-100'],
    doubts: [{ order: 'IN-100', doubts: [{ about: 'region-elsewhere' }] }],
  });
});

it('stores nothing of a list with one bad record, and names each by its place and field', async () => {
  const token = await tokenFor('orders');
  const { status, body } = await post<{ refused: readonly RefusedRecord[] }>(
    '/intake/orders',
    [
      { ...ORDER, order: 'IN-200', skus: 'NOPE' },
      { ...ORDER, order: 'IN-201', postcode: 'xyz' },
      { ...ORDER, order: 'IN-202', shipBy: 'someday' },
    ],
    token,
  );
  expect(status).toBe(422);
  expect(body.refused.map(({ record, field }) => [record, field])).toEqual([
    [1, 'skus'],
    [2, 'postcode'],
    [3, 'shipBy'],
  ]);
  expect(await findOrder(running.store, 'IN-202')).toBeNull();

  const refusedOf = async (list: unknown) =>
    (await post<{ refused: readonly RefusedRecord[] }>('/intake/orders', list, token)).body.refused[0];
  expect(await refusedOf([{ ...ORDER, colour: 'red' }])).toMatchObject({ record: 1, field: 'colour' });
  expect(await refusedOf([{ ...ORDER, buyer: { name: 'Di' } }])).toMatchObject({ record: 1, field: 'buyer' });
  const many = Object.fromEntries(Array.from({ length: 101 }, (_, index) => [`field ${String(index)}`, 1]));
  expect(await refusedOf([many])).toMatchObject({ record: 1, field: null, expected: 'a record of at most 100 fields' });
  expect(await refusedOf([])).toMatchObject({ found: 'an empty list' });
  expect(await refusedOf({ orders: [ORDER] })).toMatchObject({ expected: 'a list of one or more records' });
  expect(await refusedOf(['IN-100'])).toMatchObject({ record: 1, expected: 'a record of fields' });
  expect((await refusedOf([{ order: 'IN-300' }]))?.expected).toContain('skus');
});

it('says who may not, what is too much and what is no JSON', async () => {
  const token = await tokenFor('pieces');
  const none = await post('/intake/pieces', [PIECE]);
  expect(none.status).toBe(401);
  expect(none.headers.get('www-authenticate')).toContain('Bearer');
  expect((await post('/intake/pieces', [PIECE], `${token}x`)).status).toBe(401);
  expect((await post('/intake/orders', [ORDER], token)).status).toBe(403);
  expect((await post('/intake/people', [], token)).status).toBe(404);
  expect((await post('/intake/pieces', '[{"sku":', token)).status).toBe(400);
  const large = JSON.stringify([{ ...PIECE, title: 'x'.repeat(9 * 2 ** 20) }]);
  expect(await post('/intake/pieces', large, token)).toMatchObject({ status: 413, body: { error: 'too-large' } });
  // Without a token nobody learns how much is too much.
  expect((await post('/intake/pieces', large)).status).toBe(401);
});

it('a token is kept as a hash only, and is of no use once revoked', async () => {
  const token = await tokenFor('pieces');
  const kept = await running.store.selectFrom('intake_token').selectAll().execute();
  expect(JSON.stringify(kept)).not.toContain(token);
  await post('/intake/pieces', [PIECE], token);
  const tokens = (await (await fetch(`${running.url}/api/intake-tokens`)).json()) as readonly IntakeToken[];
  expect(tokens[0]).toMatchObject({ name: 'web shop', may: ['pieces'], revokedAt: null });
  expect(tokens[0]?.usedAt).toBeGreaterThan(0);
  const path = `/intake-tokens/${String(tokens[0]?.id)}/revoke`;
  expect((await post(path, {})).status).toBe(200);
  expect((await post(path, {})).status).toBe(404);
  expect((await post('/intake/pieces', [PIECE], token)).status).toBe(401);
});
