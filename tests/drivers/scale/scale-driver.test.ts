import { createConnection } from 'node:net';
import { afterEach, describe, expect, test } from 'vitest';
import { SerialPort } from 'serialport';
import { systemClock } from '#drivers/clock.ts';
import { createIndicator } from '#drivers/scale/indicator.ts';
import { createScaleDriver, type ScaleDriver } from '#drivers/scale/scale-driver.ts';
import { startSimulatedScale, type SimulatedScale } from '#drivers/scale/simulated-scale.ts';
import type { ScaleProtocol } from '#drivers/scale/protocol.ts';
import { scriptedTransport } from '#drivers/transport/fake.ts';
import { hexOf, textOf } from '#drivers/trace.ts';
import { transportFor } from '#drivers/transport/open.ts';
import type { TransportFactory } from '#drivers/transport/transport.ts';
import { massFromDecimal, ZERO_MASS } from '#shared/units/mass.ts';
import type { Reading } from '#shared/weighing/types.ts';
import type { DeviceHealth } from '#shared/wire/views.ts';
import { manualClock } from '../support/manual-clock.ts';
import { ptyPair } from '../support/pty-pair.ts';
import { pause, until } from '../support/until.ts';

const division = massFromDecimal('0.1', 'oz');
const capacity = massFromDecimal('20', 'lb');
const ends: (() => Promise<unknown>)[] = [];
afterEach(async () => {
  for (const end of ends.splice(0).reverse()) await end();
});

function drive(transport: TransportFactory, protocol: ScaleProtocol = 'continuous', clock = systemClock) {
  const readings: Reading[] = [];
  const healths: DeviceHealth[] = [];
  const driver: ScaleDriver = createScaleDriver({
    transport,
    protocol,
    division,
    capacity,
    clock,
    onReading: (reading) => readings.push(reading),
    onHealth: (health) => healths.push(health),
  });
  ends.push(() => driver.stop());
  driver.start();
  const last = (): Reading | undefined => readings.at(-1);
  return { driver, readings, healths, last };
}

async function simulated(protocol: 'continuous' | 'sma'): Promise<SimulatedScale> {
  const scale = await startSimulatedScale({ protocol, division, capacity, unit: 'oz', places: 1 });
  ends.push(() => scale.stop());
  return scale;
}

describe.each(['continuous', 'sma'] as const)('a %s scale over TCP', (protocol) => {
  test('tells a load from moving to still, exactly, and can be zeroed', async () => {
    const scale = await simulated(protocol);
    const { driver, readings, last } = drive(
      transportFor({ kind: 'tcp', host: '127.0.0.1', port: scale.port }),
      protocol,
    );
    await until(() => last()?.stability === 'still', 'an empty pan');
    expect(last()).toMatchObject({ mass: ZERO_MASS, unit: 'oz', places: 1, division, condition: 'ok' });
    expect(driver.health()).toMatchObject({ device: 'scale', state: 'working', trouble: 'none' });

    scale.putMass(massFromDecimal('15.92', 'oz'));
    await until(() => last()?.stability === 'still' && last()?.mass !== 0, 'a still load');
    expect(readings.some((reading) => reading.stability === 'moving')).toBe(true);
    expect(last()?.mass).toBe(massFromDecimal('15.9', 'oz'));

    scale.emptyPan();
    scale.drift(massFromDecimal('0.3', 'oz'));
    await until(() => last()?.stability === 'still' && last()?.mass === massFromDecimal('0.3', 'oz'), 'a drifted zero');
    expect(await driver.zero()).toBe('sent');
    await until(() => last()?.mass === 0, 'zero after zeroing');
  });

  test('overload is told in words and is no weight', async () => {
    const scale = await simulated(protocol);
    const { driver, last } = drive(transportFor({ kind: 'tcp', host: '127.0.0.1', port: scale.port }), protocol);
    await until(() => last() !== undefined, 'a reading');
    scale.putMass(massFromDecimal('25', 'lb'));
    await until(() => last()?.condition === 'over', 'overload');
    expect(driver.health()).toMatchObject({ state: 'attention', trouble: 'overload' });
  });

  test('comes back after the cable was out', async () => {
    const scale = await simulated(protocol);
    const { driver, readings, last } = drive(
      transportFor({ kind: 'tcp', host: '127.0.0.1', port: scale.port }),
      protocol,
    );
    await until(() => last() !== undefined, 'a reading');
    await scale.unplug();
    expect(await until(() => driver.health().state === 'lost', 'lost')).toBeLessThan(2000);
    expect(await driver.zero()).toBe('not-connected');
    await pause(600);
    const before = readings.length;
    await scale.plug();
    await until(() => readings.length > before && driver.health().state === 'working', 'working again', 6000);
  });
});

describe('more of SMA SCP-0499', () => {
  const grams = { unit: 'g', places: 0, division: massFromDecimal('2', 'g') } as const;
  async function level2() {
    const scale = await startSimulatedScale({
      protocol: 'sma',
      division,
      capacity,
      unit: 'oz',
      places: 1,
      otherUnits: [grams, { unit: 'oz', places: 1, division, pounds: true }],
    });
    ends.push(() => scale.stop());
    const driven = drive(transportFor({ kind: 'tcp', host: '127.0.0.1', port: scale.port }), 'sma');
    await until(() => driven.last()?.stability === 'still', 'an empty pan');
    return { scale, ...driven };
  }
  test('tare makes the readings net, clearing it makes them gross again', async () => {
    const { scale, driver, last } = await level2();
    scale.putMass(massFromDecimal('2.0', 'oz'));
    await until(() => last()?.mass === massFromDecimal('2.0', 'oz') && last()?.stability === 'still', 'the box');
    expect(await driver.tell('tare')).toBe('sent');
    await until(() => last()?.net === true && last()?.mass === 0, 'net zero');
    scale.putMass(massFromDecimal('10.0', 'oz'));
    await until(() => last()?.mass === massFromDecimal('8.0', 'oz') && last()?.net === true, 'net of the box');
    await driver.tell('clear-tare');
    await until(() => last()?.mass === massFromDecimal('10.0', 'oz') && last()?.net === false, 'gross');
  });
  test('the unit is that of the frame after it was switched at the scale', async () => {
    const { scale, driver, last } = await level2();
    scale.putMass(massFromDecimal('15.9', 'oz'));
    await until(() => last()?.mass === massFromDecimal('15.9', 'oz') && last()?.stability === 'still', 'ounces');
    expect(await driver.tell('next-unit')).toBe('sent');
    await until(() => last()?.unit === 'g', 'grams');
    // 15.9 oz is 450.76 g; in steps of 2 g the display shows 450, and nobody may take that for 450 oz.
    expect(last()).toMatchObject({ mass: massFromDecimal('450', 'g'), places: 0 });
  });
  test('tells who it is and how it is, and goes on weighing', async () => {
    const { driver, readings } = await level2();
    expect(await driver.identify()).toEqual({
      about: ['SMA:2/1.0', 'MFG:none', 'MOD:simulated', 'REV:1.0', 'SN_:0'],
      faults: [],
      tare: { kind: 'tare', mass: 0, unit: 'oz', places: 1 },
      fine: expect.objectContaining({ mass: 0, unit: 'oz', places: 2, stability: 'still' }) as unknown,
    });
    const before = readings.length;
    await until(() => readings.length > before + 2, 'more readings');
  });
  test('the answers about itself are no readings of the pan', async () => {
    const { scale, driver, readings, last } = await level2();
    scale.putMass(massFromDecimal('15.94', 'oz'));
    await until(() => last()?.mass === massFromDecimal('15.9', 'oz') && last()?.stability === 'still', 'a load');
    expect((await driver.identify())?.fine).toMatchObject({ mass: massFromDecimal('15.94', 'oz'), places: 2 });
    await until(() => readings.length > 20, 'more readings');
    expect(readings.filter(({ places }) => places !== 1)).toEqual([]);
  });

  // SMA SCP-0499, level 2; what each letter asks for is from memory.
  test('every request of level 2 is answered in its form', async () => {
    const { scale, last } = await level2();
    const socket = createConnection({ host: '127.0.0.1', port: scale.port });
    ends.push(() => new Promise<void>((resolve) => socket.destroy().once('close', () => resolve())));
    let said = '';
    socket.on('data', (chunk) => (said += chunk.toString('latin1')));
    const ask = async (words: string, replies = 1): Promise<string> => {
      said = '';
      socket.write(`${words}\r`);
      await until(() => said.split('\r').length > replies, words);
      return said;
    };
    scale.putMass(massFromDecimal('15.94', 'oz'));
    // While the load still swings, the reply of P waits for it.
    expect(await ask('P')).toBe('\n 1G        15.9oz_\r');
    expect(await ask('H')).toBe('\n 1G       15.94oz_\r');
    expect(await ask('Q')).toBe('\n 1G       15.94oz_\r');
    expect(await ask('T2.0')).toBe('\n 1N        13.9oz_\r');
    expect(await ask('M')).toBe('\n 1T         2.0oz_\r');
    expect(await ask('C')).toBe('\n 1G        15.9oz_\r');
    expect(await ask('R', 3)).toMatch(/^(\n 1G {8}15\.9oz_\r){3,}$/);
    expect(await ask('S', 3)).toMatch(/(\n 1G {7}15\.94oz_\r){3,}$/);
    expect(await ask('Ug')).toBe('\n 1G         452g__\r');
    expect(await ask('Ul/o')).toBe('\n 1G      0 15.9l/o\r');
    for (const unknown of ['I', 'N', 'X', 'Ustone', 'T1,5', 'w']) expect(await ask(unknown)).toBe('\n?\r');
    await until(() => last()?.unit === 'oz' && last()?.mass === massFromDecimal('15.9', 'oz'), 'pounds and ounces');
  });

  test('a continuous indicator has no words for itself', async () => {
    const scale = await simulated('continuous');
    const { driver, last } = drive(transportFor({ kind: 'tcp', host: '127.0.0.1', port: scale.port }));
    await until(() => last() !== undefined, 'a reading');
    expect(await driver.identify()).toBeNull();
    expect(await driver.tell('next-unit')).toBe('not-supported');
  });
  test('the trace shows the last bytes and counts', async () => {
    const { driver } = await level2();
    const trace = driver.trace();
    expect(textOf(trace.lastBytes)).toContain('Z1G         0.0oz_');
    expect(hexOf(trace.lastBytes)).toContain('0A 5A 31 47');
    expect(trace).toMatchObject({ discarded: 0, connections: 1 });
    expect(trace.good).toBeGreaterThan(0);
    expect(trace.lastBytes.length).toBeLessThanOrEqual(256);
  });
});

describe('a scale on a serial line', () => {
  test('is read through a pseudo-terminal, and zeroed', async () => {
    const pair = await ptyPair();
    ends.push(() => pair.pull());
    const far = new SerialPort({ path: pair.theirs, baudRate: 9600 });
    const indicator = createIndicator({ protocol: 'continuous', division, capacity, unit: 'oz', places: 1 });
    indicator.attach(far);
    ends.push(async () => {
      indicator.stop();
      if (far.isOpen) await new Promise<void>((resolve) => far.close(() => resolve()));
    });
    const { driver, last } = drive(transportFor({ kind: 'serial', path: pair.ours, baud: 9600 }));
    await until(() => last() !== undefined, 'a reading');
    indicator.putMass(massFromDecimal('8.0', 'oz'));
    await until(() => last()?.mass === massFromDecimal('8.0', 'oz') && last()?.stability === 'still', 'the load');
    indicator.emptyPan();
    indicator.drift(massFromDecimal('0.2', 'oz'));
    await until(() => last()?.mass === massFromDecimal('0.2', 'oz') && last()?.stability === 'still', 'drift');
    expect(await driver.zero()).toBe('sent');
    await until(() => last()?.mass === 0, 'zero');
  });

  test('a port that is not there is lost, not an uncaught error', async () => {
    const { driver } = drive(transportFor({ kind: 'serial', path: '/dev/ttyNOWHERE9', baud: 9600 }));
    await until(() => driver.health().trouble === 'cannot-open', 'cannot-open');
    expect(driver.health().state).toBe('lost');
  });
});

describe('health, with a clock that is advanced', () => {
  test('silent, garbage, working again, and a dead line is opened anew', async () => {
    const clock = manualClock();
    const transport = scriptedTransport();
    const { driver, healths } = drive(transport, 'continuous', clock);
    await clock.advance(0);
    transport.latest().say('ST,GS,+   15.9oz\r\n');
    expect(driver.health().state).toBe('working');
    await clock.advance(1499);
    expect(driver.health().state).toBe('working');
    await clock.advance(1);
    expect(driver.health()).toMatchObject({ state: 'silent', trouble: 'no-frames' });
    transport.latest().say('\u0000\u0001xx\r\n');
    await clock.advance(1500);
    expect(driver.health()).toMatchObject({ state: 'faulty', trouble: 'garbage' });
    expect(driver.discarded()).toBe(1);
    transport.latest().say('ST,GS,+   15.9oz\r\n');
    expect(driver.health().state).toBe('working');
    await clock.advance(11_000);
    expect(transport.connections.length).toBe(2);
    expect(transport.connections[0]?.closed).toBe(true);
    expect(healths.map((health) => health.state)).toEqual(['working', 'silent', 'faulty', 'working', 'silent']);
  });

  test('half a frame before a reconnect is not joined with what comes after it', async () => {
    const clock = manualClock();
    const transport = scriptedTransport();
    const { readings } = drive(transport, 'continuous', clock);
    await clock.advance(0);
    transport.latest().say('ST,GS,+  1');
    transport.latest().hangUp();
    await clock.advance(300);
    transport.latest().say('5.9oz\r\n');
    transport.latest().say('ST,GS,+   15.9oz\r\n');
    expect(readings.map((reading) => reading.mass)).toEqual([massFromDecimal('15.9', 'oz')]);
  });

  test('a zero that is asked for while the line is down is refused and never sent later', async () => {
    const clock = manualClock();
    const transport = scriptedTransport((farEnd, index) => (index === 0 ? farEnd.hangUp() : farEnd.open()));
    const { driver } = drive(transport, 'continuous', clock);
    await clock.advance(0);
    expect(await driver.zero()).toBe('not-connected');
    await clock.advance(1000);
    expect(transport.connections.length).toBe(2);
    expect(transport.latest().written).toEqual([]);
  });

  test('it tries again for ever, at most every five seconds', async () => {
    const clock = manualClock();
    const transport = scriptedTransport((farEnd) => farEnd.hangUp('refused'));
    const { driver } = drive(transport, 'continuous', clock);
    await clock.advance(60_000);
    const afterAMinute = transport.connections.length;
    expect(afterAMinute).toBeGreaterThan(12);
    expect(afterAMinute).toBeLessThan(20);
    await clock.advance(3_600_000);
    expect(transport.connections.length - afterAMinute).toBe(720);
    expect(driver.health()).toMatchObject({ state: 'lost', trouble: 'cannot-open' });
    await driver.stop();
    const stopped = transport.connections.length;
    await clock.advance(60_000);
    expect(transport.connections.length).toBe(stopped);
  });
});
