import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { continuousDecoder } from '#drivers/scale/continuous.ts';
import type { ScaleFrame } from '#drivers/scale/frames.ts';
import { smaDecoder } from '#drivers/scale/sma.ts';
import { massFromDecimal } from '#shared/units/mass.ts';
import { ascii } from '../support/until.ts';

const weights = (frames: readonly ScaleFrame[]): readonly number[] =>
  frames.flatMap((frame) => (frame.kind === 'weight' ? [frame.mass] : []));
const kg = (text: string): number => massFromDecimal(text, 'kg');

describe('continuous frames', () => {
  test.each([
    ['ST,GS,+  4.876kg', 'kg', '4.876', 'still', false],
    ['US,GS,-  0.020 kg', 'kg', '-0.020', 'moving', false],
    ['ST,NT,+00015.9 oz', 'oz', '15.9', 'still', true],
    ['ST,GS,   451 g', 'g', '451', 'still', false],
    ['ST GS +  1.25 LB', 'lb', '1.25', 'still', false],
    ['\x02ST,GS,+ 12.30lb\x03', 'lb', '12.30', 'still', false],
  ] as const)('%j', (line, unit, digits, stability, net) => {
    expect(continuousDecoder().push(ascii(`${line}\r\n`))).toMatchObject([
      { kind: 'weight', mass: massFromDecimal(digits, unit), unit, stability, net },
    ]);
  });

  test.each(['  4.876 kg', '+  4.876 kg', '4.876kg', '   4.876 kg GS ST'])('without a status header: %j', (line) => {
    expect(weights(continuousDecoder().push(ascii(`\r\n${line}\r\n`)))).toEqual([kg('4.876')]);
  });

  test('however the chunks are split, the frames are the same', () => {
    const stream = 'ST,GS,+  4.876kg\r\nUS,GS,+  4.880kg\r\nST,GS,+  4.882kg\r\n';
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: 9 }), { minLength: 60, maxLength: 60 }), (sizes) => {
        const decoder = continuousDecoder();
        const out: ScaleFrame[] = [];
        let at = 0;
        for (const size of sizes) {
          out.push(...decoder.push(ascii(stream.slice(at, at + size))));
          at += size;
        }
        out.push(...decoder.push(ascii(stream.slice(at))));
        expect(weights(out)).toEqual([kg('4.876'), kg('4.880'), kg('4.882')]);
      }),
    );
  });

  test('two frames merged by lost bytes are one discarded frame', () => {
    const frames = continuousDecoder().push(ascii('ST,GS,+  1.ST,GS,+  9.999 kg\r\n'));
    expect(frames).toMatchObject([{ kind: 'discarded', why: 'form' }]);
  });

  test('half a frame, then a good one', () => {
    const frames = continuousDecoder().push(ascii('GS,+  4.8\r\nST,GS,+  4.876kg\r\n'));
    expect(frames).toMatchObject([{ kind: 'discarded' }, { kind: 'weight' }]);
  });

  test('the tail of a frame whose start was not seen is no weight, though it looks like one', () => {
    expect(continuousDecoder().push(ascii('4.876 kg\r\n'))).toMatchObject([{ kind: 'discarded', why: 'no-start' }]);
    expect(continuousDecoder('lb').push(ascii('-0.02  GS\r\n'))).toMatchObject([
      { kind: 'discarded', why: 'no-start' },
    ]);
  });

  test('a digit lost on the way shows as a shorter frame and is discarded', () => {
    const frames = continuousDecoder().push(
      ascii('ST,GS,+ 14.876kg\r\nST,GS,+ 14.76kg\r\nST,GS,+ 14.876kg\r\nST,GS,+ 14.876kg\r\n'),
    );
    expect(frames.map((frame) => frame.kind)).toEqual(['weight', 'discarded', 'weight', 'weight']);
  });

  test('a new width is believed when it comes twice: the unit was switched at the scale', () => {
    const frames = continuousDecoder().push(ascii('ST,GS,+  4.876kg\r\nST,GS,+ 171.99oz \r\nST,GS,+ 171.99oz \r\n'));
    expect(frames.map((frame) => frame.kind)).toEqual(['weight', 'discarded', 'weight']);
    expect(frames[2]).toMatchObject({ unit: 'oz', mass: massFromDecimal('171.99', 'oz') });
  });

  test.each([
    'ST,GS,+  4,876kg',
    'ST,GS,+  4.876st',
    'ST,TR,+  4.876kg',
    'ST,GS,+  4.8.6kg',
    'ST,GS,+  kg',
    'XX,GS,+  4.876kg',
    'ST,GS,+  4.876kg\u0080',
  ])('%j is discarded with its bytes', (line) => {
    const [frame] = continuousDecoder().push(ascii(`${line}\r\n`));
    expect(frame).toMatchObject({ kind: 'discarded', bytes: ascii(line) });
  });

  test('two megabytes without a line end hold no memory and hide no later frame', () => {
    const decoder = continuousDecoder();
    const frames = decoder.push(new Uint8Array(2_000_000).fill(0x38));
    expect(frames).toHaveLength(1);
    expect(frames[0]).toMatchObject({ kind: 'discarded', why: 'too-long' });
    expect(weights(decoder.push(ascii('\r\nST,GS,+  4.876kg\r\n')))).toEqual([kg('4.876')]);
  });
});

describe('SMA replies', () => {
  test('a reply cut by the next one is discarded, the next one is good', () => {
    const frames = smaDecoder().push(ascii('\n 1G       1.\n 1G       1.250kg_\r'));
    expect(frames).toMatchObject([{ kind: 'discarded' }, { kind: 'weight', mass: kg('1.250') }]);
  });
  test('a reply whose start was not seen is discarded', () => {
    expect(smaDecoder().push(ascii(' 1G       1.250kg_\r'))).toMatchObject([{ kind: 'discarded', why: 'no-start' }]);
  });
  test.each([
    '\n 1G      1.250kg_\r',
    '\n 1G      11.2 0kg_\r',
    '\n 1G  ----------kg_\r',
    '\n 1G       1.250t__\r',
    '\n 1G           .kg_\r',
    '\n 1G      1 16.0l/o\r',
    '\n 1G      1 03.5oz_\r',
    '\n 1G       03.5l/o\r',
    '\n 1G       1:3.l/o \r',
  ])('%j is no weight', (reply) => {
    expect(smaDecoder().push(ascii(reply))).toMatchObject([{ kind: 'discarded' }]);
  });
});

describe('pounds and ounces at once', () => {
  const both = massFromDecimal('19.5', 'oz');
  test.each(['\n 1G      1 03.5l/o\r', '\n 1G      1: 3.5l/o\r'])('%j, in an SMA reply', (reply) => {
    const [frame] = smaDecoder().push(ascii(reply));
    expect(frame).toMatchObject({ kind: 'weight', mass: both, unit: 'oz', places: 1, stability: 'still' });
  });
  test.each([
    ['ST,GS,+ 1lb 3.5oz', 'still'],
    ['US,NT,- 1 lb  3.5 oz', 'moving'],
    ['  1 lb  3.5 oz GS', 'unknown'],
    ['1LB 3.5OZ', 'unknown'],
  ])('%j, in a continuous line', (line, stability) => {
    const [frame] = continuousDecoder().push(ascii(`\r\n${line}\r\n`));
    const mass = line.includes('-') ? 0 - both : both;
    expect(frame).toMatchObject({ kind: 'weight', mass, unit: 'oz', places: 1, stability });
  });
  test.each(['ST,GS,+ 1lb 16.0oz', 'ST,GS,+ 1lb oz', 'ST,GS,+ 1.0lb 3.5oz', 'ST,TR,+ 1lb 3.5oz'])(
    '%j is no weight',
    (line) => {
      expect(continuousDecoder().push(ascii(`\r\n${line}\r\n`))).toMatchObject([{ kind: 'discarded' }]);
    },
  );
});

test('what the scale takes off is told as that, never as a weight', () => {
  expect(smaDecoder().push(ascii('\n 1T       1.250kg_\r'))).toEqual([
    { kind: 'tare', mass: kg('1.250'), unit: 'kg', places: 3 },
  ]);
});

describe('any bytes', () => {
  const chunks = fc.array(fc.uint8Array({ maxLength: 200 }), { maxLength: 20 });
  test('never throw, and a weight needs a whole frame of the right form', () => {
    fc.assert(
      fc.property(chunks, (all) => {
        for (const decoder of [continuousDecoder('g'), smaDecoder()]) {
          for (const chunk of all) {
            for (const frame of decoder.push(chunk))
              expect(['weight', 'no-weight', 'tare', 'refused', 'text', 'diagnostics', 'discarded']).toContain(
                frame.kind,
              );
          }
        }
      }),
    );
  });
  test('a frame with one damaged byte is never another weight, unless a digit became a digit', () => {
    const good = 'ST,GS,+  4.876kg';
    fc.assert(
      fc.property(fc.integer({ min: 0, max: good.length - 1 }), fc.integer({ min: 0, max: 255 }), (at, byte) => {
        const decoder = continuousDecoder();
        decoder.push(ascii(`${good}\r\n`));
        const bytes = ascii(`${good}\r\n`);
        const was = String.fromCharCode(bytes[at]!);
        const now = String.fromCharCode(byte);
        bytes[at] = byte;
        const [mass] = weights(decoder.push(bytes));
        // Digits, spaces before digits and the sign carry no redundancy; everything else does.
        const fieldByte = (character: string): boolean => /[\d+\- .]/.test(character);
        if (!(fieldByte(was) && fieldByte(now)) && mass !== undefined) expect(mass).toBe(kg('4.876'));
      }),
      { numRuns: 2000 },
    );
  });
});
