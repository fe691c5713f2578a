import { mkdirSync } from 'node:fs';
import { dirname } from 'node:path';
import { describe, expect, test } from 'vitest';
import { systemClock } from '#drivers/clock.ts';
import { slipDocument } from '#drivers/printer/documents/slip.ts';
import { encode } from '#drivers/printer/encode.ts';
import { createMechanism } from '#drivers/printer/mechanism.ts';
import { createPrinterDriver } from '#drivers/printer/printer-driver.ts';
import { createScannerDriver } from '#drivers/scanner/scanner-driver.ts';
import { transportFor } from '#drivers/transport/open.ts';
import { PAPER_80, SLIP } from './printer/support.ts';
import { joinPair, ptyPair } from './support/pty-pair.ts';
import { pause, until } from './support/until.ts';

import { TOLD_WITHIN_MS, ends, openFar, rawDevice } from './support/fault-lines.ts';

/*
 * What goes wrong with lines and devices, each over a real pseudo-terminal or socket: no wrong weight, no lost or doubled
 * slip, the health told within two seconds, and recovery without a restart.
 */

describe('a scanner', () => {
  test('a line cut in the middle of a code: the half is dropped, the next code is read', async () => {
    const heard: string[] = [];
    const device = await rawDevice(() => undefined);
    const driver = createScannerDriver({
      transport: device.transport,
      clock: systemClock,
      onScan: (text) => heard.push(text),
      onHealth: () => undefined,
    });
    ends.push(() => driver.stop());
    driver.start();
    await until(() => driver.health().state === 'working', 'working');
    const [first] = device.sockets;
    first!.write('BFO-10');
    await until(() => driver.trace().bytes === 6, 'half a code');
    first!.destroy();
    await until(() => driver.health().state === 'lost', 'told', TOLD_WITHIN_MS);
    await until(() => driver.trace().connections === 2, 'connected again', 8000);
    [...device.sockets].at(-1)!.write('BFO-1048\r');
    await until(() => heard.length === 1, 'a code');
    expect(heard).toEqual(['BFO-1048']);
    expect(driver.discarded()).toBe(1);
  });
});

describe('a printer', () => {
  const slip = encode(slipDocument(SLIP), PAPER_80);

  test('that accepts and never reads: failed at once, and not a byte of the slip is in the line', async () => {
    const device = await rawDevice((socket) => socket.pause());
    const driver = createPrinterDriver({
      transport: device.transport,
      clock: systemClock,
      deadlineMs: 2000,
      onHealth: () => undefined,
    });
    ends.push(() => driver.stop());
    driver.start();
    await until(() => device.sockets.size > 0, 'connected');
    const began = Date.now();
    expect((await driver.print(slip)).outcome).toBe('failed');
    expect(driver.health().state).toBe('silent');
    expect(Date.now() - began).toBeLessThan(TOLD_WITHIN_MS);
  });

  test('that stops reading after the status: told, unknown at the deadline, and the rest is thrown away', async () => {
    let read = 0;
    let reading = false;
    const device = await rawDevice((socket) => {
      socket.on('data', (chunk: Buffer) => {
        if (chunk.length > 3) {
          read += chunk.length;
          if (!reading) socket.pause();
        } else socket.write(Uint8Array.of(0x12));
      });
    });
    const driver = createPrinterDriver({
      transport: device.transport,
      clock: systemClock,
      deadlineMs: 3500,
      onHealth: () => undefined,
    });
    ends.push(() => driver.stop());
    driver.start();
    await until(() => driver.health().state === 'working', 'working');
    // Far more than the socket's buffers hold.
    const long = new Uint8Array(8_000_000).fill(0x41);
    const printing = driver.print(long);
    await until(() => driver.health().state === 'silent', 'told', TOLD_WITHIN_MS);
    expect(await printing).toEqual({ outcome: 'unknown', why: 'no-acknowledgement' });
    const [first] = device.sockets;
    reading = true;
    first!.resume();
    await until(() => first!.destroyed, 'the old connection is gone');
    expect(read).toBeLessThan(long.length);
  });
});

// They wait for paper and for deadlines, each on a line of its own.
describe.concurrent('a printer on a serial line', () => {
  const slip = encode(slipDocument(SLIP), PAPER_80);

  async function serialPrinter(deadlineMs: number) {
    const pair = await ptyPair();
    ends.push(() => pair.pull());
    const far = await openFar(pair.theirs);
    // 1,200 bytes a second: a slip takes about a second.
    const mechanism = createMechanism({ bytesPerSecond: 1200 });
    mechanism.attach(far);
    const driver = createPrinterDriver({
      transport: transportFor({ kind: 'serial', path: pair.ours, baud: 115200 }),
      clock: systemClock,
      deadlineMs,
      onHealth: () => undefined,
    });
    ends.push(() => driver.stop());
    driver.start();
    await until(() => driver.health().state === 'working', 'working');
    return { pair, mechanism, driver };
  }

  test('unplugged during the print: unknown and told, and after the replug nothing comes by itself', async () => {
    const { pair, mechanism, driver } = await serialPrinter(8000);
    const printing = driver.print(slip);
    await pause(250);
    await pair.pull();
    await until(() => driver.health().state === 'lost', 'told', TOLD_WITHIN_MS);
    expect(await printing).toEqual({ outcome: 'unknown', why: 'link-lost' });
    mkdirSync(dirname(pair.ours), { recursive: true });
    const again = await joinPair(pair.ours, pair.theirs, dirname(pair.ours));
    ends.push(() => again.pull());
    const after = createMechanism({});
    after.attach(await openFar(pair.theirs));
    await until(() => driver.health().state === 'working', 'working again', 8000);
    await pause(600);
    expect(after.jobs()).toEqual([]);
    expect(mechanism.jobs().length).toBeLessThanOrEqual(1);
    expect(await driver.print(slip)).toMatchObject({ outcome: 'printed' });
    expect(after.jobs().map((job) => job.bytes.length)).toEqual([slip.length]);
  });

  test('paper runs out in the middle: unknown, told, and working again with a new roll', async () => {
    const { mechanism, driver } = await serialPrinter(8000);
    const printing = driver.print(slip);
    await pause(250);
    mechanism.setPaper('out');
    await until(() => driver.health().trouble === 'paper-out', 'told', TOLD_WITHIN_MS);
    expect(await printing).toEqual({ outcome: 'unknown', why: 'paper-out' });
    expect(driver.health()).toMatchObject({ state: 'attention', trouble: 'paper-out' });
    mechanism.setPaper('ok');
    await until(() => driver.health().state === 'working', 'working again', 3000);
    await until(() => mechanism.jobs().length === 1, 'the printer finishes what it had');
    expect(await driver.print(slip)).toMatchObject({ outcome: 'printed' });
    expect(mechanism.jobs().map((job) => job.bytes.length)).toEqual([slip.length, slip.length]);
  });

  test('a late acknowledgement of the first slip is not taken for that of the second', async () => {
    const { mechanism, driver } = await serialPrinter(8000);
    const first = driver.print(slip);
    await pause(250);
    mechanism.setPaper('out');
    expect((await first).outcome).toBe('unknown');
    mechanism.setPaper('ok');
    // The printer still has most of the first slip to print when the second is given.
    expect(await driver.print(slip)).toMatchObject({ outcome: 'printed' });
    expect(mechanism.jobs().map((job) => job.bytes.length)).toEqual([slip.length, slip.length]);
  });

  test('stopped in the middle of a print: the caller gets an answer, and it is not "printed"', async () => {
    const { driver } = await serialPrinter(8000);
    const printing = driver.print(slip);
    await pause(250);
    await driver.stop();
    expect((await printing).outcome).toBe('unknown');
    expect((await driver.print(slip)).outcome).toBe('failed');
  });

  test.each([
    ['at once', 0],
    ['after a moment', 900],
    ['after longer than it may be silent', 2500],
  ])(
    'the printer resets in the middle and answers again %s: told, unknown, then it prints, and nothing twice',
    async (_, startsForMs) => {
      const { mechanism, driver } = await serialPrinter(10_000);
      const printing = driver.print(slip);
      await pause(250);
      mechanism.reset(startsForMs);
      const told = (): boolean => ['silent', 'restarted'].some((each) => Object.values(driver.health()).includes(each));
      await until(told, 'told', TOLD_WITHIN_MS);
      expect(await printing).toEqual({ outcome: 'unknown', why: 'restarted' });
      expect(mechanism.jobs()).toEqual([]);
      expect(await driver.print(slip)).toMatchObject({ outcome: 'printed' });
      expect(mechanism.jobs().map(({ bytes }) => bytes.length)).toEqual([slip.length]);
      await until(() => driver.health().state === 'working', 'working again', 4000);
    },
  );

  test('a long document on a slow printer is asked about again and again, and is printed all the same', async () => {
    const { mechanism, driver } = await serialPrinter(10_000);
    const long = new Uint8Array([...slip, ...slip]);
    expect(await driver.print(long)).toEqual({ outcome: 'printed', why: 'printed' });
    expect(driver.health().state).toBe('working');
    expect(await driver.print(slip)).toMatchObject({ outcome: 'printed' });
    const lengths = mechanism.jobs().map(({ bytes }) => bytes.length);
    expect(lengths).toEqual([long.length, slip.length]);
  });

  test('deaf, then hearing again: failed before a byte of the slip left, told, and printed once when asked again', async () => {
    const { mechanism, driver } = await serialPrinter(8000);
    mechanism.setDeaf(true);
    expect((await driver.print(slip)).outcome).toBe('failed');
    await until(() => driver.health().state === 'silent', 'told', TOLD_WITHIN_MS);
    mechanism.setDeaf(false);
    await until(() => driver.health().state === 'working', 'working again', 8000);
    expect(await driver.print(slip)).toMatchObject({ outcome: 'printed' });
    expect(mechanism.jobs().map(({ bytes }) => bytes.length)).toEqual([slip.length]);
  });
});
