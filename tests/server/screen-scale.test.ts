import { io, type Socket } from 'socket.io-client';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { ScaleOffer } from '#shared/wire/screen-scale.ts';
import type { DevicesView } from '#shared/wire/devices.ts';
import { BenchClient } from '#tests/support/bench-client.ts';
import { copyOfConfig, edit, removeConfigFolders } from '#tests/support/config-folder.ts';
import { serverOn } from '#tests/support/in-process-server.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';
import { parseMass } from '#shared/units/mass.ts';

const data = temporaryFolder('screen-scale');
let server: Awaited<ReturnType<typeof serverOn>>;
let bench: BenchClient;
const sockets: Socket[] = [];

beforeAll(async () => {
  const config = copyOfConfig();
  edit(config, 'devices.yaml', 'transport: { kind: simulated }', 'transport: { kind: hid-on-screen }');
  edit(config, 'devices.yaml', 'protocol: continuous', 'protocol: hid');
  server = await serverOn(config, data.path);
  bench = new BenchClient(server.url, 'bench-1');
  await bench.at('idle');
});

afterAll(async () => {
  for (const socket of sockets) socket.disconnect();
  bench.close();
  await server.stop();
  data.remove();
  removeConfigFolders();
});

async function screen(of = 'bench-1'): Promise<{ socket: Socket; offer: () => Promise<ScaleOffer> }> {
  const socket = io(`${server.url}/scale`, { auth: { bench: of }, transports: ['websocket'], forceNew: true });
  sockets.push(socket);
  await new Promise<void>((resolve) => socket.on('connect', resolve));
  return { socket, offer: () => socket.timeout(2000).emitWithAck('opened') as Promise<ScaleOffer> };
}
/** Report 3 of usage page 0x8D: a stable weight in tenths of an ounce. */
const report = (tenths: number): Uint8Array => Uint8Array.of(3, 4, 11, 0xff, tenths & 0xff, tenths >> 8);
/** A scale sends again and again: what came before the driver was there again is no loss. */
function keepSending(socket: Socket, tenths: number): void {
  const timer = setInterval(() => socket.emit('report', report(tenths)), 50);
  socket.on('disconnect', () => clearInterval(timer));
}
const scaleIs = (state: string) => bench.until(({ devices }) => devices[0]?.state === state, state);

it('reports that a screen passes on are the bench’s weight; without the screen the scale is lost', async () => {
  expect(bench.view?.scaleOnScreen).toBe(true);
  expect(bench.devices[0]).toMatchObject({ device: 'scale', state: 'lost' });
  const first = await screen();
  // Before it was offered, and what is no report, nothing is taken.
  first.socket.emit('report', report(159));
  expect(await first.offer()).toBe('taken');
  for (const junk of ['03040BFF', 7, null, new Uint8Array(65), new Uint8Array(0), { length: 6 }]) {
    first.socket.emit('report', junk);
  }
  first.socket.emit('report', Uint8Array.of(3, 4, 99, 0xff, 1, 1));
  first.socket.emit('report', report(159));
  await bench.until(({ live }) => live?.reading?.mass === parseMass('15.9 oz'), 'the weight');
  expect(bench.live?.discarded).toBe(1);

  const second = await screen();
  expect(await second.offer()).toBe('held');
  second.socket.emit('report', report(480));
  first.socket.disconnect();
  await scaleIs('lost');
  expect(bench.live?.reading).toBeNull();
  expect(await second.offer()).toBe('taken');
  keepSending(second.socket, 480);
  await bench.until(({ live }) => live?.reading?.mass === parseMass('48 oz'), 'the weight of the second screen');
  second.socket.emit('gone');
  await scaleIs('lost');

  const other = await screen('bench-2');
  expect(await other.offer()).toBe('not-here');
  const view = (await (await fetch(`${server.url}/api/devices`)).json()) as DevicesView;
  expect(view.benches[0]?.devices[0]).toMatchObject({ onScreen: true, failure: 'unplugged at the screen' });
});
