import { afterAll, beforeAll, expect, it } from 'vitest';
import { loadShop } from '#config/load.ts';
import { takeNumbers } from '#server/labels/numbers-file.ts';
import { written } from '#server/labels/keep-request.ts';
import { labelShown } from '#server/labels/bench-label.ts';
import { labelsView } from '#server/labels/view.ts';
import { seedDemo } from '#server/office/demo.ts';
import { parcelKey, shipmentsCsv } from '#server/office/shipments/shipments-csv.ts';
import { plannerHere } from '#server/planning/planner.ts';
import type { BenchRun } from '#server/runs/bench-run.ts';
import { labelRequestOf } from '#server/store/label-requests.ts';
import { openOrders } from '#server/store/orders.ts';
import type { Store } from '#server/store/open.ts';
import { allParcels } from '#server/store/parcels.ts';
import { findPieces } from '#server/store/pieces.ts';
import type { Piece } from '#shared/garments/types.ts';
import type { LabelRequest } from '#shared/wire/label.ts';
import { copyOfConfig, edit, removeConfigFolders } from '#tests/support/config-folder.ts';
import { benchRun, give, take, upToLabel } from '#tests/support/finish-run.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';
import { openTestStore } from '#tests/support/test-store.ts';

const data = temporaryFolder('customs');
const clock = { now: () => Date.parse('2026-11-25T15:00:00Z') };
let store: Store;
let run: BenchRun;
const shop = (() => {
  const folder = copyOfConfig();
  edit(folder, 'shop.yaml', /$/, "\nlabels: { url: simulated }\nshipments: { hsCodes: { jeans: '6203.42' } }\n");
  return loadShop(folder);
})();

beforeAll(async () => {
  store = await openTestStore(data.path);
  await seedDemo('config', shop, store, clock);
});
afterAll(async () => {
  await store.destroy();
  data.remove();
  removeConfigFolders();
});

/** The bench as it stands in the store. */
async function here(): Promise<BenchRun> {
  const made = benchRun({ store, shop, clock });
  await made.load();
  return made;
}

const states = () => new Map([['bench-1', run.state]]);
const numbers = (csv: string) => takeNumbers({ store, shop, states: states(), now: clock.now() }, Buffer.from(csv));
const key = () => `${run.state.order?.id ?? ''}-${run.state.run ?? ''}-${String(run.state.parcel + 1)}`;
const request = () => labelRequestOf(store, run.state.run ?? '', run.state.parcel + 1);

/** The same shop in a country of its own, so that what is planned and priced as at home goes abroad. */
const abroad = { ...shop, from: { ...shop.from, country: 'XA' } };

async function mend(sku: string, change: Partial<Piece>): Promise<void> {
  const piece = { ...(await findPieces(store, [sku])).get(sku), ...change };
  await store
    .updateTable('piece')
    .set({ body: JSON.stringify(piece) })
    .where('sku', '=', sku)
    .execute();
}

it('numbers are read back by key or order, all of them or none, and the bench then expects its own', async () => {
  const [next] = await openOrders(store, 1);
  run = await here();
  await take(run, next?.order.id ?? '');
  await upToLabel(run, clock.now());
  const refused = await numbers(`key,tracking\n${key()},AB12345678\nnobody-1,AB12345679\n${key()},AB12345678\n`);
  expect(refused).toMatchObject({ stored: false });
  expect(refused.refused.map(({ line, column }) => [line, column])).toEqual([
    [3, 'key'],
    [4, 'tracking'],
  ]);
  expect(await request()).toMatchObject({ state: 'waiting', tracking: null });
  // S10 with a check digit that is wrong (UPU S10; tests/standards/codes.test.ts has the right one).
  expect(await numbers(`key,tracking\n${key()},RR473124828US\n`)).toMatchObject({ stored: false });
  expect(await numbers(`pedido;etiqueta\n${next?.order.id ?? ''};ab 1234 5678\n`)).toEqual({
    stored: true,
    numbers: 1,
    refused: [],
  });
  expect(await request()).toMatchObject({ state: 'answered', tracking: 'AB12345678', why: 'file' });
  const scan = (text: string) =>
    run.apply({ type: 'scan', meaning: { means: 'label', text, number: text, postcode: null }, by: 'scan' });
  await scan('CD12345678');
  expect(run.state.step).toMatchObject({ at: 'label', stop: { why: 'number', due: 'AB12345678' } });
  await scan('AB12345678');
  expect(run.state.step.at).toBe('done');
  await expect(numbers('what,else\na,b\n')).rejects.toThrow('expected a column for');
});

it('a parcel that was checked by eye gets its number later; one that has a number keeps it', async () => {
  const [next] = await openOrders(store, 1);
  run = await here();
  await take(run, next?.order.id ?? '');
  await upToLabel(run, clock.now());
  const due = key();
  await give(run, 'next');
  await run.apply({ type: 'command', command: 'confirm', by: 'voice' });
  expect(await numbers(`key,tracking\n${due},EF12345678\n`)).toMatchObject({ stored: true });
  const parcel = (await allParcels(store)).find((each) => parcelKey(each) === due);
  expect(parcel?.label).toBe('EF12345678');
  expect(await numbers(`key,tracking\n${due},EF12345678\n`)).toMatchObject({ stored: true });
  expect(await numbers(`key,tracking\n${due},GH12345678\n`)).toMatchObject({ stored: false });
});

it('for abroad, what is missing is named before the label and nothing is sent until it is there', async () => {
  const [next] = await openOrders(store, 1);
  run = benchRun({ store, shop: abroad, clock, planner: plannerHere(shop) });
  await run.load();
  await take(run, next?.order.id ?? '');
  const shown = () => labelShown(store, abroad, run.state, { now: clock.now(), patienceSeconds: 20 });
  const [sku = ''] = run.state.parcels[0]?.pieces.map(({ piece }) => piece.sku) ?? [];
  expect((await shown()).customs).toEqual(
    expect.arrayContaining([expect.objectContaining({ sku, missing: expect.arrayContaining(['origin']) as string[] })]),
  );
  await upToLabel(run, clock.now());
  expect(await request()).toMatchObject({ state: 'held', why: 'customs' });
  expect((await shown()).label).toMatchObject({ state: 'held' });
  const csv = await shipmentsCsv(store, abroad, states());
  expect(csv).toContain(`${sku}: `);
  for (const { piece } of run.state.parcels[0]?.pieces ?? []) {
    await mend(piece.sku, { origin: 'PT', hsCode: '6110.11', value: { minor: 1250, currency: 'USD' } });
  }
  expect((await shown()).customs).toBeUndefined();
  const made = await written({ store, shop: abroad }, JSON.parse((await request())?.facts ?? '') as never);
  expect(made.state).toBe('waiting');
  const { customs } = JSON.parse(made.body) as LabelRequest;
  expect(customs?.[0]).toMatchObject({
    sku,
    count: 1,
    value: { minor: 1250, currency: 'USD' },
    origin: 'PT',
    hsCode: '6110.11',
    mass: { unit: 'oz' },
  });
  expect(customs?.[0]?.contents).toMatch(/\S/);
});

it('the office names open orders for abroad with what they lack', async () => {
  const [next] = await openOrders(store, 1);
  const view = await labelsView(store, abroad, { settings: null, trouble: null }, clock.now());
  expect(view.customs[0]).toMatchObject({ order: next?.order.id, country: 'US' });
  expect(view.counts.answered).toBeGreaterThan(0);
});
