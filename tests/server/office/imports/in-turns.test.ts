import { describe, expect, it } from 'vitest';
import { isImportError } from '#server/office/imports/import-error.ts';
import { previewImport, previewTableInTurns, type FileRequest } from '#server/office/imports/preview.ts';
import { readTable, type TableRow } from '#server/office/imports/table.ts';
import { importShop } from '#tests/support/import-shop.ts';

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

const inTurns = (text: string) => {
  const { bytes, ...asked } = request(text);
  return previewTableInTurns(asked, readTable(bytes));
};

/** Long enough for many turns, with breaks inside quotes and characters of several bytes across their edges. */
const long = [
  'sku,title,kind,weight',
  ...Array.from({ length: 3000 }, (_, index) =>
    index % 50 === 7
      ? `OT-${String(index)},"bad\r\nrow 🧶",tea cosy,heavy`
      : `OT-${String(index)},"Suéter “número”\r\n${String(index)} 🧶",sweater,${String(index + 1)} g`,
  ),
].join('\r\n');

describe('a long file', () => {
  it('gives the same in turns as at once, with every line in its place', async () => {
    const atOnce = previewImport(request(long));
    expect(await inTurns(long)).toEqual(atOnce);
    expect(atOnce.records).toHaveLength(2940);
    expect(
      atOnce.preview.refused
        .filter((each) => each.column === 'kind')
        .map((each) => each.line)
        .slice(0, 3),
    ).toEqual([2 + 2 * 7, 2 + 2 * 57, 2 + 2 * 107]);
  });

  it('lets other work in between', async () => {
    let turns = 0;
    const other = setInterval(() => (turns += 1), 0);
    await inTurns(long);
    clearInterval(other);
    expect(turns).toBeGreaterThan(5);
  });

  it('fails in turns as it fails at once', async () => {
    const broken = `${long}\r\nOT-9999,"open,sweater,\r\n`;
    const failure = await inTurns(broken).catch((error: unknown) => error);
    expect(isImportError(failure) && [failure.code, failure.line]).toEqual(['quote-not-closed', 6002]);
    expect(() => previewImport(request(broken))).toThrow((failure as Error).message);
  });

  it('lets an error of the visitor through', async () => {
    const table = readTable(new TextEncoder().encode(long));
    const seen: TableRow[] = [];
    const visit = (row: TableRow): void => {
      seen.push(row);
      if (seen.length === 500) throw new RangeError('stop here');
    };
    await expect(table.eachRowInTurns(visit)).rejects.toThrow(RangeError);
    expect(seen).toHaveLength(500);
  });
});
