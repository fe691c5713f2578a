import { describe, expect, it } from 'vitest';
import { isImportError } from '#server/office/imports/import-error.ts';
import { readTable, type TableRow } from '#server/office/imports/table.ts';

const utf8 = (text: string): Uint8Array => new TextEncoder().encode(text);

function rowsOf(bytes: Uint8Array): TableRow[] {
  const rows: TableRow[] = [];
  readTable(bytes).eachRow((row) => rows.push(row));
  return rows;
}

function errorOf(bytes: Uint8Array): { code: string; message: string; line: number | null } {
  try {
    rowsOf(bytes);
  } catch (error) {
    if (isImportError(error)) return { code: error.code, message: error.message, line: error.line };
    throw error;
  }
  throw new Error('expected an ImportError');
}

describe('encodings', () => {
  it('reads UTF-8 with and without a byte order mark alike', () => {
    const text = 'sku,title\nOT-1,Jersey de punto Ñandú €\n';
    const marked = readTable(utf8(`\ufeff${text}`));
    expect(marked.header).toEqual(['sku', 'title']);
    expect(marked.encoding).toBe('utf-8');
    expect(rowsOf(utf8(`\ufeff${text}`))).toEqual(rowsOf(utf8(text)));
  });

  it('reads UTF-16 of either order of bytes with its mark', () => {
    const little = Buffer.from('\ufeffsku\ttitle\r\nOT-1\tAbrigo de niño\r\n', 'utf16le');
    for (const [encoding, text] of [
      ['utf-16le', little],
      ['utf-16be', Buffer.from(little).swap16()],
    ] as const) {
      expect(readTable(text)).toMatchObject({ encoding, delimiter: '\t', header: ['sku', 'title'] });
      expect(rowsOf(text)).toEqual([{ line: 2, cells: ['OT-1', 'Abrigo de niño'] }]);
    }
  });

  it('takes what is not UTF-8 for Windows-1252, with its euro sign and curly quotes', () => {
    // WHATWG Encoding Standard, index windows-1252: 0x80 is U+20AC, 0x93 and 0x94 are the curly quotes, 0xE9 is e acute.
    const bytes = Uint8Array.of(...utf8('sku;title\nOT-1;'), 0x93, 0x63, 0x61, 0x66, 0xe9, 0x94, 0x20, 0x80, 0x0a);
    expect(readTable(bytes)).toMatchObject({ encoding: 'windows-1252', delimiter: ';' });
    expect(rowsOf(bytes)).toEqual([{ line: 2, cells: ['OT-1', '“café” €'] }]);
  });
});

describe('delimiters and lines', () => {
  it.each([
    [',', 'a,b\n"1;2;3",x\n', ['1;2;3', 'x']],
    [';', 'a;b\n1,50;x\n', ['1,50', 'x']],
    ['\t', 'a\tb\n1,2\tx;y\n', ['1,2', 'x;y']],
    [';', '"a,b,c";"d,e"\n1;2\n', ['1', '2']],
  ])('finds %j by the header', (delimiter, text, cells) => {
    expect(readTable(utf8(text)).delimiter).toBe(delimiter);
    expect(rowsOf(utf8(text))).toEqual([{ line: 2, cells }]);
  });

  it('honours a line that names the delimiter, and counts it', () => {
    const bytes = utf8('sep=;\r\na;b\r\n1;2,5\r\n');
    expect(readTable(bytes)).toMatchObject({ delimiter: ';', header: ['a', 'b'] });
    expect(rowsOf(bytes)).toEqual([{ line: 3, cells: ['1', '2,5'] }]);
  });

  it.each([
    ['LF', '\n'],
    ['CRLF', '\r\n'],
    ['CR', '\r'],
  ])('names the line where a record starts, after quoted %s breaks and empty lines', (_name, end) => {
    const text = ['a,b', '1,"two', 'lines, and', 'three"', '', ' , ', '2,x', '"3","y', 'z"', '4,w'].join(end);
    expect(rowsOf(utf8(text)).map(({ line, cells }) => [line, cells[0]])).toEqual([
      [2, '1'],
      [7, '2'],
      [8, '3'],
      [10, '4'],
    ]);
  });

  it('keeps quotes inside a cell', () => {
    expect(rowsOf(utf8('a,b\n"say ""hi""",5" cuff\n'))[0]?.cells).toEqual(['say "hi"', '5" cuff']);
  });
});

describe('files that are no table', () => {
  it.each([
    ['nothing', new Uint8Array(), 'empty', /the file is empty/],
    ['blank lines', utf8('\n \r\n\n'), 'empty', /the file is empty/],
    ['a header alone', utf8('sku,title\n'), 'header-only', /lines below the header/],
    ['a header and blank lines', utf8('sku,title\n\n,\n'), 'header-only', /lines below the header/],
    ['a PNG', Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a), 'not-a-table', /PNG picture/],
    ['a JPEG', Uint8Array.of(0xff, 0xd8, 0xff, 0xe0), 'not-a-table', /JPEG picture/],
    ['a workbook', Uint8Array.of(0x50, 0x4b, 0x03, 0x04, 0x14), 'not-a-table', /save the sheet as CSV/],
    ['some binary', Uint8Array.of(0x01, 0x00, 0x02, 0x00), 'not-a-table', /no text/],
  ])('%s', (_name, bytes, code, message) => {
    const error = errorOf(bytes);
    expect(error.code).toBe(code);
    expect(error.message).toMatch(message);
  });

  it('names the line where a quote was opened and never closed', () => {
    expect(errorOf(utf8('a,b\n1,x\n2,"open\n3,y\n4,z\n'))).toMatchObject({ code: 'quote-not-closed', line: 3 });
  });
});
