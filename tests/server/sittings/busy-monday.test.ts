import { randomUUID } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { Running } from '#server/server.ts';
import { LEASE_MS } from '#server/store/leases.ts';
import { orderCode } from '#shared/codes/our-codes.ts';
import { cueOf } from '#shared/voice/cue.ts';
import type { CombiningView } from '#shared/wire/combining.ts';
import type { HandOverView, Sheet } from '#shared/wire/hand-over.ts';
import type { ImportPreview } from '#shared/wire/office.ts';
import type { BenchView } from '#shared/wire/views.ts';
import { BenchClient } from '#tests/support/bench-client.ts';
import { copyOfConfig, removeConfigFolders } from '#tests/support/config-folder.ts';
import { serverOn } from '#tests/support/in-process-server.ts';
import { packNext, packOn } from '#tests/support/pack-order.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';

/*
 * One day of the demo shop from the first order to the hand-over: fifty orders wait, two benches pack at once, and what
 * can go wrong on a Monday does.
 */
const data = temporaryFolder('busy-monday');
const config = copyOfConfig();
let later = 0;
let running: Running & { readonly url: string };
let one: BenchClient;
let two: BenchClient;

beforeAll(async () => {
  running = await serverOn(config, data.path, { now: () => Date.now() + later });
  [one, two] = [new BenchClient(running.url, 'bench-1'), new BenchClient(running.url, 'bench-2')];
  await Promise.all([one.at('idle'), two.at('idle')]);
});

afterAll(async () => {
  one.close();
  two.close();
  await running.stop();
  data.remove();
  removeConfigFolders();
});

async function post<Answer>(path: string, body: unknown): Promise<Answer> {
  const response = await fetch(`${running.url}/api${path}`, {
    method: 'POST',
    body: typeof body === 'string' ? body : JSON.stringify(body),
    headers: { 'content-type': 'application/json' },
  });
  expect([path, response.status]).toEqual([path, 200]);
  return (await response.json()) as Answer;
}

async function store(subject: 'pieces' | 'orders', ...lines: readonly string[]): Promise<void> {
  const { id } = await post<ImportPreview>(`/imports/${subject}/preview`, lines.join('\n'));
  await post(`/imports/${id}/apply`, '');
}

const scan = (bench: BenchClient, text: string) => bench.input({ id: randomUUID(), type: 'scan', text, by: 'scan' });
const told = (bench: BenchClient, code: string) =>
  bench.until(({ view }) => view?.notice?.code === code && view.notice, `being told ${code}`);
const slip = (state: BenchView['slip']) =>
  one.until(({ view }) => view?.slip === state && view, `a slip that is ${state}`);

/** The order of the README's tour, and the mass that is too close to its ceiling. */
function closeCall(): { readonly order: string; readonly mass: string } {
  const tour = readFileSync('README.md', 'utf8').replace(/\s+/g, ' ');
  const [, order = '', mass = ''] = /Write `(\d+)` .*?\*\*put on the scale\*\* ([\d.]+ oz)/.exec(tour) ?? [];
  return { order, mass };
}

/** Takes an order as it is typed and presses on until it is to be weighed. */
async function toWeigh(order: string): Promise<void> {
  await scan(one, order);
  await one.at('gather');
  for (let guard = 0; guard < 60 && one.view?.task.at !== 'weigh'; guard++) {
    const seq = one.view?.seq ?? 0;
    await one.command('next');
    await one.until(({ view }) => (view?.seq ?? 0) > seq, 'the next step');
  }
}

it('an order is finished beside a printer without paper and a scale that creeps and is unplugged, while the other bench packs', async () => {
  const beside = packNext(two);
  const { order, mass } = closeCall();
  await toWeigh(order);
  await one.simulate({ do: 'paper', state: 'out' });
  await one.simulate({ do: 'drift', mass: '0.3 oz' });
  await one.until(({ live }) => live?.needsZeroing, 'the word that the zero has moved');
  // Creeping on, it is more than any pan is off: judged, but never by itself.
  await one.simulate({ do: 'drift', mass: '0.6 oz' });
  await one.until(({ view }) => view?.task.at === 'decide' && view.task.because === 'mismatch', 'a doubt');
  expect(one.view?.slip).toBe('none');
  await one.command('zero-scale');
  await one.at('weigh');
  // A scale takes no zero while its pan is touched.
  await one.until(({ live }) => live?.reading?.mass === 0, 'the zero');
  await one.emptyPan();

  await one.simulate({ do: 'unplug', device: 'scale' });
  await one.until(({ live }) => live?.reading === null, 'no reading any more');
  await one.simulate({ do: 'plug', device: 'scale' });
  await one.emptyPan();
  await one.simulate({ do: 'put-mass', mass });
  await one.until(({ view }) => view?.task.at === 'decide' && view.task.because === 'close', 'a close call');
  await one.command('pay-next-bracket');
  await one.command('confirm');
  await one.at('seal');
  expect((await slip('failed')).notice?.code).toBe('print-failed');

  // Nobody prints it twice by mistake: it is asked first, and the printer is still empty.
  await one.command('print-again');
  await one.until(({ view }) => view?.confirming?.command === 'print-again', 'the question');
  await one.command('cancel');
  await one.command('next');
  await one.at('label');
  await scan(one, await one.offered('the label'));
  const done = await one.at('done');
  expect(done.slip).toBe('failed');
  expect(cueOf(done).full).toContain('The slip did not print.');

  await one.simulate({ do: 'paper', state: 'ok' });
  await one.command('print-again');
  await one.until(({ view }) => view?.confirming?.command === 'print-again', 'the question again');
  await one.command('confirm');
  const printed = await slip('printed');
  expect(cueOf(printed).full).not.toContain('did not print');
  await one.until(({ offers }) => offers?.slips.length === 1, 'one slip and no other');
  expect((await beside).order).not.toBe(done.order?.id);
}, 60_000);

it('what a buyer cancels comes to no bench, two orders of one buyer are packed as one, and an empty shelf is planned without', async () => {
  await post('/orders/4116/cancel', {});
  await scan(one, orderCode('4116'));
  expect((await told(one, 'order-not-open')).values).toMatchObject({ order: '4116' });

  await store('pieces', 'sku,title,kind,size,cloth', 'BM-1,Tee,t-shirt,M,jersey', 'BM-2,Tee,t-shirt,M,jersey');
  const line = (at: string) => `${at},BM-${at.slice(-1)},Di Dot,5 Rose Lane,Duluth,MN,55802,US,+1h`;
  await store('orders', 'order,sku,buyer,street,city,region,postcode,country,ship by', line('8001'), line('8002'));
  const pair = { orders: ['8001', '8002'] };
  expect((await post<CombiningView>('/combining', pair)).taken).toMatchObject([pair]);

  await scan(one, orderCode('8002'));
  const planned = await one.at('gather');
  expect(planned.order?.pieces.map(({ sku }) => sku)).toEqual(['BM-1', 'BM-2']);
  const gone = planned.container?.id ?? '';
  await one.command('back');
  await one.at('idle');
  await post(`/supplies/${gone}`, {
    kind: 'counted',
    amount: '0',
    in: 'unit',
    reason: 'the shelf is empty',
    who: null,
  });
  await scan(one, orderCode('8001'));
  expect((await one.at('gather')).container?.id).not.toBe(gone);
}, 30_000);

it('a bench that falls silent in an order loses nothing: the other one is told where it is, then goes on with it', async () => {
  await two.command('next');
  const { order } = await two.at('gather');
  const id = order?.id ?? '';
  const packed = await packOn(one);
  expect(packed.labels).toHaveLength(1);

  await scan(one, orderCode(id));
  expect((await told(one, 'order-taken-elsewhere')).values).toMatchObject({ order: id, bench: 'Bench 2' });
  two.close();
  later += LEASE_MS + 1;
  await scan(one, orderCode(id));
  expect((await told(one, 'bench-silent')).values).toMatchObject({ bench: 'Bench 2' });
  await scan(one, orderCode(id));
  expect((await one.at('gather')).order?.id).toBe(id);
  expect((await packOn(one)).order).toBe(id);
}, 30_000);

it('in the evening every parcel of the day is loaded and leaves', async () => {
  const { carriers } = (await (await fetch(`${running.url}/api/hand-over`)).json()) as HandOverView;
  const loaded = await Promise.all(
    carriers
      .filter(({ missing }) => missing.length > 0)
      .map(async ({ carrier, missing }) => {
        for (const { order, label } of missing)
          await post(`/hand-over/${carrier}/scan`, { text: label ?? orderCode(order) });
        return post<Sheet>(`/hand-over/${carrier}/close`, { by: 'maren', leave: 0 });
      }),
  );
  const parcels = await running.store.selectFrom('parcel').select('id').execute();
  expect(loaded.reduce((sum, { count }) => sum + count, 0)).toBe(parcels.length);
  const left = await running.store.selectFrom('shop_order').select('id').where('state', '=', 'packing').execute();
  expect(left).toEqual([]);
});
