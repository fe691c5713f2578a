import { chmodSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pino } from 'pino';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { LabelDesk } from '#server/labels/label-desk.ts';
import { labelQueue } from '#server/labels/label-queue.ts';
import { seedDemo } from '#server/office/demo.ts';
import type { BenchRun } from '#server/runs/bench-run.ts';
import { ShopHolder } from '#server/shop-holder.ts';
import { labelRequestOf, listLabelRequests } from '#server/store/label-requests.ts';
import { openOrders } from '#server/store/orders.ts';
import type { Store } from '#server/store/open.ts';
import { allParcels } from '#server/store/parcels.ts';
import { printJobs } from '#server/store/print-jobs.ts';
import { massFromBase, massFromGrams } from '#shared/units/mass.ts';
import { copyOfConfig, edit, removeConfigFolders } from '#tests/support/config-folder.ts';
import { benchRun, give, onTo, take, upToLabel } from '#tests/support/finish-run.ts';
import { LabelReceiver } from '#tests/support/label-receiver.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';
import { openTestStore } from '#tests/support/test-store.ts';

const SECRET = 'thimble-and-thread-42';
let now: number;
const clock = { now: () => now };
let receiver: LabelReceiver;
let data: ReturnType<typeof temporaryFolder>;
let store: Store;
let shops: ShopHolder;
let desk: LabelDesk;
let run: BenchRun;
let news: string[];

/** The shop with a receiver of its own; waits are short, the patience is not. */
async function begin(more = '', secret: string = SECRET): Promise<void> {
  now = Date.now();
  receiver = new LabelReceiver(SECRET, () => now);
  await receiver.start();
  const folder = copyOfConfig();
  const file = join(folder, 'secret.txt');
  writeFileSync(file, `${secret}\n`);
  chmodSync(file, 0o600);
  const settings = `labels:\n  url: ${receiver.url}\n  secret: { file: secret.txt }\n  timeoutSeconds: 1\n  firstRetrySeconds: 0.1\n  longestRetrySeconds: 0.2\n  attempts: 4\n`;
  edit(folder, 'shop.yaml', /$/, `\n${settings}${more}`);
  shops = new ShopHolder(folder);
  data = temporaryFolder('labels');
  store = await openTestStore(data.path);
  await seedDemo(folder, shops.current, store, clock);
  news = [];
  desk = deskOf();
  run = benchRun({ store, shop: shops.current, clock });
  const [order] = await openOrders(store, 1);
  await take(run, order?.order.id ?? '');
}

const deskOf = () =>
  new LabelDesk({
    store,
    shops,
    clock,
    log: pino({ level: 'silent' }),
    onNews: (bench) => news.push(bench),
    chance: () => 0,
  });

const request = () => labelRequestOf(store, run.state.run ?? '', run.state.parcel + 1);

/** Lets the time of the sender go on until the request is as it should be. */
async function until(state: string, what: () => boolean = () => true): Promise<void> {
  for (let guard = 0; guard < 400; guard++) {
    const row = await request();
    if (row?.state === state && what()) return;
    now += 25;
    desk.kick();
    await new Promise((soon) => setTimeout(soon, 10));
  }
  throw new Error(`never ${state}: ${JSON.stringify(await request())}`);
}

beforeEach(() => begin());
afterEach(async () => {
  await desk.stop();
  await receiver.stop();
  await run.settled();
  await store.destroy();
  data.remove();
  removeConfigFolders();
});

const confirm = () => run.apply({ type: 'command', command: 'confirm', by: 'voice' });
const scan = (text: string) =>
  run.apply({ type: 'scan', meaning: { means: 'label', text, number: text, postcode: null }, by: 'scan' });

describe('a parcel whose weight is settled', () => {
  it('is told once, signed, and its number is what the label must have', async () => {
    await upToLabel(run, now);
    expect(await request()).toMatchObject({ state: 'waiting', attempts: 0 });
    desk.start();
    await until('answered');
    const [delivery] = receiver.deliveries;
    expect(receiver.deliveries).toHaveLength(1);
    expect(receiver.refused).toBe(0);
    const { order } = run.state;
    expect(delivery?.key).toBe(`${order?.id ?? ''}-${run.state.run ?? ''}-1`);
    expect(delivery?.body).toMatchObject({
      version: 1,
      key: delivery?.key,
      replaces: null,
      order: order?.id,
      parcel: { number: 1, of: run.state.parcels.length },
      from: { postcode: '55802', country: 'US' },
      to: { name: order?.buyer, address: order?.address, postcode: order?.to.postcode, country: 'US' },
      customs: null,
      accepts: ['escpos', 'png', 'pdf'],
    });
    expect(Number(delivery?.body.mass.amount)).toBeGreaterThan(0);
    await expect.poll(() => new Set(news)).toEqual(new Set(['bench-1']));

    await scan('SOMETHING-ELSE');
    expect(run.state.step).toMatchObject({
      at: 'label',
      stop: { why: 'number', found: 'SOMETHING-ELSE', due: 'TRACK100000' },
    });
    expect(run.state.notice?.code).toBe('label-other-number');
    await scan('TRACK100000');
    expect(run.state.step.at).not.toBe('label');
    expect((await allParcels(store))[0]).toMatchObject({ label: 'TRACK100000', labelByEye: false });
  });

  it('is checked by eye and keeps the number that was bought', async () => {
    await upToLabel(run, now);
    desk.start();
    await until('answered');
    await give(run, 'next');
    await confirm();
    expect((await allParcels(store))[0]).toMatchObject({ label: 'TRACK100000', labelByEye: true });
  });

  it('goes on without an answer as ever; what is answered later is told as bought and unused', async () => {
    receiver.next.push({ do: 'hang' });
    await upToLabel(run, now);
    desk.start();
    await until('waiting', () => receiver.deliveries.length === 1);
    const first = run.state.run ?? '';
    await scan('OWN-LABEL-1');
    expect((await allParcels(store))[0]).toMatchObject({ label: 'OWN-LABEL-1' });
    expect(await labelRequestOf(store, first, 1)).toMatchObject({ state: 'withdrawn' });
    await new Promise((soon) => setTimeout(soon, 1200));
    expect(receiver.deliveries).toHaveLength(1);
  });

  it('is asked for anew under another key where what is paid became another, and the one before is not used', async () => {
    await upToLabel(run, now);
    desk.start();
    await until('answered');
    const before = await request();
    const ceiling = run.state.progress[0]?.weighing?.verdict.ceiling ?? 0;
    await give(run, 'back');
    await onBackTo('weigh');
    await weighDearer(ceiling);
    await until('answered', () => receiver.deliveries.length === 2);
    const [one, two] = receiver.deliveries;
    expect(two?.key).toBe(`${one?.key ?? ''}/2`);
    expect(two?.body.replaces).toBe(one?.key);
    expect(two?.body.postage.minor).toBeGreaterThan(one?.body.postage.minor ?? 0);
    const rows = await listLabelRequests(store, 10);
    expect(rows.find(({ id }) => id === before?.id)?.state).toBe('unused');
  });

  it('is not needed when its order is set aside: nothing more is sent', async () => {
    await receiver.stop();
    await upToLabel(run, now);
    const { run: id } = run.state;
    await run.apply({ type: 'command', command: 'set-aside', by: 'touch', reason: 'other' });
    await confirm();
    expect(await labelRequestOf(store, id ?? '', 1)).toMatchObject({ state: 'withdrawn' });
  });
});

async function onBackTo(step: string): Promise<void> {
  for (let guard = 0; run.state.step.at !== step && guard < 10; guard++) await give(run, 'back');
}

/** The same parcel, so heavy that the next bracket is paid. */
async function weighDearer(heavy: number): Promise<void> {
  const mass = massFromBase(Math.round(heavy * 1.3));
  const division = massFromGrams(1);
  const reading = { mass, unit: 'g', places: 0, division, stability: 'still', net: false, condition: 'ok' } as const;
  await run.apply({ type: 'reading', reading: { ...reading, at: now } });
  for (let guard = 0; run.state.step.at === 'decide' && guard < 6; guard++) {
    const because = run.state.step.because;
    await give(run, because === 'mismatch' ? 'next' : 'pay-next-bracket');
    await run.apply({ type: 'command', command: 'confirm', by: 'voice' });
  }
  await onTo(run, 'label');
}

describe('a receiver in trouble', () => {
  beforeEach(() => upToLabel(run, now));

  it('that is down is tried again with growing waits, given up at last, and sent again by hand under the same key', async () => {
    await receiver.stop();
    desk.start();
    await until('dead');
    expect(await request()).toMatchObject({ attempts: 4, why: 'no-connection' });
    await receiver.start();
    expect(await desk.sendAgain((await request())?.key ?? '')).toBe('sent');
    await until('answered');
    expect(receiver.deliveries[0]?.key).toBe((await request())?.key);
  });

  it('that fails for a while is tried again with the same bytes; one that refuses is not asked again by itself', async () => {
    receiver.next.push({ do: 'status', status: 500 }, { do: 'status', status: 429 });
    receiver.next.push({ do: 'status', status: 422, body: '{"message":"no such service"}' });
    desk.start();
    await until('dead');
    expect(receiver.deliveries.map(({ attempt }) => attempt)).toEqual([1, 2, 3]);
    expect(new Set(receiver.deliveries.map(({ text }) => text)).size).toBe(1);
    expect(await request()).toMatchObject({ why: 'status', answer: 'HTTP 422 {"message":"no such service"}' });
  });

  it('that takes the request and does not answer in time sells one label, whatever it is sent again', async () => {
    receiver.next.push({ do: 'hang' }, { do: 'drop' });
    desk.start();
    await until('answered');
    expect(receiver.deliveries).toHaveLength(3);
    expect(new Set(receiver.deliveries.map(({ key }) => key)).size).toBe(1);
    expect(receiver.sold.size).toBe(1);
  });

  it('that answers junk, markup and bytes without end is given up, and nothing is stored of it', async () => {
    receiver.next.push({ do: 'junk', body: '{"trackingNumber":' });
    receiver.next.push({ do: 'junk', body: '<html>Welcome</html>', type: 'text/html' });
    receiver.next.push({ do: 'answer', body: { label: { type: 'pdf', data: 'AAAA' } } }, { do: 'flood' });
    desk.start();
    await until('dead');
    expect(await request()).toMatchObject({ why: 'too-large', tracking: null, label: null, attempts: 4 });
    await scan('OWN-LABEL-1');
    expect((await allParcels(store))[0]).toMatchObject({ label: 'OWN-LABEL-1' });
  });

  it('that sends elsewhere is not followed', async () => {
    const other = new LabelReceiver(SECRET, () => now);
    await other.start();
    receiver.always = { do: 'redirect', to: other.url };
    desk.start();
    await until('dead');
    expect(await request()).toMatchObject({ why: 'redirect' });
    expect(other.deliveries).toHaveLength(0);
    expect(other.refused).toBe(0);
    await other.stop();
  });

  it('that answers twice is heard once', async () => {
    receiver.next.push({ do: 'twice', body: { trackingNumber: 'TWICE12345' } });
    desk.start();
    await until('answered');
    expect(await request()).toMatchObject({ tracking: 'TWICE12345' });
  });

  it('that sells a number which is on another parcel is not believed', async () => {
    receiver.sell = () => ({ trackingNumber: 'SAME123456' });
    desk.start();
    await until('answered');
    await scan('SAME123456');
    const second = benchRun({ store, shop: shops.current, clock, bench: 1 });
    const [order] = await openOrders(store, 1);
    await take(second, order?.order.id ?? '');
    await upToLabel(second, now);
    run = second;
    await until('dead');
    expect(await request()).toMatchObject({ why: 'number-used', tracking: null });
  });

  it('that takes it and says nothing is done with it: the label comes another way', async () => {
    receiver.next.push({ do: 'empty' });
    desk.start();
    await until('answered');
    expect(await request()).toMatchObject({ tracking: null, label: null });
    await scan('OWN-LABEL-1');
    expect((await allParcels(store))[0]).toMatchObject({ label: 'OWN-LABEL-1' });
  });
});

it('a server that is killed between sending and the answer sends again under the same key, and one label is sold', async () => {
  receiver.next.push({ do: 'hang' });
  await upToLabel(run, now);
  desk.start();
  await until('waiting', () => receiver.deliveries.length === 1);
  // What a killed process leaves: an attempt that was begun and nothing of how it ended.
  await desk.stop();
  expect(await request()).toMatchObject({ state: 'waiting', attempts: 1, tracking: null });
  desk = deskOf();
  desk.start();
  await until('answered');
  expect(receiver.deliveries.map(({ key }) => key)).toEqual([receiver.deliveries[0]?.key, receiver.deliveries[0]?.key]);
  expect(receiver.sold.size).toBe(1);
});

it('a clock that jumps back or on neither loses a request nor sends it without end', async () => {
  receiver.next.push({ do: 'status', status: 500 });
  await upToLabel(run, now);
  desk.start();
  await until('waiting', () => receiver.deliveries.length === 1);
  now -= 86_400_000;
  await until('answered');
  expect(receiver.deliveries).toHaveLength(2);
  expect(receiver.refused).toBe(0);
  const [first, second] = receiver.deliveries;
  expect((first?.timestamp ?? 0) - (second?.timestamp ?? 0)).toBeGreaterThan(80_000);
  now += 10 * 86_400_000;
  desk.kick();
  await new Promise((soon) => setTimeout(soon, 100));
  expect(receiver.deliveries).toHaveLength(2);
});

it('a wrong secret is refused and shown; a secret that others can read is not used, and the file is named', async () => {
  await upToLabel(run, now);
  const file = join(shops.folder, 'secret.txt');
  chmodSync(file, 0o644);
  desk.start();
  for (let guard = 0; desk.trouble === null && guard < 100; guard++) await new Promise((soon) => setTimeout(soon, 10));
  expect(desk.trouble).toBe(`file ${file}: expected permissions 0600, found 0644: others can read it`);
  expect(await request()).toMatchObject({ state: 'waiting', attempts: 0 });
  writeFileSync(file, 'another-secret-altogether');
  chmodSync(file, 0o600);
  await until('dead');
  expect(desk.trouble).toBeNull();
  expect(receiver.refused).toBe(1);
  writeFileSync(file, SECRET);
  await desk.sendAgain((await request())?.key ?? '');
  await until('answered');
});

it('a label that the bench can print is queued in the transaction of its answer, and is settled by its scan', async () => {
  const bytes = Buffer.from('\x1b@PRINT ME\n', 'latin1');
  receiver.sell = () => ({ trackingNumber: 'PRINTED123', label: { type: 'escpos', data: bytes.toString('base64') } });
  await upToLabel(run, now);
  desk.start();
  await until('answered');
  const jobs = () => printJobs(store, labelQueue('bench-1'), 5);
  expect(await jobs()).toEqual([expect.objectContaining({ state: 'queued', parcel: 0 })]);
  expect(Buffer.from((await request())?.label ?? [])).toEqual(bytes);
  await store.updateTable('print_job').set({ state: 'unknown' }).where('bench', '=', labelQueue('bench-1')).execute();
  await scan('PRINTED123');
  expect(await jobs()).toEqual([expect.objectContaining({ state: 'printed', why: 'scanned' })]);
});
