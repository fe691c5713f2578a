import { createServer, type Server } from 'node:net';
import type { AddressInfo } from 'node:net';
import { deflateSync, crc32 } from 'node:zlib';
import { afterEach, expect, it } from 'vitest';
import { rasterLabel } from '#drivers/printer/raster-label.ts';
import { interpret } from '#drivers/printer/interpret.ts';
import { loadShop } from '#config/load.ts';
import { LabelPrinter } from '#server/devices/label-printer.ts';
import { runLabelProgram } from '#server/devices/label-program.ts';
import { labelPaper } from '#server/labels/label-bytes.ts';
import type { BenchConfig } from '#shared/shop/shop.ts';

const bench = ((): BenchConfig => {
  const [first] = loadShop('config').benches;
  if (first === undefined) throw new Error('the demo has no bench');
  return first;
})();
const PDF = Buffer.from('%PDF-1.4\n%%EOF\n');
const closers: (() => Promise<unknown>)[] = [];
afterEach(async () => {
  for (const close of closers.splice(0).toReversed()) await close();
});

/** A PNG of eight-bit grey (Portable Network Graphics, second edition, ISO/IEC 15948). */
function png(width: number, height: number, black: (x: number, y: number) => boolean): Buffer {
  const chunk = (type: string, data: Buffer) => {
    const named = Buffer.concat([Buffer.from(type, 'latin1'), data]);
    const [length, check] = [Buffer.alloc(4), Buffer.alloc(4)];
    length.writeUInt32BE(data.length);
    check.writeUInt32BE(crc32(named));
    return Buffer.concat([length, named, check]);
  };
  const header = Buffer.alloc(13);
  header.writeUInt32BE(width, 0);
  header.writeUInt32BE(height, 4);
  header.set([8, 0, 0, 0, 0], 8);
  const rows = Array.from({ length: height }, (_row, y) =>
    Buffer.from([0, ...Array.from({ length: width }, (_column, x) => (black(x, y) ? 0 : 255))]),
  );
  const signature = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
  const body = [chunk('IHDR', header), chunk('IDAT', deflateSync(Buffer.concat(rows))), chunk('IEND', Buffer.alloc(0))];
  return Buffer.concat([signature, ...body]);
}

it('a picture comes out dot for dot, also where its width is no whole number of bytes', async () => {
  for (const width of [16, 21]) {
    const bytes = await rasterLabel(
      png(width, 3, (x, y) => (x + y) % 2 === 0),
      576,
    );
    const row = interpret(bytes, { columns: 48, dotsPerLine: 576 }).rows.find(({ kind }) => kind === 'raster');
    if (row?.kind !== 'raster') throw new Error('no picture came out');
    const dot = (x: number, y: number) => ((row.data[y * row.bytesPerLine + (x >> 3)] ?? 0) >> (7 - (x & 7))) & 1;
    for (let y = 0; y < 3; y++) for (let x = 0; x < width; x++) expect(dot(x, y)).toBe((x + y) % 2 === 0 ? 1 : 0);
  }
});

it('a picture that is too wide, or says that it is enormous, or is none, is not printed', async () => {
  await expect(
    rasterLabel(
      png(600, 2, () => true),
      576,
    ),
  ).rejects.toThrow('at most 576 by');
  const liar = png(8, 2, () => true);
  liar.writeUInt32BE(0x7fffffff, 20);
  await expect(rasterLabel(liar, 576)).rejects.toThrow('found 8 by 2147483647');
  await expect(rasterLabel(Buffer.from('no picture'), 576)).rejects.toThrow('expected a PNG');
  const cut = png(80, 80, (x) => x % 3 === 0).subarray(0, 60);
  await expect(rasterLabel(cut, 576)).rejects.toThrow('cannot be read');
  expect(await labelPaper('png', cut, bench)).toBeNull();
});

it('each type goes to what can print it, and is shown where nothing can', async () => {
  const zpl = {
    ...bench,
    labelPrinter: { transport: { kind: 'simulated' }, speaks: 'zpl', dotsPerLine: 832 },
  } as const;
  const program = { ...bench, labelProgram: { program: 'cat', arguments: [] } };
  const bytes = Buffer.from('x');
  expect(await labelPaper('escpos', bytes, bench)).toBe(bytes);
  expect(await labelPaper('zpl', bytes, bench)).toBeNull();
  expect(await labelPaper('zpl', bytes, zpl)).toBe(bytes);
  expect(await labelPaper('escpos', bytes, zpl)).toBeNull();
  expect(await labelPaper('pdf', PDF, bench)).toBeNull();
  expect(await labelPaper('pdf', PDF, program)).toBe(PDF);
});

it('the simulated label printer prints with a certain outcome; a PDF without a program fails and says why', async () => {
  const printer = await LabelPrinter.start(bench, () => undefined);
  closers.push(() => printer.stop());
  const print = async (bytes: Uint8Array) => {
    for (let guard = 0; ; guard++) {
      const result = await printer.print(bytes);
      if (result.why !== 'not-connected' || guard > 100) return result;
      await new Promise((soon) => setTimeout(soon, 20));
    }
  };
  expect(await print(Buffer.from('\x1b@label\n', 'latin1'))).toEqual({ outcome: 'printed', why: 'printed' });
  expect(printer.simulator?.jobs()).toHaveLength(1);
  expect(await printer.print(PDF)).toEqual({ outcome: 'failed', why: 'no-label-printer' });
});

it('a ZPL printer gets its bytes as they are and no question, and nobody knows whether it printed', async () => {
  const heard: Buffer[] = [];
  const server: Server = createServer((socket) => {
    socket.on('data', (chunk: Buffer) => heard.push(chunk));
    socket.on('error', () => undefined);
  });
  await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
  closers.push(() => new Promise((done) => server.close(done)));
  const { port } = server.address() as AddressInfo;
  const transport = { kind: 'tcp', host: '127.0.0.1', port } as const;
  const printer = await LabelPrinter.start(
    { ...bench, labelPrinter: { transport, speaks: 'zpl', dotsPerLine: 832 } },
    () => undefined,
  );
  closers.push(() => printer.stop());
  const label = Buffer.from('^XA^FO50,50^FDhello^FS^XZ');
  let result = await printer.print(label);
  for (let guard = 0; result.outcome === 'failed' && guard < 100; guard++) {
    await new Promise((soon) => setTimeout(soon, 20));
    result = await printer.print(label);
  }
  expect(result.outcome).toBe('unknown');
  for (let guard = 0; heard.length === 0 && guard < 100; guard++) await new Promise((soon) => setTimeout(soon, 20));
  expect(Buffer.concat(heard)).toEqual(label);
});

it('a program gets the document on its input without a shell, and its end is the outcome', async () => {
  const node = (script: string) => ({ program: process.execPath, arguments: ['-e', script] });
  const reads = "let n=0;process.stdin.on('data',c=>n+=c.length).on('end',()=>process.exit(n===15?0:3))";
  expect(await runLabelProgram(node(reads), PDF)).toEqual({ outcome: 'printed', why: 'printed' });
  const fails = "console.error('no such printer');process.exit(1)";
  expect(await runLabelProgram(node(fails), PDF)).toEqual({ outcome: 'failed', why: 'exit 1 no such printer' });
  expect(await runLabelProgram({ program: 'echo; touch', arguments: ['x'] }, PDF)).toMatchObject({ outcome: 'failed' });
  expect(await runLabelProgram(node('setInterval(()=>0,1000)'), PDF, 300)).toEqual({
    outcome: 'unknown',
    why: 'no-end',
  });
});
