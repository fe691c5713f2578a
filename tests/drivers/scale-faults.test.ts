import { mkdirSync } from 'node:fs';
import { dirname } from 'node:path';
import { describe, expect, test } from 'vitest';
import { createIndicator } from '#drivers/scale/indicator.ts';
import { settle, settleRulesFor, UNSETTLED, type SettleState } from '#drivers/scale/settle.ts';
import { transportFor } from '#drivers/transport/open.ts';
import { identifiedSerialTransport } from '#drivers/transport/serial.ts';
import type { SerialPortInfo } from '#drivers/transport/serial-ports.ts';
import { massFromDecimal } from '#shared/units/mass.ts';
import type { Reading } from '#shared/weighing/types.ts';
import { joinPair, ptyPair } from './support/pty-pair.ts';
import { pause, until } from './support/until.ts';

import {
  TOLD_WITHIN_MS,
  division,
  capacity,
  GOOD,
  good,
  ends,
  driveScale,
  openFar,
  say,
  serialScale,
} from './support/fault-lines.ts';

/*
 * What goes wrong with lines and devices, each over a real pseudo-terminal or socket: no wrong weight, no lost or doubled
 * slip, the health told within two seconds, and recovery without a restart.
 */

describe('a serial scale', () => {
  test('line cut in the middle of a frame, then back at the same path: told, not joined, recovered', async () => {
    const { pair, far, driver, masses } = await serialScale();
    await say(far, GOOD);
    await until(() => masses().length === 1, 'a reading');
    await say(far, 'ST,GS,+  9');
    await pause(50);
    const ours = pair.ours;
    const theirs = pair.theirs;
    await pair.pull();
    await until(() => driver.health().state !== 'working', 'told', TOLD_WITHIN_MS);
    mkdirSync(dirname(ours), { recursive: true });
    const again = await joinPair(ours, theirs, dirname(ours));
    ends.push(() => again.pull());
    const farAgain = await openFar(theirs);
    await until(() => driver.trace().connections === 2, 'reopened', 8000);
    await say(farAgain, '9.9oz\r\n');
    await say(farAgain, GOOD);
    await until(() => masses().length === 2, 'a reading again');
    expect(masses()).toEqual([good, good]);
    expect(driver.health().state).toBe('working');
  });

  test('half a frame, then a good one on the same line', async () => {
    const { far, driver, masses } = await serialScale();
    await say(far, `ST,GS,+  1.${GOOD}${GOOD}`);
    await until(() => masses().length > 0, 'a reading');
    expect(masses()).toEqual([good]);
    expect(driver.discarded()).toBe(1);
  });

  test('a minute of garbage: faulty within two seconds, no weight, bounded memory, recovery', async () => {
    const { far, driver, masses } = await serialScale();
    /** As many bytes as a line of 115,200 baud carries in a minute, ten bits each; this line takes them as fast as it can. */
    const MINUTE_AT_115200 = 691_200;
    const noise = Buffer.alloc(4096);
    let seed = 7;
    for (let at = 0; at < noise.length; at += 1) {
      seed = (seed * 1103515245 + 12345) & 0x7fffffff;
      noise[at] = (seed >> 16) & 0xff;
    }
    const before = process.memoryUsage().heapUsed;
    let toldAfter: number | null = null;
    const began = Date.now();
    while (driver.trace().bytes < MINUTE_AT_115200 || (toldAfter === null && Date.now() - began < TOLD_WITHIN_MS)) {
      await say(far, noise);
      if (driver.health().state === 'faulty') toldAfter ??= Date.now() - began;
    }
    expect(toldAfter).not.toBeNull();
    expect(toldAfter).toBeLessThan(TOLD_WITHIN_MS);
    expect(driver.health().trouble).toBe('garbage');
    expect(masses()).toEqual([]);
    expect(driver.trace().bytes).toBeGreaterThanOrEqual(MINUTE_AT_115200);
    expect(driver.trace().lastBytes.length).toBe(256);
    expect(process.memoryUsage().heapUsed - before).toBeLessThan(50_000_000);
    await say(far, `\r\n${GOOD}${GOOD}`);
    await until(() => driver.health().state === 'working', 'working again');
    expect(new Set(masses())).toEqual(new Set([good]));
  });

  test('silent but open: told within two seconds', async () => {
    const { far, driver } = await serialScale();
    await say(far, GOOD);
    await until(() => driver.health().state === 'working', 'working');
    expect(await until(() => driver.health().state === 'silent', 'silent', TOLD_WITHIN_MS)).toBeGreaterThan(1000);
    await say(far, GOOD);
    await until(() => driver.health().state === 'working', 'working again');
  });

  test('two megabytes without a line end: told, no weight, one frame discarded, recovery', async () => {
    const { far, driver, masses } = await serialScale();
    const began = Date.now();
    for (let part = 0; part < 32; part += 1) await say(far, Buffer.alloc(65_536, '8'));
    await until(() => driver.trace().bytes >= 32 * 65_536, 'all of it', 10_000);
    await until(
      () => driver.health().trouble === 'garbage',
      'told',
      Math.max(TOLD_WITHIN_MS - (Date.now() - began), 1),
    );
    await say(far, `\r\n${GOOD}`);
    await until(() => masses().length > 0, 'a reading', 10_000);
    expect(driver.health().state).toBe('working');
    expect(masses()).toEqual([good]);
    expect(driver.trace().bytes).toBeGreaterThan(2_000_000);
    expect(driver.discarded()).toBe(1);
  });

  test('a port that another program holds: told, and taken once it is free', async () => {
    const pair = await ptyPair();
    ends.push(() => pair.pull());
    const other = await openFar(pair.ours);
    const { driver } = driveScale(transportFor({ kind: 'serial', path: pair.ours, baud: 9600 }));
    await until(() => driver.health().trouble === 'cannot-open', 'told', TOLD_WITHIN_MS);
    await new Promise<void>((resolve) => other.close(() => resolve()));
    await until(() => driver.trace().connections === 1, 'connected', 8000);
  });

  test('a zero that was asked for while the line was away is not sent when it is back', async () => {
    const { pair, driver } = await serialScale();
    await pair.pull();
    await until(() => driver.health().trouble === 'link-lost', 'lost', TOLD_WITHIN_MS);
    expect(await driver.zero()).toBe('not-connected');
    mkdirSync(dirname(pair.ours), { recursive: true });
    const again = await joinPair(pair.ours, pair.theirs, dirname(pair.ours));
    ends.push(() => again.pull());
    const far = await openFar(pair.theirs);
    const heard: Buffer[] = [];
    far.on('data', (chunk: Buffer) => heard.push(chunk));
    await until(() => driver.trace().connections === 2, 'reopened', 8000);
    await pause(200);
    expect(Buffer.concat(heard).toString()).toBe('');
    expect(await driver.zero()).toBe('sent');
    await until(() => Buffer.concat(heard).toString() === 'Z\r\n', 'the zero that is meant');
  });

  test('two scales on one line: told, their mixed frames never settle, and one alone is believed again', async () => {
    const { far, driver, readings, masses } = await serialScale();
    const began = Date.now();
    let toldAfter: number | null = null;
    const rules = settleRulesFor(division);
    let state: SettleState = { ...UNSETTLED, stage: 'empty' };
    for (let turn = 0; turn < 20; turn += 1) {
      await say(far, turn % 2 === 0 ? 'ST,GS,+   15.9oz\r\n' : 'ST,GS,+   48.2oz\r\n');
      // Now and then their bytes run into each other.
      if (turn % 5 === 0) await say(far, 'ST,GS,+ST,GS,+   48  15.9oz\r\n.2oz\r\n');
      await pause(25);
      if (driver.health().trouble === 'contradiction') toldAfter ??= Date.now() - began;
    }
    expect(toldAfter).not.toBeNull();
    expect(toldAfter).toBeLessThan(TOLD_WITHIN_MS);
    await until(() => driver.trace().good >= 20, 'all of them read', 10_000);
    for (const reading of readings) {
      const step = settle(rules, state, reading);
      state = step.state;
      expect(step.event).toBeNull();
    }
    expect(new Set(masses())).toEqual(new Set([good, massFromDecimal('48.2', 'oz')]));
    // The other one is taken off the line.
    const before = readings.length;
    while (driver.health().state !== 'working' && Date.now() - began < 8000) {
      await say(far, GOOD);
      await pause(100);
    }
    expect(driver.health().state).toBe('working');
    expect(new Set(masses().slice(before))).toEqual(new Set([good]));
  });

  test('units changed in the middle of a weighing: every reading is in its own unit, and the load is still the same', async () => {
    const pair = await ptyPair();
    ends.push(() => pair.pull());
    const far = await openFar(pair.theirs);
    const indicator = createIndicator({ protocol: 'continuous', division, capacity, unit: 'oz', places: 1 });
    ends.push(() => {
      indicator.stop();
      return Promise.resolve();
    });
    indicator.attach(far);
    const { driver, readings } = driveScale(transportFor({ kind: 'serial', path: pair.ours, baud: 9600 }));
    await until(() => readings.length > 2, 'readings');
    indicator.putMass(good);
    await until(() => readings.at(-1)?.mass === good, 'ounces');
    indicator.switchUnit({ unit: 'g', places: 0, division: massFromDecimal('1', 'g') });
    await until(() => readings.at(-1)?.unit === 'g', 'grams');
    expect(readings.at(-1)?.mass).toBe(massFromDecimal('451', 'g'));
    const away = readings.filter((reading) => Math.abs(reading.mass - good) > massFromDecimal('0.6', 'g'));
    expect(away.filter((reading) => reading.stability === 'still' && reading.mass !== 0)).toEqual([]);
    expect(driver.health().state).toBe('working');
  });

  test('a scale that is asked, its unit switched at its key in the middle of a weighing: the mass stays, and is captured once', async () => {
    const pair = await ptyPair();
    ends.push(() => pair.pull());
    const far = await openFar(pair.theirs);
    const ounces = { unit: 'oz', places: 1, division } as const;
    const indicator = createIndicator({ ...ounces, protocol: 'sma', capacity });
    ends.push(() => {
      indicator.stop();
      return Promise.resolve();
    });
    indicator.attach(far);
    const { readings } = driveScale(transportFor({ kind: 'serial', path: pair.ours, baud: 9600 }), 'sma');
    await until(() => readings.length > 3, 'an empty pan');
    indicator.putMass(good);
    await pause(150);
    // While it still swings.
    indicator.switchUnit({ unit: 'g', places: 0, division: massFromDecimal('1', 'g') });
    await until(() => readings.at(-1)?.stability === 'still' && readings.at(-1)?.unit === 'g', 'grams');
    await pause(400);
    indicator.switchUnit({ ...ounces, pounds: true });
    await until(() => readings.at(-1)?.unit === 'oz' && readings.at(-1)?.mass === good, 'pounds and ounces');
    let state: SettleState = UNSETTLED;
    const captured: Reading[] = [];
    for (const reading of readings) {
      const step = settle(settleRulesFor(division), state, reading);
      state = step.state;
      if (step.event !== null && step.event !== 'pan-empty') captured.push(step.event.settled);
    }
    expect(captured).toHaveLength(1);
    expect(Math.abs((captured[0]?.mass ?? 0) - good)).toBeLessThanOrEqual(massFromDecimal('0.5', 'g'));
  });
});

describe('a scale on an adapter whose port comes back under another name', () => {
  test('is lost, found by its serial number at the new name, and never taken for another adapter', async () => {
    const first = await ptyPair();
    ends.push(() => first.pull());
    const other = await ptyPair();
    ends.push(() => other.pull());
    const second = await ptyPair();
    ends.push(() => second.pull());
    let ports: readonly SerialPortInfo[] = [{ path: first.ours, serialNumber: 'A10KX3', vendorId: '0403' }];
    const transport = identifiedSerialTransport({ serialNumber: 'a10kx3', vendorId: '0403' }, 9600, () =>
      Promise.resolve(ports),
    );
    const { driver, masses } = driveScale(transport);
    const far = await openFar(first.theirs);
    await until(() => driver.trace().connections === 1, 'connected');
    await say(far, GOOD);
    await until(() => masses().length === 1, 'a reading');
    // Another adapter of the same make now has the old name.
    ports = [{ path: other.ours, serialNumber: 'B77', vendorId: '0403' }];
    await first.pull();
    await until(() => driver.health().state === 'lost', 'told', TOLD_WITHIN_MS);
    const stranger = await openFar(other.theirs);
    await say(stranger, 'ST,GS,+   99.9oz\r\nST,GS,+   99.9oz\r\n');
    await pause(1500);
    expect(masses()).toEqual([good]);
    ports = [...ports, { path: second.ours, serialNumber: 'A10KX3', vendorId: '0403' }];
    await until(() => driver.trace().connections === 2, 'found again', 8000);
    await say(await openFar(second.theirs), GOOD);
    await until(() => driver.health().state === 'working', 'working again');
    expect(new Set(masses())).toEqual(new Set([good]));
  });
});
