import { createServer, type AddressInfo, type Socket } from 'node:net';
import { systemClock } from '#drivers/clock.ts';
import { slipDocument } from '#drivers/printer/documents/slip.ts';
import { encode } from '#drivers/printer/encode.ts';
import { interpret } from '#drivers/printer/interpret.ts';
import { createPrinterDriver } from '#drivers/printer/printer-driver.ts';
import { startSimulatedPrinter } from '#drivers/printer/simulated-printer.ts';
import { continuousDecoder } from '#drivers/scale/continuous.ts';
import { hidDecoder } from '#drivers/scale/hid-report.ts';
import { createScaleDriver } from '#drivers/scale/scale-driver.ts';
import { smaDecoder } from '#drivers/scale/sma.ts';
import { scanDecoder } from '#drivers/scanner/decoder.ts';
import { transportFor } from '#drivers/transport/open.ts';
import { massFromDecimal } from '#shared/units/mass.ts';
import { PAPER_80, SLIP, WARNING } from '../drivers/printer/support.ts';
import { until } from '../drivers/support/until.ts';
import { cameraDecoding } from './camera-decoding.ts';
import { cameraFirstRead } from './camera-first-read.ts';
import { fuzzDecoders } from './devices-fuzz.ts';
import { frameToScreen } from './frame-to-screen.ts';
import { atLeast, atMost, plain, type Figure } from './figure.ts';

const BENCH = 'devices';
const LOOPBACK = 'a TCP socket on this machine';
const division = massFromDecimal('0.1', 'oz');
const capacity = massFromDecimal('200', 'lb');

/** How long things take and how much they bear. */
export async function bench({ frames = 1_000_000, garbageSeconds = 60 } = {}): Promise<readonly Figure[]> {
  return [
    ...(await frameToScreen()),
    ...(await frameToReading()),
    ...decodeRates(),
    ...fuzzDecoders(frames),
    ...(await garbage(garbageSeconds)),
    ...(await printing()),
    ...(await cameraDecoding()),
    ...(await cameraFirstRead()),
  ];
}

/** A socket server with one far end. */
async function farEnd() {
  let connected: (socket: Socket) => void = () => undefined;
  const socket = new Promise<Socket>((resolve) => (connected = resolve));
  const server = createServer({ noDelay: true }, (each) => {
    each.on('error', () => undefined);
    connected(each);
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  return { socket, port: (server.address() as AddressInfo).port, close: () => server.close() };
}

/** From the write at the far end to the reading in the driver. */
async function frameToReading(): Promise<readonly Figure[]> {
  const { socket, port, close } = await farEnd();
  const times: number[] = [];
  let sentAt = 0;
  let arrived: () => void = () => undefined;
  const driver = createScaleDriver({
    transport: transportFor({ kind: 'tcp', host: '127.0.0.1', port }),
    protocol: 'continuous',
    division,
    capacity,
    clock: systemClock,
    onReading() {
      times.push(performance.now() - sentAt);
      arrived();
    },
    onHealth: () => undefined,
  });
  driver.start();
  const far = await socket;
  await until(() => driver.trace().connections === 1, 'connected');
  for (let turn = 0; turn < 2000; turn += 1) {
    const next = new Promise<void>((resolve) => (arrived = resolve));
    sentAt = performance.now();
    far.write(`ST,GS,+${(turn / 10).toFixed(1).padStart(7)}oz\r\n`);
    await next;
  }
  await driver.stop();
  far.destroy();
  close();
  times.sort((a, b) => a - b);
  const at = (share: number): number => times[Math.floor(times.length * share)] ?? Number.NaN;
  return [
    atMost({ bench: BENCH, name: 'frame to reading, p99', value: at(0.99), unit: 'ms', goal: 20, against: LOOPBACK }),
    plain({ bench: BENCH, name: 'frame to reading, p50', value: at(0.5), unit: 'ms', against: LOOPBACK }),
  ];
}

/** How many a second each decoder takes, in chunks as a socket gives them. */
function decodeRates(): readonly Figure[] {
  const latin1 = (text: string): Uint8Array => new Uint8Array(Buffer.from(text, 'latin1'));
  const bulk = (frame: string): Uint8Array => latin1(frame.repeat(500));
  const slip = encode(slipDocument({ ...SLIP, warning: WARNING }), PAPER_80);
  const report = Uint8Array.of(3, 4, 11, 0xff, 0x34, 0x19);
  const cases: readonly (readonly [string, number, () => void])[] = [
    ['continuous frames', 500, feeder(continuousDecoder(), bulk('ST,GS,+   15.9oz\r\n'))],
    ['SMA replies', 500, feeder(smaDecoder(), bulk('\n 1G        15.9oz_\r'))],
    ['HID reports', 1, feeder(hidDecoder(), report)],
    ['scans', 500, feeder(scanDecoder(), bulk('BFO-1047\r'))],
    ['slips read back', 1, () => void interpret(slip, PAPER_80)],
    ['slips encoded', 1, () => void encode(slipDocument({ ...SLIP, warning: WARNING }), PAPER_80)],
  ];
  return cases.map(([name, each, run]) => {
    for (let warm = 0; warm < 20; warm += 1) run();
    const began = performance.now();
    let turns = 0;
    while (performance.now() - began < 400) {
      run();
      turns += 1;
    }
    const value = Math.round((turns * each * 1000) / (performance.now() - began));
    // A device sends some ten frames a second; a hundred benches with three devices each still fit.
    return atLeast({
      bench: BENCH,
      name: `${name} per second`,
      value,
      unit: '1/s',
      goal: name.startsWith('slips') ? 50 : 3000,
      against: 'one core of this machine',
    });
  });
}
function feeder(decoder: { push(chunk: Uint8Array, at: number): unknown }, chunk: Uint8Array): () => void {
  return () => void decoder.push(chunk, 0);
}

/** Noise as fast as the line takes it. */
async function garbage(seconds: number): Promise<readonly Figure[]> {
  const { socket, port, close } = await farEnd();
  let readings = 0;
  const told: number[] = [];
  let began = 0;
  const driver = createScaleDriver({
    transport: transportFor({ kind: 'tcp', host: '127.0.0.1', port }),
    protocol: 'continuous',
    division,
    capacity,
    clock: systemClock,
    onReading: () => (readings += 1),
    onHealth: (health) => {
      if (health.state === 'faulty') told.push(performance.now() - began);
    },
  });
  driver.start();
  const far = await socket;
  await until(() => driver.trace().connections === 1, 'connected');
  const noise = Buffer.alloc(65_536);
  let seed = 99;
  for (let at = 0; at < noise.length; at += 1) {
    seed = (Math.imul(seed, 1_103_515_245) + 12_345) & 0x7fffffff;
    noise[at] = (seed >> 16) & 0xff;
  }
  globalThis.gc?.();
  const heapBefore = process.memoryUsage().heapUsed;
  began = performance.now();
  while (performance.now() - began < seconds * 1000) {
    if (!far.write(noise)) await new Promise<void>((resolve) => far.once('drain', () => resolve()));
  }
  const { bytes } = driver.trace();
  globalThis.gc?.();
  const grown = (process.memoryUsage().heapUsed - heapBefore) / 1e6;
  far.write('\r\nST,GS,+   15.9oz\r\nST,GS,+   15.9oz\r\n');
  const during = readings;
  const recovered = await until(() => driver.health().state === 'working', 'working again', 10_000);
  await driver.stop();
  far.destroy();
  close();
  const against = `${seconds} s of noise on ${LOOPBACK}`;
  return [
    atMost({ bench: BENCH, name: 'weights out of noise', value: during, unit: 'weights', goal: 0, against }),
    atMost({
      bench: BENCH,
      name: 'noise told after',
      value: told[0] ?? Number.POSITIVE_INFINITY,
      unit: 'ms',
      goal: 2000,
      against,
    }),
    atMost({ bench: BENCH, name: 'heap grown by noise', value: grown, unit: 'MB', goal: 50, against }),
    atMost({ bench: BENCH, name: 'good again after noise', value: recovered, unit: 'ms', goal: 2000, against }),
    plain({ bench: BENCH, name: 'noise taken', value: bytes / 1e6, unit: 'MB', against }),
  ];
}

/** From the call to the acknowledged slip, at the printer's own pace. */
async function printing(): Promise<readonly Figure[]> {
  const printer = await startSimulatedPrinter();
  const driver = createPrinterDriver({
    transport: transportFor({ kind: 'tcp', host: '127.0.0.1', port: printer.port }),
    clock: systemClock,
    deadlineMs: 5000,
    onHealth: () => undefined,
  });
  driver.start();
  await until(() => driver.health().state === 'working', 'working');
  const slip = encode(slipDocument(SLIP), PAPER_80);
  const times: number[] = [];
  let certain = 0;
  for (let turn = 0; turn < 30; turn += 1) {
    const began = performance.now();
    if ((await driver.print(slip)).outcome === 'printed') certain += 1;
    times.push(performance.now() - began);
  }
  const lostOrDoubled = Math.abs(printer.jobs().length - certain);
  await driver.stop();
  await printer.stop();
  times.sort((a, b) => a - b);
  const against = 'a simulated printer of 20 kB/s';
  return [
    atMost({
      bench: BENCH,
      name: 'slip acknowledged, p50',
      value: times[15] ?? Number.NaN,
      unit: 'ms',
      goal: 1000,
      against,
    }),
    atMost({ bench: BENCH, name: 'slips lost or doubled', value: lostOrDoubled, unit: 'slips', goal: 0, against }),
  ];
}
