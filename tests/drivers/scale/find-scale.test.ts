import { SerialPort } from 'serialport';
import { afterEach, describe, expect, test } from 'vitest';
import { systemClock } from '#drivers/clock.ts';
import { findScale } from '#drivers/scale/find-scale.ts';
import { createIndicator } from '#drivers/scale/indicator.ts';
import { scriptedTransport, type FarEnd } from '#drivers/transport/fake.ts';
import { transportFor } from '#drivers/transport/open.ts';
import { massFromDecimal } from '#shared/units/mass.ts';
import { ptyPair } from '../support/pty-pair.ts';

const ends: (() => Promise<unknown>)[] = [];
afterEach(async () => {
  for (const end of ends.splice(0).reverse()) await end();
});

async function onSerialLine(protocol: 'continuous' | 'sma') {
  const pair = await ptyPair();
  ends.push(() => pair.pull());
  const far = new SerialPort({ path: pair.theirs, baudRate: 9600 });
  const indicator = createIndicator({
    protocol,
    division: massFromDecimal('0.1', 'oz'),
    capacity: massFromDecimal('20', 'lb'),
    unit: 'oz',
    places: 1,
  });
  indicator.attach(far);
  indicator.putMass(massFromDecimal('15.9', 'oz'));
  ends.push(() => {
    indicator.stop();
    return new Promise<void>((resolve) => (far.isOpen ? far.close(() => resolve()) : resolve()));
  });
  return (baud: number) => transportFor({ kind: 'serial', path: pair.ours, baud });
}

describe('the scale finder', () => {
  test.each(['continuous', 'sma'] as const)(
    'finds a %s scale on a serial line, with a live sample',
    async (protocol) => {
      const { proposal } = await findScale({ at: await onSerialLine(protocol), clock: systemClock });
      expect(proposal).toMatchObject({ baud: 9600, protocol, needsUnit: false });
      expect(proposal?.sample).toMatchObject({ unit: 'oz', places: 1 });
      expect(proposal?.sample.text).toContain('oz');
      expect(proposal?.good).toBeGreaterThanOrEqual(3);
    },
  );

  test('goes on to the next speed when one gives garbage or nothing', async () => {
    const says: Readonly<Record<number, string>> = {
      9600: '\xf8\x80\xf8x\x00\r\n',
      4800: '',
      2400: 'ST,GS,+   1.25lb\r\n',
    };
    const timers: NodeJS.Timeout[] = [];
    ends.push(() => {
      for (const timer of timers) clearInterval(timer);
      return Promise.resolve();
    });
    const at = (baud: number) =>
      scriptedTransport((farEnd: FarEnd) => {
        farEnd.open();
        timers.push(setInterval(() => farEnd.say(Buffer.from(says[baud] ?? '', 'latin1')), 20));
      });
    const { proposal, tried } = await findScale({ at, clock: systemClock, bauds: [9600, 4800, 2400], listenMs: 100 });
    expect(tried).toMatchObject([
      { baud: 9600, heard: 'no-sense' },
      { baud: 4800, heard: 'nothing' },
    ]);
    expect(proposal).toMatchObject({
      baud: 2400,
      protocol: 'continuous',
      sample: { mass: massFromDecimal('1.25', 'lb') },
    });
  });

  test('says when the unit is all that is missing, and proposes none', async () => {
    const timers: NodeJS.Timeout[] = [];
    ends.push(() => {
      for (const timer of timers) clearInterval(timer);
      return Promise.resolve();
    });
    const at = () =>
      scriptedTransport((farEnd: FarEnd) => {
        farEnd.open();
        timers.push(setInterval(() => farEnd.say('   -0.02  GS\r\n'), 20));
      });
    const { proposal } = await findScale({ at, clock: systemClock, bauds: [9600], listenMs: 200 });
    expect(proposal).toMatchObject({ needsUnit: true, sample: { unit: null, places: 2 } });
  });

  test('a port that cannot be opened is told as such', async () => {
    const at = (baud: number) => transportFor({ kind: 'serial', path: '/dev/ttyNOWHERE9', baud });
    expect(await findScale({ at, clock: systemClock, bauds: [9600] })).toMatchObject({
      proposal: null,
      tried: [{ heard: 'cannot-open' }],
    });
  });
});
