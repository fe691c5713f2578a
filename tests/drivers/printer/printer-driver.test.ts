import { SerialPort } from 'serialport';
import { afterEach, describe, expect, test } from 'vitest';
import { systemClock } from '#drivers/clock.ts';
import { slipDocument } from '#drivers/printer/documents/slip.ts';
import { encode } from '#drivers/printer/encode.ts';
import { interpret } from '#drivers/printer/interpret.ts';
import { createMechanism, type MechanismOptions } from '#drivers/printer/mechanism.ts';
import { plainText } from '#drivers/printer/paper.ts';
import { createPrinterDriver } from '#drivers/printer/printer-driver.ts';
import { startSimulatedPrinter } from '#drivers/printer/simulated-printer.ts';
import { transportFor } from '#drivers/transport/open.ts';
import type { TransportFactory } from '#drivers/transport/transport.ts';
import { ptyPair } from '../support/pty-pair.ts';
import { pause, until } from '../support/until.ts';
import { PAPER_80, SLIP } from './support.ts';

const slip = encode(slipDocument(SLIP), PAPER_80);
const ends: (() => Promise<unknown>)[] = [];
afterEach(async () => {
  for (const end of ends.splice(0).reverse()) await end();
});

function drive(transport: TransportFactory, deadlineMs = 2000) {
  const driver = createPrinterDriver({ transport, clock: systemClock, deadlineMs, onHealth: () => undefined });
  ends.push(() => driver.stop());
  driver.start();
  return driver;
}
async function connected(options: MechanismOptions = {}, deadlineMs = 2000) {
  const printer = await startSimulatedPrinter(options);
  ends.push(() => printer.stop());
  const driver = drive(transportFor({ kind: 'tcp', host: '127.0.0.1', port: printer.port }), deadlineMs);
  await until(() => driver.health().state === 'working', 'working');
  return { printer, driver };
}
/** 1,200 bytes a second: a slip takes about a second. */
const SLOW: MechanismOptions = { bytesPerSecond: 1200 };

describe('printing over TCP', () => {
  test('a slip is printed, acknowledged, and is the very bytes that were given', async () => {
    const { printer, driver } = await connected();
    expect(await driver.print(slip)).toEqual({ outcome: 'printed', why: 'printed' });
    expect(printer.jobs()).toHaveLength(1);
    expect(printer.jobs()[0]).toMatchObject({ whole: true });
    expect(plainText(interpret(printer.jobs()[0]!.bytes, PAPER_80))).toContain('Oddment & Thrum');
    expect(printer.jobs()[0]!.bytes).toEqual(slip);
  });
  test('two at once are printed one after the other', async () => {
    const { printer, driver } = await connected();
    const results = await Promise.all([driver.print(slip), driver.print(slip)]);
    expect(results.map((result) => result.outcome)).toEqual(['printed', 'printed']);
    expect(printer.jobs().map((job) => job.bytes.length)).toEqual([slip.length, slip.length]);
  });
  test('not connected: failed, nothing waits, nothing comes out later', async () => {
    const { printer, driver } = await connected();
    await printer.unplug();
    await until(() => driver.health().state === 'lost', 'lost', 2000);
    expect(await driver.print(slip)).toEqual({ outcome: 'failed', why: 'not-connected' });
    await printer.plug();
    await until(() => driver.health().state === 'working', 'working again', 6000);
    await pause(300);
    expect(printer.jobs()).toHaveLength(0);
  });
  test.each([
    ['paper out', 'paper-out', (printer: Awaited<ReturnType<typeof startSimulatedPrinter>>) => printer.setPaper('out')],
    [
      'cover open',
      'cover-open',
      (printer: Awaited<ReturnType<typeof startSimulatedPrinter>>) => printer.setCover(true),
    ],
  ] as const)('%s before printing: failed, nothing sent, health told', async (_, why, spoil) => {
    const { printer, driver } = await connected();
    spoil(printer);
    expect(await driver.print(slip)).toEqual({ outcome: 'failed', why });
    expect(driver.health()).toMatchObject({ state: 'attention', trouble: why });
    printer.setPaper('ok');
    printer.setCover(false);
    await until(() => driver.health().state === 'working', 'working again', 2500);
    expect(printer.jobs()).toHaveLength(0);
  });
  test('near the end of the roll it prints, and says so', async () => {
    const { printer, driver } = await connected();
    printer.setPaper('near-end');
    expect((await driver.print(slip)).outcome).toBe('printed');
    expect(driver.health()).toMatchObject({ state: 'attention', trouble: 'paper-near-end' });
  });
  test('paper runs out in the middle: unknown within a second, never printed again by itself', async () => {
    const { printer, driver } = await connected(SLOW, 8000);
    const result = driver.print(slip);
    await pause(200);
    printer.setPaper('out');
    const began = Date.now();
    expect(await result).toEqual({ outcome: 'unknown', why: 'paper-out' });
    expect(Date.now() - began).toBeLessThan(1000);
    printer.setPaper('ok');
    await pause(1500);
    // The printer finishes what it had; the driver adds nothing.
    expect(printer.jobs().length).toBeLessThanOrEqual(1);
  });
  test('the cable comes out in the middle: unknown', async () => {
    const { printer, driver } = await connected(SLOW, 8000);
    const result = driver.print(slip);
    await pause(200);
    await printer.unplug();
    expect(await result).toEqual({ outcome: 'unknown', why: 'link-lost' });
    await printer.plug();
    await until(() => driver.health().state === 'working', 'working again', 6000);
    await pause(300);
    expect(printer.jobs()).toHaveLength(1);
    expect(printer.jobs()[0]?.whole).toBe(false);
  });
  test('the printer resets in the middle: unknown long before the deadline', async () => {
    const { printer, driver } = await connected(SLOW, 8000);
    const result = driver.print(slip);
    await pause(200);
    printer.reset();
    const began = Date.now();
    expect(await result).toEqual({ outcome: 'unknown', why: 'restarted' });
    expect(Date.now() - began).toBeLessThan(2000);
    expect(driver.health()).toMatchObject({ state: 'attention', trouble: 'restarted' });
  });
  test('a printer that takes the bytes and answers nothing: failed before, unknown in the middle', async () => {
    const { printer, driver } = await connected({ bytesPerSecond: 5000 }, 1000);
    const begun = driver.print(slip);
    await pause(100);
    printer.setDeaf(true);
    expect(await begun).toMatchObject({ outcome: 'unknown' });
    await until(() => driver.health().state === 'silent', 'silent', 2000);
    const next = await driver.print(slip);
    expect(next.outcome).toBe('failed');
    printer.setDeaf(false);
    await until(() => driver.health().state === 'working', 'working again', 8000);
    expect(await driver.print(slip)).toMatchObject({ outcome: 'printed' });
  });
});

describe('printing over a serial line', () => {
  test('a slip is printed and acknowledged', async () => {
    const pair = await ptyPair();
    ends.push(() => pair.pull());
    const far = new SerialPort({ path: pair.theirs, baudRate: 115200 });
    ends.push(() => new Promise<void>((resolve) => (far.isOpen ? far.close(() => resolve()) : resolve())));
    const mechanism = createMechanism({});
    mechanism.attach(far);
    const driver = drive(transportFor({ kind: 'serial', path: pair.ours, baud: 115200 }));
    await until(() => driver.health().state === 'working', 'working');
    expect(await driver.print(slip)).toEqual({ outcome: 'printed', why: 'printed' });
    expect(mechanism.jobs()[0]!.bytes).toEqual(slip);
  });
});

test('a printer that answers nothing is sent the slip once, and nobody claims that it was printed', async () => {
  const pair = await ptyPair();
  ends.push(() => pair.pull());
  const far = new SerialPort({ path: pair.theirs, baudRate: 9600 });
  far.on('error', () => undefined);
  ends.push(() => new Promise<void>((resolve) => (far.isOpen ? far.close(() => resolve()) : resolve())));
  const heard: Buffer[] = [];
  far.on('data', (chunk: Buffer) => heard.push(chunk));
  const driver = createPrinterDriver({
    transport: transportFor({ kind: 'serial', path: pair.ours, baud: 9600 }),
    clock: systemClock,
    deadlineMs: 2000,
    onHealth: () => undefined,
    answers: false,
  });
  ends.push(() => driver.stop());
  expect(await driver.print(slip)).toEqual({ outcome: 'failed', why: 'not-connected' });
  driver.start();
  await until(() => driver.health().state === 'working', 'working');
  expect(await driver.print(slip)).toEqual({ outcome: 'unknown', why: 'never-answers' });
  await until(() => Buffer.concat(heard).length >= slip.length, 'the slip');
  await pause(1500);
  // Not a byte but the slip's own: a printer that answers nothing might print a question.
  expect(new Uint8Array(Buffer.concat(heard))).toEqual(slip);
  await pair.pull();
  await until(() => driver.health().state === 'lost', 'lost', 2000);
});
