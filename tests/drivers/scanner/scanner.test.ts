import fc from 'fast-check';
import { SerialPort } from 'serialport';
import { afterEach, describe, expect, test } from 'vitest';
import { systemClock } from '#drivers/clock.ts';
import { scanDecoder, type ScanFrame, type ScanFraming } from '#drivers/scanner/decoder.ts';
import { createScannerDriver } from '#drivers/scanner/scanner-driver.ts';
import { createScannerHead, startSimulatedScanner } from '#drivers/scanner/simulated-scanner.ts';
import { scriptedTransport } from '#drivers/transport/fake.ts';
import { transportFor } from '#drivers/transport/open.ts';
import type { TransportFactory } from '#drivers/transport/transport.ts';
import { manualClock } from '../support/manual-clock.ts';
import { ptyPair } from '../support/pty-pair.ts';
import { ascii, until } from '../support/until.ts';

const scans = (frames: readonly ScanFrame[]): readonly string[] =>
  frames.map((frame) => (frame.kind === 'scan' ? frame.text : `<${frame.why}>`));
const read = (stream: string, framing?: ScanFraming): readonly string[] =>
  scans(scanDecoder(framing).push(ascii(stream), 0));

describe('scan decoder', () => {
  test.each([
    ['CR', 'BFO-1047\rBFO-1048\r'],
    ['LF', 'BFO-1047\nBFO-1048\n'],
    ['CR LF', 'BFO-1047\r\nBFO-1048\r\n'],
    ['STX ETX', '\x02BFO-1047\x03\x02BFO-1048\x03'],
    ['STX ETX CR', '\x02BFO-1047\x03\r\x02BFO-1048\x03\r'],
  ])('%s', (_, stream) => {
    expect(read(stream)).toEqual(['BFO-1047', 'BFO-1048']);
  });
  test('a code cut short by the next STX is dropped', () => {
    expect(read('\x02BFO-1\x02BFO-1048\x03')).toEqual(['<half-read>', 'BFO-1048']);
  });
  test('the separator of GS1 element strings is kept', () => {
    expect(read(']C142055804\x1d91X\r')).toEqual([']C142055804\x1d91X']);
  });
  test.each(['AB\x00CD\r', 'AB\x7f\r', 'AB\xff\xfe\r'])('%j is no text', (stream) => {
    expect(read(stream)).toEqual(['<not-text>']);
  });
  test('a prefix and suffix that the scanner was set to send are required and taken off', () => {
    expect(read('#BFO-1047;\rBFO-1048;\r#;\r', { prefix: '#', suffix: ';' })).toEqual([
      'BFO-1047',
      '<framing>',
      '<framing>',
    ]);
  });
  test('a pause in the middle of a code means that its end was lost', () => {
    const decoder = scanDecoder();
    expect(scans(decoder.push(ascii('BFO-1'), 0))).toEqual([]);
    expect(scans(decoder.push(ascii('BFO-1048\r'), 2000))).toEqual(['<half-read>', 'BFO-1048']);
  });
  test('two megabytes without a line end: told once, bounded, and the next code is read', () => {
    const decoder = scanDecoder();
    expect(scans(decoder.push(new Uint8Array(2_000_000).fill(0x41), 0))).toEqual(['<too-long>']);
    expect(scans(decoder.push(ascii('\rBFO-1047\r'), 1))).toEqual(['BFO-1047']);
  });
  test('any bytes in any chunks: never throws, no scan holds a line end', () => {
    fc.assert(
      fc.property(fc.array(fc.uint8Array({ maxLength: 100 })), (chunks) => {
        const decoder = scanDecoder();
        for (const chunk of chunks) {
          for (const frame of decoder.push(chunk, 0)) {
            if (frame.kind === 'scan')
              expect(['\r', '\n', '\x02', '\x03'].some((end) => frame.text.includes(end))).toBe(false);
          }
        }
      }),
    );
  });
});

describe('scanner driver', () => {
  const ends: (() => Promise<unknown>)[] = [];
  afterEach(async () => {
    for (const end of ends.splice(0).reverse()) await end();
  });
  function drive(transport: TransportFactory, clock = systemClock) {
    const heard: string[] = [];
    const driver = createScannerDriver({
      transport,
      clock,
      onScan: (text) => heard.push(text),
      onHealth: () => undefined,
    });
    ends.push(() => driver.stop());
    driver.start();
    return { driver, heard };
  }

  test('over TCP, and again after the cable was out', async () => {
    const scanner = await startSimulatedScanner();
    ends.push(() => scanner.stop());
    const { driver, heard } = drive(transportFor({ kind: 'tcp', host: '127.0.0.1', port: scanner.port }));
    await until(() => driver.health().state === 'working', 'working');
    scanner.scan('BFO-1047');
    await until(() => heard.length === 1, 'a scan');
    await scanner.unplug();
    await until(() => driver.health().state === 'lost', 'lost', 2000);
    await scanner.plug();
    await until(() => driver.health().state === 'working', 'working again', 6000);
    scanner.scan('WK-0031');
    await until(() => heard.length === 2, 'another scan');
    expect(heard).toEqual(['BFO-1047', 'WK-0031']);
  });

  test('over a serial line', async () => {
    const pair = await ptyPair();
    ends.push(() => pair.pull());
    const far = new SerialPort({ path: pair.theirs, baudRate: 9600 });
    ends.push(() => new Promise<void>((resolve) => (far.isOpen ? far.close(() => resolve()) : resolve())));
    const head = createScannerHead('\r\n');
    head.attach(far);
    const { driver, heard } = drive(transportFor({ kind: 'serial', path: pair.ours, baud: 9600 }));
    await until(() => driver.health().state === 'working', 'working');
    head.scan('BFO-1047');
    await until(() => heard.length === 1, 'a scan');
    expect(heard).toEqual(['BFO-1047']);
  });

  test('a line cut in the middle of a code: dropped, counted, not joined with the next', async () => {
    const clock = manualClock();
    const transport = scriptedTransport();
    const { driver, heard } = drive(transport, clock);
    await clock.advance(0);
    transport.latest().say('BFO-1');
    transport.latest().hangUp();
    await clock.advance(300);
    transport.latest().say('047\rBFO-1048\r');
    // The tail of a code that is read after a reconnect cannot be told from a short code; it is not joined.
    expect(heard).toEqual(['047', 'BFO-1048']);
    expect(driver.discarded()).toBe(1);
  });

  test('a code without an end is given up after a pause', async () => {
    const clock = manualClock();
    const transport = scriptedTransport();
    const { driver, heard } = drive(transport, clock);
    await clock.advance(0);
    transport.latest().say('BFO-1');
    await clock.advance(301);
    expect(driver.discarded()).toBe(1);
    transport.latest().say('BFO-1048\r');
    expect(heard).toEqual(['BFO-1048']);
  });
});
