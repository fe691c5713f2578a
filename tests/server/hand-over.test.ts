import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { labelIsUsed } from '#server/store/parcels.ts';
import { waitingParcels } from '#server/store/sacks.ts';
import { orderCode, sackCode } from '#shared/codes/our-codes.ts';
import type { Attention, HandOverView, SackScan, Sheet } from '#shared/wire/hand-over.ts';
import { BenchClient } from '#tests/support/bench-client.ts';
import { CONFIG } from '#tests/support/config-folder.ts';
import { serverOn } from '#tests/support/in-process-server.ts';
import { packNext, type PackedOrder } from '#tests/support/pack-order.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';

/** Wednesday noon in Duluth; a test turns it on. */
let now = Date.parse('2026-11-25T18:00:00Z');
const clock = { now: () => now };
const data = temporaryFolder('hand-over');
let server: Awaited<ReturnType<typeof serverOn>>;
let bench: BenchClient;
const packed: PackedOrder[] = [];

beforeAll(async () => {
  server = await serverOn(CONFIG, data.path, clock);
  bench = new BenchClient(server.url, 'bench-1');
  await bench.at('idle');
  for (let count = 0; count < 3; count++) packed.push(await packNext(bench));
}, 60_000);

afterAll(async () => {
  bench.close();
  await server.stop();
  data.remove();
});

const post = async (path: string, body: unknown) =>
  fetch(`${server.url}/api/${path}`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body),
  });
const json = async <Body>(answer: Promise<Response>): Promise<Body> => (await (await answer).json()) as Body;
const view = () => json<HandOverView>(fetch(`${server.url}/api/hand-over`));
const sackOf = async (carrier: string) => (await view()).carriers.find((each) => each.carrier === carrier);
const scan = (carrier: string, text: string) => json<SackScan>(post(`hand-over/${carrier}/scan`, { text }));
const waiting = async () => {
  const all = await waitingParcels(server.store);
  const labels = all.flatMap(({ label }) => (label === null ? [] : [label]));
  return { all, labels, carrier: all[0]?.carrier ?? '', other: '' };
};

describe('what was packed at the bench', () => {
  it('is missing from its carrier’s sack until each label is scanned; a duplicate counts once', async () => {
    const { all, labels, carrier } = await waiting();
    expect(labels).toHaveLength(all.length);
    const before = await sackOf(carrier);
    const own = all.filter((each) => each.carrier === carrier);
    expect(before).toMatchObject({ sack: null, collection: { day: '2026-11-25' }, inSack: [] });
    expect(before?.missing.map(({ order }) => order)).toEqual(own.map(({ order }) => order));

    const first = own[0]?.label ?? '';
    expect(await scan(carrier, first)).toMatchObject({ verdict: 'in', parcel: { label: first } });
    expect(await scan(carrier, first)).toMatchObject({ verdict: 'already-in' });
    // As the label itself has it, with the ship-to postcode in front.
    const text = packed.flatMap((each) => each.labels).find((each) => each.endsWith(first)) ?? '';
    expect(await scan(carrier, text)).toMatchObject({ verdict: 'already-in' });
    const after = await sackOf(carrier);
    expect(after?.inSack).toHaveLength(1);
    expect(after?.mass).toBe((own[0]?.reading ?? 0) + (own[0]?.toCome ?? 0));
    expect(after?.missing).toHaveLength(own.length - 1);
    expect(await scan(carrier, '9999999999')).toMatchObject({ verdict: 'not-known', parcel: null });
    expect((await scan(carrier, '\u0007\u0000')).verdict).toBe('not-known');
  });

  it('is refused in another carrier’s sack, and says where it goes', async () => {
    const { labels, carrier } = await waiting();
    const other = carrier === 'merrow-post' ? 'overfield-ground' : 'merrow-post';
    expect(await scan(other, labels[0] ?? '')).toMatchObject({ verdict: 'wrong-carrier', parcel: { carrier } });
    expect((await sackOf(other))?.inSack).toEqual([]);
    expect((await post('hand-over/nobody/scan', { text: 'x' })).status).toBe(404);
    expect((await post(`hand-over/${other}/close`, { by: null, leave: 0 })).status).toBe(409);
  });

  it('is loaded by the bench’s own scanner between orders, where a sack’s card opens the sack', async () => {
    const { labels, carrier } = await waiting();
    const other = carrier === 'merrow-post' ? 'overfield-ground' : 'merrow-post';
    await bench.simulate({ do: 'scan', text: sackCode(other) });
    await bench.until((client) => client.view?.notice?.code === 'sack-open' && client.view.sack != null, 'its sack');
    await bench.simulate({ do: 'scan', text: labels[1] ?? '' });
    const told = await bench.until(({ view: shown }) => shown?.notice?.tone === 'stop' && shown.notice, 'the refusal');
    expect(told).toMatchObject({ code: 'sack-wrong-carrier' });
    await bench.simulate({ do: 'scan', text: sackCode(carrier) });
    await bench.until((client) => client.view?.notice?.code === 'sack-open', 'the right sack');
    await bench.simulate({ do: 'scan', text: labels[1] ?? '' });
    await bench.until((client) => client.view?.notice?.code === 'sack-in', 'the parcel in the sack');
    // Its screen sends the same scan twice: it is told the same.
    const scanTwice = { id: 'the-same-scan-1', type: 'scan', text: labels[2] ?? '', by: 'key' } as const;
    expect(await bench.input(scanTwice)).toMatchObject({ ok: true });
    expect(await bench.input(scanTwice)).toMatchObject({ ok: true });
    await bench.until((client) => client.view?.sack?.missing === 0 && client.view.notice?.code === 'sack-in', 'all in');
    expect(await labelIsUsed(server.store, labels[2] ?? '')).toBe(true);
  });

  it('taken out it is missing again and cannot be closed over in silence; then the sheet has count and mass', async () => {
    const { all, labels, carrier } = await waiting();
    const own = all.filter((each) => each.carrier === carrier);
    const last = own.at(-1);
    await post(`hand-over/${carrier}/take-out`, { parcel: last?.id });
    const refused = await post(`hand-over/${carrier}/close`, { by: 'maren', leave: 0 });
    expect(refused.status).toBe(409);
    expect(await refused.text()).toContain(`${last?.order ?? '?'}/1`);
    // An order's code does as well as a label.
    expect(await scan(carrier, orderCode(last?.order ?? ''))).toMatchObject({ verdict: 'in' });
    now += 5 * 3_600_000;
    const sheet = await json<Sheet>(post(`hand-over/${carrier}/close`, { by: 'maren', leave: 0 }));
    expect(sheet).toMatchObject({ carrier, closedBy: 'Maren', closedAt: now, count: own.length });
    expect(sheet.mass).toBe(own.reduce((sum, { reading, toCome }) => sum + reading + toCome, 0));
    expect(sheet.parcels.map(({ label }) => label).sort()).toEqual([...labels].sort());
    expect((await post(`hand-over/${carrier}/close`, { by: 'maren', leave: 9 })).status).toBe(409);
    expect(await scan(carrier, labels[0] ?? '')).toMatchObject({ verdict: 'left-before' });
    expect((await post(`hand-over/${carrier}/take-out`, { parcel: last?.id })).status).toBe(409);

    const printed = await post(`hand-over/sheets/${String(sheet.id)}/print`, { bench: 'bench-1', language: 'es' });
    expect(await printed.json()).toMatchObject({ queued: true });
    const jobs = await server.store.selectFrom('print_job').select(['title', 'bytes']).execute();
    const paper = Buffer.from(jobs.at(-1)?.bytes ?? []).toString('latin1');
    expect(jobs.at(-1)?.title).toMatch(/^Entrega/);
    for (const { order } of own) expect(paper).toContain(order);
  });
});

describe('what was labelled and never handed over', () => {
  it('is chased the next morning, on the office’s start and at the bench, until it left or is kept back', async () => {
    const late = await packNext(bench);
    const attention = () => json<Attention>(fetch(`${server.url}/api/attention`));
    expect(await attention()).toMatchObject({ overdue: 0 });
    now = Date.parse('2026-11-26T14:00:00Z');
    expect((await attention()).overdue).toBe(late.labels.length);
    expect((await view()).overdue.map(({ order }) => order)).toContain(late.order);
    await bench.command('next');
    await bench.at('gather');
    await bench.command('back');
    await bench.until(
      (client) => client.view?.task.at === 'idle' && client.view.overdue === late.labels.length,
      'the chase',
    );
    for (const { id } of (await view()).overdue) {
      expect((await post(`hand-over/parcels/${String(id)}/keep`, { reason: '' })).status).toBe(400);
      await post(`hand-over/parcels/${String(id)}/keep`, { reason: 'the buyer cancelled' });
    }
    expect(await attention()).toMatchObject({ overdue: 0 });
    const [label = ''] = late.labels;
    const [kept] = await server.store.selectFrom('parcel').selectAll().where('stays', 'is not', null).execute();
    expect(await scan(kept?.carrier ?? '', label)).toMatchObject({ verdict: 'stays' });
  });
});
