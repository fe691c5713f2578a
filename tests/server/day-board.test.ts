import { io, type Socket } from 'socket.io-client';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { Deadlines } from '#server/office/day-board/deadlines.ts';
import { loadShop } from '#config/load.ts';
import { applyChange } from '#shared/day-board/apply-change.ts';
import { orderCode } from '#shared/codes/our-codes.ts';
import type { Order } from '#shared/planning/types.ts';
import type { DayBoard, DayChange, ServerToOffice } from '#shared/wire/day.ts';
import { BenchClient } from '#tests/support/bench-client.ts';
import { CONFIG } from '#tests/support/config-folder.ts';
import { serverOn } from '#tests/support/in-process-server.ts';
import { packNext } from '#tests/support/pack-order.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';

/** Wednesday, 10:00 in Duluth. */
let now = Date.parse('2026-11-25T16:00:00Z');
const data = temporaryFolder('day-board');
let server: Awaited<ReturnType<typeof serverOn>>;
let bench: BenchClient;
let screen: Socket<ServerToOffice>;
let board: DayBoard | null = null;
const changes: DayChange[] = [];

beforeAll(async () => {
  server = await serverOn(CONFIG, data.path, { now: () => now });
  bench = new BenchClient(server.url, 'bench-1');
  await bench.at('idle');
  screen = io(`${server.url}/office`, { transports: ['websocket'], forceNew: true });
  screen.on('day', (whole) => (board = whole));
  screen.on('day-change', (change) => {
    changes.push(change);
    if (board !== null) board = applyChange(board, change);
  });
});

afterAll(async () => {
  screen.disconnect();
  bench.close();
  await server.stop();
  data.remove();
});

async function until<Found>(look: (now: DayBoard) => Found | false | undefined | null, what: string): Promise<Found> {
  const end = Date.now() + 8000;
  for (;;) {
    const found = board === null ? null : look(board);
    if (found !== null && found !== undefined && found !== false) return found;
    if (Date.now() > end) throw new Error(`waited in vain for ${what}`);
    await new Promise((soon) => setTimeout(soon, 20));
  }
}

describe('the day, over its socket', () => {
  it('comes whole, every open order under its collection, in the order of their times', async () => {
    const whole = await until((each) => each.orders.length === 50 && each, 'the board');
    expect(whole.collections.reduce((sum, { waiting }) => sum + waiting, 0)).toBe(50);
    const keys = whole.collections.map(({ key }) => key);
    expect(keys).toEqual([...keys].sort());
    expect(whole.collections.some(({ carriers }) => carriers.some(({ en }) => en === 'Merrow Post'))).toBe(true);
    expect(whole).toMatchObject({ doneToday: 0, working: 1, pace: { orders: 0 } });
  });

  it('tells who packs what where as it happens, by what became different alone', async () => {
    await bench.simulate({ do: 'scan', text: server.shop.staff[1]?.badge ?? '' });
    await until((each) => each.benches[0]?.packer === 'Tobias', 'the packer');
    const [first] = await until((each) => each.orders, 'orders');
    changes.length = 0;
    await bench.simulate({ do: 'scan', text: orderCode(first?.id ?? '') });
    const row = await until((each) => each.orders.find(({ state }) => state === 'packing'), 'the order at the bench');
    expect(row).toMatchObject({ id: first?.id, bench: 'bench-1' });
    await until(
      ({ benches: [one] }) => one !== undefined && one.order === first?.id && one.step === 'gather',
      'its step',
    );
    expect(changes.length).toBeGreaterThan(0);
    expect(changes.every(({ changed }) => changed.length < 50)).toBe(true);
    await bench.input({ id: 'set-it-aside-1', type: 'command', command: 'set-aside', by: 'touch', reason: 'damaged' });
    await bench.until(({ view }) => view?.confirming !== null, 'being asked').catch(() => undefined);
    if (bench.view?.confirming !== null) await bench.command('confirm');
    const aside = await until((each) => each.orders.find(({ state }) => state === 'set-aside'), 'the order set aside');
    expect(aside).toMatchObject({ id: first?.id, reason: 'damaged', risk: null, chance: null });
  });

  it('shows a device in trouble, and that it works again', async () => {
    await bench.simulate({ do: 'unplug', device: 'scale' });
    const trouble = await until(
      ({ benches: [one] }) => one?.trouble.find(({ device }) => device === 'scale'),
      'the trouble',
    );
    expect(['lost', 'silent']).toContain(trouble.state);
    await bench.simulate({ do: 'plug', device: 'scale' });
    await until(({ benches: [one] }) => one?.trouble.length === 0, 'all devices back');
  });

  it('takes a packed order off, counts it, and sees orders grow late as the collection comes', async () => {
    const { order } = await packNext(bench);
    await until((each) => !each.orders.some(({ id }) => id === order) && each.doneToday === 1, 'the order gone');
    const next = board?.collections[0]?.key ?? '';
    now = Date.parse(next) - 60_000;
    // Anything stored makes the board anew.
    await bench.command('next');
    await until(({ orders }) => orders.filter(({ risk }) => risk === 'late').length > 0, 'late ones');
    now = Date.parse(next) + 1000;
    await bench.command('back');
    await until(({ collections: [one] }) => (one?.risks.missed ?? 0) > 0, 'missed ones');
  });
});

describe('when an order leaves', () => {
  const deadlines = new Deadlines(loadShop(CONFIG));
  const order = (shipBy: string, service?: string): Order => ({
    id: '1',
    pieces: [],
    buyer: '',
    address: [],
    to: { postcode: '', country: '' },
    shipBy,
    ...(service === undefined ? {} : { service }),
  });
  // Winter in Duluth is six hours behind UTC: 16:30 is 22:30 there.
  it.each([
    [
      'at the last collection before its ship-by time',
      order('2026-11-25T22:45:00Z'),
      '2026-11-25T22:30:00.000Z',
      ['merrow-post'],
    ],
    [
      'a collection at the very time counts',
      order('2026-11-25T22:30:00Z'),
      '2026-11-25T22:30:00.000Z',
      ['merrow-post'],
    ],
    [
      'of the carrier that was paid for',
      order('2026-11-26T00:00:00Z', 'light-parcel'),
      '2026-11-25T22:30:00.000Z',
      ['merrow-post'],
    ],
    ['at its own time where nobody comes before it', order('2026-11-25T15:00:00Z'), '2026-11-25T15:00:00.000Z', []],
  ])('%s', (_, given, at, carriers) => {
    expect(deadlines.of(given)).toEqual({ at, carriers });
  });
});
