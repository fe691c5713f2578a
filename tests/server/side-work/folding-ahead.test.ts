import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { Doors } from '#server/access/doors.ts';
import { foldedAheadAll } from '#server/store/folded-ahead.ts';
import { findOrder, saveOrder } from '#server/store/orders.ts';
import { containerCode, orderCode } from '#shared/codes/our-codes.ts';
import type { ChangesView } from '#shared/wire/audit.ts';
import type { OrderDetail } from '#shared/wire/search.ts';
import type { OrderPage } from '#shared/wire/office.ts';
import type { SideTask } from '#shared/wire/side-work.ts';
import type { BenchView } from '#shared/wire/views.ts';
import { BenchClient } from '#tests/support/bench-client.ts';
import { CONFIG } from '#tests/support/config-folder.ts';
import { serverOn } from '#tests/support/in-process-server.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';
import { openTestStore } from '#tests/support/test-store.ts';

const data = temporaryFolder('folding-ahead');
let server: Awaited<ReturnType<typeof serverOn>>;
let one: BenchClient;
let two: BenchClient;

async function start(): Promise<void> {
  server = await serverOn(CONFIG, data.path);
  one = new BenchClient(server.url, 'bench-1');
  two = new BenchClient(server.url, 'bench-2');
  await two.at('idle');
}

async function stop(): Promise<void> {
  one.close();
  two.close();
  await server.stop();
}

beforeAll(start);
afterAll(async () => {
  await stop();
  data.remove();
});

type Screen<Name> = Extract<SideTask, { screen: Name }>;

/** The task of a screen, once the bench shows it. */
const screenOf = <Name extends SideTask['screen']>(bench: BenchClient, name: Name): Promise<Screen<Name>> =>
  bench.until(({ view }) => {
    const task = view?.task;
    return task?.at === 'side' && task.screen === name && (task as Screen<Name>);
  }, `the screen ${name}`);

/** Says something and waits until the bench has moved. */
async function say(bench: BenchClient, command: Parameters<BenchClient['command']>[0]): Promise<BenchView> {
  const seq = bench.view?.seq ?? 0;
  expect(await bench.command(command)).toMatchObject({ ok: true });
  return bench.until(({ view }) => (view?.seq ?? 0) > seq && view, `a step after ${command}`);
}

const held = () => foldedAheadAll(server.store);
const choose = async (bench: BenchClient, option: string) => {
  await bench.input({ id: `choose-${option}-${String(Date.now())}`, type: 'choose', option });
};

const offered = (bench: BenchClient, text: string) =>
  bench.until(({ offers }) => offers?.codes.some((each) => each.text === text), `${text} among the codes`);

/** Chooses the container of most orders, once enough of them are planned. */
async function beginBatch(bench: BenchClient): Promise<string> {
  await bench.command('fold-ahead');
  // Just started, nothing is planned yet: the list that is shown fills by itself.
  const container = await bench.until(({ view }) => {
    const task = view?.task;
    return task?.at === 'side' && task.screen === 'containers' && task.choices[0]?.container;
  }, 'a container to fold for');
  // What the demo's hands can scan is what the bench asks for.
  await offered(bench, containerCode(container));
  await choose(bench, container);
  const piece = await bench.until(({ view }) => {
    const task = view?.task;
    return task?.at === 'side' && task.screen === 'fetch' && task.piece;
  }, 'a piece to fetch');
  await offered(bench, piece.sku);
  return container;
}

/** Folds what is at hand until its piece lies in its basket. */
async function foldPiece(bench: BenchClient): Promise<void> {
  const index = bench.view?.batch?.index;
  while (bench.view?.batch !== undefined && bench.view.batch.index === index) await say(bench, 'next');
}

describe('folding ahead, over real sockets', () => {
  it('holds the orders for this bench alone, walks along the shelves and draws each fold', async () => {
    const container = await beginBatch(one);
    const rows = await held();
    expect(rows.length).toBeGreaterThanOrEqual(2);
    expect(rows.every(({ state, bench }) => state === 'folding' && bench === 'bench-1')).toBe(true);
    expect(rows.map(({ basket }) => basket)).toEqual(rows.map((_, index) => index + 1));
    const view = one.view;
    expect(view?.batch).toMatchObject({ index: 0, of: rows.reduce((sum, { pieces }) => sum + pieces.length, 0) });
    expect(view?.seam.stitches).toHaveLength(view?.batch?.of ?? 0);
    // The other bench sees none of them, and cannot take one by its code.
    const waiting = await two.until(
      ({ view: other }) => other?.queue.every(({ id }) => !rows.some(({ order }) => order === id)) && other,
      'a queue without the batch',
    );
    expect(waiting.queue.length).toBeGreaterThan(0);
    await two.input({ id: 'take-from-a-batch', type: 'scan', text: orderCode(rows[0]?.order ?? ''), by: 'key' });
    await two.until(({ view: other }) => other?.notice?.code === 'order-being-folded', 'being told so');
    expect(server.shop.containers.has(container.split('+')[0] ?? '')).toBe(true);
    expect((await say(one, 'next')).task.at).toBe('look-over');
    const fold = await say(one, 'next');
    expect(fold.task).toMatchObject({ at: 'fold', told: 'step', step: 0 });
    expect(fold.task.at === 'fold' && fold.task.drawing.still.length).toBeGreaterThan(0);
  });

  it('stands at the exact step after the server was stopped, and a delivery that comes twice acts once', async () => {
    const before = one.view;
    await stop();
    await start();
    const after = await one.at('fold');
    expect([after.task, after.batch]).toEqual([before?.task, before?.batch]);
    const input = { id: 'the-same-delivery', type: 'command', command: 'next', by: 'touch' } as const;
    const first = await one.input(input);
    const seq = (await one.until(({ view }) => (view?.seq ?? 0) > after.seq && view, 'the step')).seq;
    expect(await one.input(input)).toEqual(first);
    await new Promise((soon) => setTimeout(soon, 100));
    expect(one.view?.seq).toBe(seq);
  });

  it('an order that is changed meanwhile leaves the batch with a word, and its row is gone', async () => {
    const rows = await held();
    const mine = one.view?.batch?.order;
    const other = rows.find(({ order }) => order !== mine)?.order ?? '';
    const stored = await findOrder(server.store, other);
    if (stored === null) throw new Error('no such order');
    await saveOrder(server.store, { ...stored.order, note: 'a changed note' }, Date.now());
    const told = await one.until(({ view }) => view?.notice?.code === 'left-batch' && view, 'being told');
    expect(told.notice?.values['order']).toBe(other);
    expect((await held()).map(({ order }) => order)).not.toContain(other);
    expect((await findOrder(server.store, other))?.state).toBe('open');
  });

  it('marks each order once all its pieces lie in its basket; whatever is not finished is free again', async () => {
    const { order } = one.view?.batch ?? { order: '' };
    // With two orders or more left, the first of them is folded and the batch is ended.
    while ((await held()).find((row) => row.order === order)?.state === 'folding') await foldPiece(one);
    if (one.view?.batch !== undefined) {
      await say(one, 'release');
      await new Promise((soon) => setTimeout(soon, 600));
      await say(one, 'confirm');
    }
    const { baskets } = await screenOf(one, 'folded');
    const rows = await held();
    expect(rows.map((row) => [row.order, row.basket, row.state])).toEqual(
      baskets.map((each) => [each.order, each.basket, 'folded']),
    );
    await one.command('print-list');
    const slips = await one.until(({ offers }) => (offers?.slips.length ?? 0) > 0 && offers?.slips, 'the list');
    const svg = slips[0]?.svg ?? '';
    expect(svg.replaceAll(/<[^>]+>/g, '')).toContain(order);
    await say(one, 'next');
    await one.at('idle');
  });

  it('the other bench packs it from its basket, without looking over and folding, and then the basket is free', async () => {
    const all = await held();
    const [row] = all;
    if (row === undefined) throw new Error('nothing is folded');
    await two.input({ id: 'take-the-folded-one', type: 'scan', text: orderCode(row.order), by: 'key' });
    const begun = await two.at('gather');
    expect(begun.order).toMatchObject({ id: row.order, lies: { at: 'basket', number: row.basket, folded: true } });
    expect(begun.notice).toMatchObject({ code: 'order-folded', values: { basket: String(row.basket) } });
    for (const { sku } of row.pieces) {
      await two.input({ id: `scan-${sku}-${String(Date.now())}`, type: 'scan', text: sku, by: 'key' });
    }
    await two.at('fill');
    await say(two, 'back');
    // Given back, it lies in its basket as before.
    await say(two, 'release');
    await new Promise((soon) => setTimeout(soon, 600));
    await say(two, 'confirm');
    expect(two.view?.notice).toMatchObject({ code: 'released', values: { basket: String(row.basket) } });
    expect(await held()).toEqual(all);
    await two.input({ id: 'take-it-once-more', type: 'scan', text: orderCode(row.order), by: 'key' });
    await two.at('gather');
    await two.input({ id: 'and-set-it-aside', type: 'command', command: 'set-aside', by: 'voice', reason: 'other' });
    await two.until(({ view }) => view?.confirming !== null, 'the question');
    await two.command('confirm');
    const aside = await two.until(
      ({ view }) => view?.notice?.code === 'set-aside-done' && view.notice.values['place'] !== undefined && view,
      'the place',
    );
    expect(aside.notice?.values).toMatchObject({ order: row.order, place: '1' });
    expect(await held()).toEqual(all.slice(1));
  });

  it('the set-aside shelf is listed with reason and place, printed, and taken up again', async () => {
    const [order] = (await server.store
      .selectFrom('shop_order')
      .select('id')
      .where('state', '=', 'set-aside')
      .execute()) as [{ readonly id: string }];
    await one.command('aside-list');
    const { choices } = await screenOf(one, 'aside');
    expect(choices).toMatchObject([{ order: order.id, reason: 'other', place: 1 }]);
    await say(one, 'next');
    await one.command('confirm');
    const begun = await one.at('gather');
    expect(begun.order).toMatchObject({ id: order.id, lies: { at: 'aside', number: 1 } });
    expect(begun.notice).toMatchObject({ code: 'order-was-aside', values: { place: '1' } });
  });

  it('the office gives the order of a bench to the others, once', async () => {
    const rows = async () => ((await (await fetch(`${server.url}/api/orders?count=500`)).json()) as OrderPage).rows;
    const [packing] = (await rows()).filter(({ state }) => state === 'packing');
    const release = (id: string, by: string | null) =>
      fetch(`${server.url}/api/orders/${id}/release`, {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify({ by }),
      });
    const order = packing?.id ?? '';
    // Nobody, and somebody who packs, may not.
    expect((await Promise.all([release(order, null), release(order, 'lucia')])).map(({ status }) => status)).toEqual([
      422, 422,
    ]);
    const answers = await Promise.all([release(order, 'tobias'), release(order, 'tobias')]);
    expect(answers.map(({ status }) => status).sort()).toEqual([200, 409]);
    const free = await one.at('idle');
    expect(free.notice).toMatchObject({ code: 'released-by-office', values: { order: packing?.id } });
    expect((await rows()).find(({ id }) => id === packing?.id)).toMatchObject({ state: 'open', bench: null });
    expect((await release('none-such', 'tobias')).status).toBe(404);
    const detail = (await (await fetch(`${server.url}/api/orders/${order}`)).json()) as OrderDetail;
    expect(detail.released).toMatchObject({ by: 'Tobias', from: 'office' });
    const { rows: changes } = (await (await fetch(`${server.url}/api/changes`)).json()) as ChangesView;
    expect(changes.filter(({ what, about }) => what === 'order-released' && about === order)).toMatchObject([
      { who: 'tobias', from: 'office', details: { bench: 'bench-1' } },
      // Before, its packer gave it back at the other bench.
      { from: 'bench', details: { bench: 'bench-2' } },
    ]);
  });
});

it('a bench that comes back does not go on with an order that was given to others meanwhile', async () => {
  await one.command('next');
  const { order } = await one.at('gather');
  await stop();
  const store = await openTestStore(data.path);
  await store
    .updateTable('shop_order')
    .set({ state: 'packing', bench: 'bench-2', run: 'another run' })
    .where('id', '=', order?.id ?? '')
    .execute();
  await store.destroy();
  await start();
  const view = await one.at('idle');
  expect(view.notice).toMatchObject({ code: 'released-by-office', values: { order: order?.id } });
});

it('what is begun in the moment after a badge was shown is begun by whoever showed it', async () => {
  // A store that takes its time over the badge.
  const slow = vi
    .spyOn(Doors.prototype, 'badge')
    .mockImplementation(() => new Promise((done) => setTimeout(done, 100)));
  try {
    const station = server.stations.get('bench-2');
    await two.at('idle');
    const badge = two.input({ id: 'badge-just-before', type: 'scan', text: 'STAFF-LUCIA-03', by: 'key' });
    await Promise.all([badge, two.command('aside-list')]);
    await screenOf(two, 'aside');
    expect(station?.side.state.person).toBe('lucia');
    await say(two, 'back');
    const other = two.input({ id: 'badge-before-practice', type: 'scan', text: 'STAFF-TOBIAS-02', by: 'key' });
    await Promise.all([other, two.command('practice')]);
    await two.at('practice');
    expect(station?.practice.state.person).toBe('tobias');
  } finally {
    slow.mockRestore();
  }
});
