import { createServer, type AddressInfo, type Server, type Socket } from 'node:net';
import { SerialPort } from 'serialport';
import { afterAll } from 'vitest';
import { systemClock } from '#drivers/clock.ts';
import { createScaleDriver } from '#drivers/scale/scale-driver.ts';
import { transportFor } from '#drivers/transport/open.ts';
import type { TransportFactory } from '#drivers/transport/transport.ts';
import { massFromDecimal } from '#shared/units/mass.ts';
import type { Reading } from '#shared/weighing/types.ts';
import { ptyPair } from './pty-pair.ts';
import { until } from './until.ts';

export const TOLD_WITHIN_MS = 2000;
export const division = massFromDecimal('0.1', 'oz');
export const capacity = massFromDecimal('20', 'lb');
export const GOOD = 'ST,GS,+   15.9oz\r\n';
export const good = massFromDecimal('15.9', 'oz');
export const ends: (() => Promise<unknown>)[] = [];
// After all of a file, whose tests may run beside each other.
afterAll(async () => {
  for (const end of ends.splice(0).reverse()) await end();
});

export function driveScale(transport: TransportFactory, protocol: 'continuous' | 'sma' = 'continuous') {
  const readings: Reading[] = [];
  const driver = createScaleDriver({
    transport,
    protocol,
    division,
    capacity,
    clock: systemClock,
    onReading: (reading) => readings.push(reading),
    onHealth: () => undefined,
  });
  ends.push(() => driver.stop());
  driver.start();
  return { driver, readings, masses: () => readings.map((reading) => reading.mass) };
}

/** The far end of a serial line. */
export async function openFar(path: string): Promise<SerialPort> {
  const far = new SerialPort({ path, baudRate: 9600, autoOpen: false });
  far.on('error', () => undefined);
  await new Promise<void>((resolve, reject) => far.open((error) => (error === null ? resolve() : reject(error))));
  ends.push(() => new Promise<void>((resolve) => (far.isOpen ? far.close(() => resolve()) : resolve())));
  return far;
}
export const say = (far: SerialPort, words: string | Buffer): Promise<void> =>
  new Promise((resolve) => {
    far.write(words);
    far.drain(() => resolve());
  });

export async function serialScale() {
  const pair = await ptyPair();
  ends.push(() => pair.pull());
  const far = await openFar(pair.theirs);
  const driven = driveScale(transportFor({ kind: 'serial', path: pair.ours, baud: 9600 }));
  await until(() => driven.driver.trace().connections === 1, 'connected');
  return { pair, far, ...driven };
}

/** A device that does with its connections what the test says. */
export async function rawDevice(onSocket: (socket: Socket) => void) {
  const sockets = new Set<Socket>();
  const server: Server = createServer((socket) => {
    sockets.add(socket);
    socket.on('error', () => undefined);
    onSocket(socket);
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  ends.push(async () => {
    for (const socket of sockets) socket.destroy();
    await new Promise<void>((resolve) => server.close(() => resolve()));
  });
  return {
    transport: transportFor({ kind: 'tcp', host: '127.0.0.1', port: (server.address() as AddressInfo).port }),
    sockets,
  };
}
