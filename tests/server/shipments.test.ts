import { parse } from 'csv-parse/sync';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { checkFolder, loadShop } from '#config/load.ts';
import { seedDemo } from '#server/office/demo.ts';
import { shipmentsCsv } from '#server/office/shipments/shipments-csv.ts';
import { findOrder, openOrders } from '#server/store/orders.ts';
import type { Store } from '#server/store/open.ts';
import { keepParcel, waitingParcels } from '#server/store/sacks.ts';
import { SHIPMENT_FIELDS } from '#shared/shipments/fields.ts';
import type { BenchRun } from '#server/runs/bench-run.ts';
import { copyOfConfig, edit, removeConfigFolders } from '#tests/support/config-folder.ts';
import { benchRun, finish, take, upToLabel } from '#tests/support/finish-run.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';
import { openTestStore } from '#tests/support/test-store.ts';

const shop = loadShop('config');
const clock = { now: () => Date.parse('2026-11-25T15:00:00Z') };
const data = temporaryFolder('shipments');
let store: Store;
let first: BenchRun;
let second: BenchRun;

beforeAll(async () => {
  store = await openTestStore(data.path);
  await seedDemo('config', shop, store, clock);
  const [one, two] = await openOrders(store, 2);
  first = benchRun({ store, shop, clock });
  await take(first, one?.order.id ?? '');
  await finish(first, clock.now(), 'LABEL-');
  second = benchRun({ store, shop, clock, bench: 1 });
  await take(second, two?.order.id ?? '');
  await upToLabel(second, clock.now());
});

afterAll(async () => {
  await store.destroy();
  data.remove();
  removeConfigFolders();
});

const states = () =>
  new Map([
    ['bench-1', first.state],
    ['bench-2', second.state],
  ]);
const rowsOf = (csv: string) =>
  parse(csv.slice(1), { columns: true, record_delimiter: '\r\n' }) as unknown as readonly Record<string, string>[];

it('has a row for each parcel that was weighed and has not left, before and after its label, always under the same key', async () => {
  const rows = rowsOf(await shipmentsCsv(store, shop, states()));
  expect(Object.keys(rows[0] ?? {})).toEqual([...SHIPMENT_FIELDS]);
  expect(rows.map((row) => row['state'])).toEqual(['weighed', 'labelled']);
  const [weighed, labelled] = rows;
  expect(weighed).toMatchObject({ order: second.state.order?.id, label: '', massUnit: 'oz', sizeUnit: 'in' });
  expect(labelled).toMatchObject({
    order: first.state.order?.id,
    label: 'LABEL-0',
    origin: '',
    missing: '',
    currency: 'USD',
  });
  expect(Number(labelled?.['netMass'])).toBeGreaterThan(0);
  expect(Number(labelled?.['netMass'])).toBeLessThan(Number(labelled?.['mass']));
  const order = (await findOrder(store, labelled?.['order'] ?? ''))?.order;
  expect(labelled).toMatchObject({ buyer: order?.buyer, postcode: order?.to.postcode, country: order?.to.country });
  for (const row of rows) {
    expect(Number(row['mass'])).toBeGreaterThan(0);
    expect(Number(row['length'])).toBeGreaterThanOrEqual(Number(row['width']));
    expect(Number(row['width'])).toBeGreaterThanOrEqual(Number(row['height']));
    expect(row['contents']).toMatch(/\S/);
  }
  const key = weighed?.['key'];
  const scan = {
    type: 'scan',
    meaning: { means: 'label', text: 'B1', number: 'B1', postcode: null },
    by: 'scan',
  } as const;
  await second.apply(scan);
  const later = rowsOf(await shipmentsCsv(store, shop, states()));
  expect(later.find((row) => row['key'] === key)).toMatchObject({ state: 'labelled', label: 'B1' });
  const [parcel] = await waitingParcels(store);
  await keepParcel(store, parcel?.id ?? 0, 'cancelled');
  expect(rowsOf(await shipmentsCsv(store, shop, states()))).toHaveLength(later.length - 1);
});

it('has the shop’s own columns and tariff numbers, and names one that is no field with its place', async () => {
  const folder = copyOfConfig();
  const own =
    "shipments:\n  columns: { Reference: key, Heft: mass, Tariff: hsCode, Made in: origin }\n  origin: PT\n  hsCodes: { jeans: '6203.42' }\n";
  edit(folder, 'shop.yaml', /$/, `\n${own}`);
  const csv = await shipmentsCsv(store, loadShop(folder), states());
  expect(csv.split('\r\n')[0]).toBe('\ufeffReference,Heft,Tariff,Made in');
  expect(rowsOf(csv).every((row) => row['Made in'] === 'PT')).toBe(true);
  edit(folder, 'shop.yaml', 'Heft: mass', 'Heft: maas');
  expect(checkFolder(folder)).toEqual([expect.objectContaining({ file: 'shop.yaml', path: 'shipments.columns.Heft' })]);
});
