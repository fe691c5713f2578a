import { readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { Readable } from 'node:stream';
import { afterAll, describe, expect, it } from 'vitest';
import { isImportError } from '#server/office/imports/import-error.ts';
import { existingOf } from '#server/office/imports/existing.ts';
import { previewImport, previewTable, type FileRequest } from '#server/office/imports/preview.ts';
import { Scratch } from '#server/office/imports/scratch.ts';
import { openTable, readTable, type TableRow } from '#server/office/imports/table.ts';
import { UploadFolder, UploadTooLarge } from '#server/office/upload-folder.ts';
import { importShop } from '#tests/support/import-shop.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';

const folder = temporaryFolder('long-file');
afterAll(() => folder.remove());

function request(text: string): FileRequest<'pieces'> {
  return {
    bytes: new TextEncoder().encode(text),
    fileName: 'pieces.csv',
    subject: 'pieces',
    shop: importShop,
    existing: { pieces: new Map(), orders: new Map() },
    now: 0,
  };
}

/** Long enough for many turns, with breaks inside quotes and characters of several bytes across their edges. */
const long = [
  'sku,title,kind,weight',
  ...Array.from({ length: 3000 }, (_, index) =>
    index % 50 === 7
      ? `OT-${String(index)},"bad\r\nrow 🧶",tea cosy,heavy`
      : `OT-${String(index)},"Suéter “número”\r\n${String(index)} 🧶",sweater,${String(index + 1)} g`,
  ),
].join('\r\n');

/** The text as a file of each encoding; what an encoding cannot write is taken out before. */
const WRITTEN: readonly (readonly [string, (text: string) => Buffer])[] = [
  ['utf-8', (text) => Buffer.from(`\ufeff${text}`)],
  ['utf-16le', (text) => Buffer.from(`\ufeff${text}`, 'utf16le')],
  ['utf-16be', (text) => Buffer.from(`\ufeff${text}`, 'utf16le').swap16()],
  ['windows-1252', (text) => Buffer.from(text, 'latin1')],
];

function fileOf(bytes: Uint8Array): { readonly path: string } {
  const path = join(folder.path, 'file.csv');
  writeFileSync(path, bytes);
  return { path };
}

describe('a long file', () => {
  it.each(WRITTEN)('of %s is read from the disk row for row as from memory', async (encoding, write) => {
    const text = encoding === 'windows-1252' ? long.replaceAll(/[“”🧶]/gu, '') : long;
    const bytes = write(text);
    const held: TableRow[] = [];
    const short = readTable(bytes);
    short.eachRow((row) => held.push(row));
    const read: TableRow[] = [];
    const parts: number[] = [];
    const table = await openTable(fileOf(bytes));
    for await (const { rows, part } of table.slices()) {
      read.push(...rows);
      parts.push(part);
    }
    expect([table.encoding, table.header]).toEqual([encoding, short.header]);
    expect(read).toEqual(held);
    expect(read).toHaveLength(3000);
    expect(parts.length).toBeGreaterThan(10);
    expect(parts).toEqual([...parts].sort((a, b) => a - b));
  });

  it('names every line of what it refuses, and keeps its records on the disk until they are put away', async () => {
    const uploads = new UploadFolder(folder.path);
    const scratch = new Scratch(uploads.newPath('scratch'));
    const { existing, bytes, ...asked } = request(long);
    const table = await openTable(fileOf(bytes));
    const { preview, records } = await previewTable({ ...asked, existing: existingOf(existing) }, table, scratch);
    expect(await previewImport(request(long))).toEqual({ preview, records: records.slice(0, records.length) });
    expect(records).toHaveLength(2940);
    expect(
      preview.refused
        .filter((each) => each.column === 'kind')
        .map((each) => each.line)
        .slice(0, 3),
    ).toEqual([2 + 2 * 7, 2 + 2 * 57, 2 + 2 * 107]);
    expect(readdirSync(join(folder.path, 'uploads'))).toHaveLength(1);
    records.close();
    expect(readdirSync(join(folder.path, 'uploads'))).toEqual([]);
  });

  it('that ends inside a quote is refused with its line', async () => {
    const broken = `${long}\r\nOT-9999,"open,sweater,\r\n`;
    const failure = await previewImport(request(broken)).catch((error: unknown) => error);
    expect(isImportError(failure) && [failure.code, failure.line]).toEqual(['quote-not-closed', 6002]);
  });

  it('with bytes that are no text far behind its beginning is no table', async () => {
    const bytes = Buffer.concat([Buffer.from(long), Buffer.from([0]), Buffer.from(long)]);
    await expect(openTable(fileOf(bytes))).rejects.toThrow('bytes that are no text');
  });

  it('lets an error of whoever reads it through', async () => {
    const seen: TableRow[] = [];
    const reading = async () => {
      for await (const { rows } of (await openTable(new TextEncoder().encode(long))).slices()) {
        seen.push(...rows);
        if (seen.length > 500) throw new RangeError('stop here');
      }
    };
    await expect(reading()).rejects.toThrow(RangeError);
    expect(seen.length).toBeLessThan(1500);
  });
});

describe('an upload', () => {
  it('that is too large, or breaks off, leaves nothing; what a stopped server has left is removed', async () => {
    const uploads = new UploadFolder(folder.path);
    const left = () => readdirSync(join(folder.path, 'uploads'));
    await expect(uploads.receive(Readable.from([Buffer.alloc(600), Buffer.alloc(600)]), 1000)).rejects.toThrow(
      UploadTooLarge,
    );
    const broken = Readable.from(
      (async function* () {
        yield await Promise.resolve(Buffer.alloc(10));
        throw new Error('the line is gone');
      })(),
    );
    await expect(uploads.receive(broken, 1000)).rejects.toThrow('the line is gone');
    expect(left()).toEqual([]);
    await uploads.receive(Readable.from([Buffer.alloc(600)]), 1000);
    expect(left()).toHaveLength(1);
    expect(new UploadFolder(folder.path)).toBeDefined();
    expect(() => left()).toThrow('ENOENT');
  });
});
