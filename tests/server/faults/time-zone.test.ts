import { io } from 'socket.io-client';
import { afterAll, expect, it } from 'vitest';
import { ROUTES } from '#server/access/route-table.ts';
import { loadShop } from '#config/load.ts';
import { seedDemo } from '#server/office/demo.ts';
import { openOrders } from '#server/store/orders.ts';
import type { DayBoard, ServerToOffice } from '#shared/wire/day.ts';
import { CONFIG } from '#tests/support/config-folder.ts';
import { benchRun, finish, take } from '#tests/support/finish-run.ts';
import { serverOn } from '#tests/support/in-process-server.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';
import { openTestStore } from '#tests/support/test-store.ts';

const data = temporaryFolder('time-zone');
const own = process.env['TZ'];

/** As somebody sets the computer's own zone anew: this process looks at it each time. */
function setComputerTo(zone: string | undefined): void {
  if (zone === undefined) delete process.env['TZ'];
  else process.env['TZ'] = zone;
}

afterAll(() => {
  setComputerTo(own);
  data.remove();
});

/** Half past eleven at night in Duluth: elsewhere it is the next day, or the evening before. */
const NIGHT = Date.parse('2026-11-26T05:30:00Z');
const HOUR = 3_600_000;
let now = NIGHT;

/** Every answer that says something of the shop, by its route; what is about this very moment of the machine is left out. */
const ASKED = Object.keys(ROUTES).flatMap((route) => {
  const [method = '', path = ''] = route.split(' ');
  const machines =
    /\/(diagnostics.zip|privacy|speech|voices|ports|usb-scales|scale-finding|openapi.json|asyncapi.json|devices|access|changes)\b/;
  return method === 'GET' && path.startsWith('/api/') && !/[:*]/.test(path) && !machines.test(path) ? [path] : [];
});
const DAYS = ['/api/report', '/api/exports/parcels.csv', '/api/hand-over', '/api/supplies', '/api/orders'];
const QUERIES: Readonly<Record<string, string>> = {
  '/api/search': '?text=Merrow',
  '/api/report': '?by=day',
  '/api/exports/report.csv': '?by=day',
};

async function dayAt(url: string): Promise<DayBoard> {
  const socket = io(`${url}/office`, { transports: ['websocket'], forceNew: true });
  const board = await new Promise<DayBoard>((came) => socket.once('day' satisfies keyof ServerToOffice, came));
  socket.disconnect();
  return board;
}

async function answers(url: string): Promise<ReadonlyMap<string, string>> {
  const asked = ASKED.map(async (path): Promise<[string, string]> => {
    const answer = await fetch(`${url}${path}${QUERIES[path] ?? ''}`);
    return [path, `${String(answer.status)} ${await answer.text()}`];
  });
  const found = new Map(await Promise.all(asked));
  found.set('day', JSON.stringify(await dayAt(url)));
  const preview = await fetch(`${url}/api/imports/orders/preview`, {
    method: 'POST',
    headers: { 'content-type': 'text/csv' },
    body: 'order number,item code,name,address,town,state,zip,country,ship by date\n7001,OT-0427,Ida Tamberlow,2523 Larkspur Lane,Duluth,MN,55802,US,tomorrow\n7002,OT-0428,Ida Tamberlow,2523 Larkspur Lane,Duluth,MN,55802,US,2026-11-27\n7003,OT-0429,Ida Tamberlow,2523 Larkspur Lane,Duluth,MN,55802,US,+1h\n',
  });
  const { id: _, ...looked } = (await preview.json()) as { readonly id: string };
  found.set('preview', JSON.stringify(looked));
  return found;
}

async function packOne(): Promise<void> {
  const shop = loadShop(CONFIG);
  const clock = { now: () => now };
  const store = await openTestStore(data.path);
  await seedDemo(CONFIG, shop, store, clock);
  const run = benchRun({ store, shop, clock });
  const [first] = await openOrders(store, 1);
  await take(run, first?.order.id ?? '');
  await finish(run, now, 'L1');
  await store.destroy();
}

it('days are the shop’s, whatever zone its computer is set to, at the start or while it runs', async () => {
  setComputerTo('Pacific/Kiritimati');
  expect(new Date(NIGHT).getDate()).toBe(26);
  await packOne();
  let server = await serverOn(CONFIG, data.path, { now: () => now });

  const before = await answers(server.url);
  expect(before.get('day')).toContain('"doneToday":1');
  // Absolute as well: what is kept ready for a zone would be wrong the same way each time.
  expect(before.get('/api/exports/report.csv')).toContain('\n2026-11-25,2026-11-25,1,1,');
  expect(before.get('/api/rates/cards')).toContain('"day":"2026-11-25"');
  for (const path of DAYS) expect(before.get(path), path).toMatch(/^200 /);
  setComputerTo('America/Los_Angeles');
  expect(new Date(NIGHT).getDate()).toBe(25);
  expect(Object.fromEntries(await answers(server.url))).toEqual(Object.fromEntries(before));
  await server.stop();

  server = await serverOn(CONFIG, data.path, { now: () => now });
  expect(Object.fromEntries(await answers(server.url))).toEqual(Object.fromEntries(before));
  // The shop's midnight, which is none of that computer's.
  now += HOUR;
  await expect.poll(async () => (await dayAt(server.url)).doneToday).toBe(0);
  await server.stop();
});
