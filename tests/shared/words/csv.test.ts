import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { csvText } from '#shared/words/csv.ts';
import { defuse, restore } from '#shared/words/formula-cells.ts';

const BOM = '\ufeff';

describe('a table for a spreadsheet', () => {
  it('is written as RFC 4180 says, with a mark that it is UTF-8', () => {
    // RFC 4180, section 2: 1 (CRLF), 4 (commas), 6 (line breaks, quotes and commas in quotes), 7 (quotes doubled)
    expect(csvText(['aaa', 'bbb', 'ccc'], [['zzz', 'yyy', 'xxx']])).toBe(`${BOM}aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n`);
    expect(csvText(['a'], [['b \r\nbb'], ['b"bb'], ['b,b'], ['b\nb'], ['b\rb']])).toBe(
      `${BOM}a\r\n"b \r\nbb"\r\n"b""bb"\r\n"b,b"\r\n"b\nb"\r\n"b\rb"\r\n`,
    );
  });

  it('has nothing for nothing, numbers as they are, and marks what a spreadsheet would run', () => {
    const cells = [null, '', 0, -3.5, -1e-7, '-3.5', '12', '1e5', '-', '-5 kg', '=1+1', '+1', '@x', "'a", ' =1'];
    expect(csvText([], [cells])).toBe(`${BOM}\r\n,,0,-3.5,-1e-7,-3.5,12,1e5,'-,'-5 kg,'=1+1,'+1,'@x,''a,' =1\r\n`);
    // a number with something before or after it is none
    expect(csvText([], [['-5\n=1', '-1.', '--1', '-1.5.5']])).toBe(`${BOM}\r\n"'-5\n=1",'-1.,'--1,'-1.5.5\r\n`);
  });

  it('is read back cell by cell by a library of its own', () => {
    const cell = fc.string({
      unit: fc.constantFrom('"', ',', '\r', '\n', ' ', 'a', 'ñ', '=', '-', '1', '.', "'", ';'),
    });
    fc.assert(
      fc.property(fc.array(fc.tuple(cell, cell, cell), { minLength: 1, maxLength: 5 }), (rows) => {
        const text = csvText(['one', 'two', 'three'], rows);
        const read = parse(text, { bom: true, skip_empty_lines: false, record_delimiter: '\r\n' });
        const isNumber = (value: string) => /^-[0-9.]+$/.test(value);
        expect(read.slice(1).map((row) => row.map(restore))).toEqual(
          rows.map((row) => row.map((each) => (isNumber(each) ? restore(each) : each))),
        );
      }),
    );
  });
});

describe('a text that a spreadsheet would run', () => {
  it('begins with a sign of a formula, in whatever width, after blanks or not', () => {
    for (const text of [
      '=1',
      '+1',
      '-1',
      '@a',
      '＝1',
      '＋1',
      '－1',
      '＠a',
      ' =1',
      '\u00a0=1',
      '\t=1',
      '\tx',
      '\rx',
      '\nx',
    ]) {
      expect(defuse(text), JSON.stringify(text)).toBe(`'${text}`);
    }
    for (const text of ['', 'a', '1', 'a=1', '1-1', ' a', '#', '"=1', 'a\n=1', 'ñ']) {
      expect(defuse(text), JSON.stringify(text)).toBe(text);
    }
  });

  it('is what it was once the mark is taken off, and so is any other', () => {
    const sign = fc.constantFrom("'", '=', ' ', 'a', '\t', '-', '\n', '＝');
    fc.assert(fc.property(fc.string({ unit: sign }), (text) => restore(defuse(text)) === text));
    for (const text of ["'", "''", "'=1", "'a"]) expect(restore(defuse(text))).toBe(text);
    expect([restore("'a'b"), restore('a')]).toEqual(["a'b", 'a']);
  });
});
