import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { answersFor } from '#drivers/printer/answers.ts';
import { decodePrinterByte } from '#drivers/printer/status.ts';
import { decodeReport } from '#drivers/scale/hid-report.ts';
import { createScaleDriver } from '#drivers/scale/scale-driver.ts';
import { settle, settleRulesFor, UNSETTLED, type SettleState } from '#drivers/scale/settle.ts';
import { scriptedTransport } from '#drivers/transport/fake.ts';
import {
  WEDGE_IDLE,
  WEDGE_OPTIONS,
  wedgeKey,
  wedgePause,
  type WedgeKey,
  type WedgeState,
} from '#shared/codes/wedge.ts';
import { massFromDecimal } from '#shared/units/mass.ts';
import type { Reading } from '#shared/weighing/types.ts';
import type { DeviceHealth } from '#shared/wire/views.ts';
import { fuzzDecoders } from '../benchmarks/devices-fuzz.ts';
import { manualClock } from './support/manual-clock.ts';

const division = massFromDecimal('0.1', 'oz');
const capacity = massFromDecimal('20', 'lb');

const characters = (keys: readonly WedgeKey[]): string =>
  keys.map((each) => (each.key.length === 1 ? each.key : '')).join('');

describe('whatever comes', () => {
  test('damaged frames: no decoder throws and no weight is made up', () => {
    const figures = fuzzDecoders(20_000);
    for (const figure of figures.filter((each) => each.goal === 0))
      expect([figure.name, figure.value]).toEqual([figure.name, 0]);
  });

  test('HID reports: a weight only from six bytes of report 3 in a weighing status, and never of the other sign', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 10 }), (report) => {
        const frame = decodeReport(report);
        if (frame.kind !== 'weight') return;
        expect(report.length).toBeGreaterThanOrEqual(6);
        expect([...report.subarray(6)].every((byte) => byte === 0)).toBe(true);
        expect(report[0]).toBe(3);
        expect(frame.mass < 0).toBe(report[1] === 5 && (report[4] !== 0 || report[5] !== 0));
      }),
      { numRuns: 3000 },
    );
  });

  test('HID reports of the right form: the mass is the count times the power of ten', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 65_535 }), fc.integer({ min: -4, max: 1 }), (count, power) => {
        const frame = decodeReport(Uint8Array.of(3, 4, 11, power & 0xff, count & 0xff, count >> 8));
        const ounces = massFromDecimal('0.0001', 'oz');
        const mass = count * 10 ** (power + 4) * ounces;
        if (mass <= Number.MAX_SAFE_INTEGER) expect(frame).toMatchObject({ kind: 'weight', mass });
        else expect(frame).toMatchObject({ kind: 'discarded', why: 'number' });
      }),
    );
  });

  test('printer bytes: every byte is a status, an acknowledgement or neither, and taking them never throws', () => {
    for (let byte = 0; byte < 256; byte += 1) {
      expect(['status', 'acknowledge', 'discarded']).toContain(decodePrinterByte(byte).kind);
    }
    const answers = answersFor(manualClock());
    fc.assert(fc.property(fc.uint8Array(), (bytes) => answers.take(bytes)));
  });

  test('keys in any rhythm: what is held back becomes a scan, typing or a dropped burst, in its order, and nothing stays', () => {
    const key = fc.record({
      key: fc.constantFrom('a', 'B', '7', ' ', '-', 'Enter', 'Tab', 'Shift', 'F9', 'ArrowLeft', 'é'),
      gap: fc.constantFrom(0, 1, 2, 30, 36, 200),
    });
    fc.assert(
      fc.property(fc.array(key, { maxLength: 60 }), (presses) => {
        let state: WedgeState = WEDGE_IDLE;
        let time = 0;
        let swallowed = '';
        let told = '';
        let dropped = false;
        for (const press of presses) {
          time += press.gap;
          const event: WedgeKey = { key: press.key, code: press.key, shift: false, time };
          const step = wedgeKey(WEDGE_OPTIONS, state, event);
          state = step.state;
          if (step.swallow && press.key.length === 1) swallowed += press.key;
          told += characters(step.typed) + (step.scan?.text ?? '');
          dropped ||= step.halfRead;
        }
        const end = wedgePause(WEDGE_OPTIONS, state, time + 1000);
        told += characters(end.typed) + (end.scan?.text ?? '');
        dropped ||= end.halfRead;
        expect(end.state).toMatchObject({ held: [], keys: 0 });
        let at = 0;
        for (const each of swallowed) if (each === told[at]) at += 1;
        expect(at).toBe(told.length);
        if (!dropped) expect(told.length).toBe(swallowed.length);
      }),
      { numRuns: 2000 },
    );
  });
});

/** What can happen to a scale's line, in any order. */
type Happening =
  | { readonly kind: 'frame'; readonly tenths: number; readonly flag: 'ST' | 'US' }
  | { readonly kind: 'part'; readonly length: number }
  | { readonly kind: 'noise'; readonly bytes: Uint8Array }
  | { readonly kind: 'hang-up' }
  | { readonly kind: 'wait'; readonly milliseconds: number };

const happening: fc.Arbitrary<Happening> = fc.oneof(
  {
    weight: 6,
    arbitrary: fc.record({
      kind: fc.constant('frame' as const),
      tenths: fc.constantFrom(0, 159, 160, 3200),
      flag: fc.constantFrom('ST' as const, 'US' as const),
    }),
  },
  fc.record({ kind: fc.constant('part' as const), length: fc.integer({ min: 1, max: 17 }) }),
  fc.record({ kind: fc.constant('noise' as const), bytes: fc.uint8Array({ maxLength: 40 }) }),
  fc.record({ kind: fc.constant('hang-up' as const) }),
  fc.record({ kind: fc.constant('wait' as const), milliseconds: fc.constantFrom(50, 100, 400, 1600, 12_000) }),
);

test('a scale whose line does anything: only masses that were sent, told healths only on change, one capture for each load', async () => {
  await fc.assert(
    fc.asyncProperty(fc.array(happening, { maxLength: 40 }), async (story) => {
      const clock = manualClock();
      const transport = scriptedTransport();
      const readings: Reading[] = [];
      const healths: DeviceHealth[] = [];
      const driver = createScaleDriver({
        transport,
        protocol: 'continuous',
        division,
        capacity,
        clock,
        onReading: (reading) => readings.push(reading),
        onHealth: (health) => healths.push(health),
      });
      driver.start();
      await clock.advance(0);
      const frame = (tenths: number, flag: string): string =>
        `${flag},GS,+${(tenths / 10).toFixed(1).padStart(7)}oz\r\n`;
      for (const each of story) {
        if (each.kind === 'wait') await clock.advance(each.milliseconds);
        else if (each.kind === 'hang-up') transport.latest().hangUp();
        else if (each.kind === 'noise')
          transport.latest().say(each.bytes.map((byte) => (byte >= 0x30 && byte <= 0x39 ? 0x78 : byte)));
        else if (each.kind === 'part') transport.latest().say(frame(159, 'ST').slice(0, each.length));
        else transport.latest().say(frame(each.tenths, each.flag));
        await clock.advance(10);
      }
      const sent = new Set(['0.0', '15.9', '16.0', '320.0'].map((text) => massFromDecimal(text, 'oz') as number));
      for (const reading of readings) if (reading.condition === 'ok') expect(sent.has(reading.mass)).toBe(true);
      for (let index = 1; index < healths.length; index += 1) {
        expect([healths[index]?.state, healths[index]?.trouble]).not.toEqual([
          healths[index - 1]?.state,
          healths[index - 1]?.trouble,
        ]);
      }
      let state: SettleState = UNSETTLED;
      let emptySince = false;
      for (const reading of readings) {
        const step = settle(settleRulesFor(division), state, reading);
        state = step.state;
        if (step.event === 'pan-empty') emptySince = true;
        else if (step.event !== null) {
          expect(emptySince).toBe(true);
          emptySince = false;
        }
      }
      await driver.stop();
    }),
    { numRuns: 150 },
  );
});
