import { describe, expect, it } from 'vitest';
import { cellText, oneLine, spoiltCell } from '#server/office/imports/cell-text.ts';

describe('a cell as it was meant', () => {
  it.each([
    ['  a b ', 'a b'],
    ['="02134"', '02134'],
    ["'02134", '02134'],
    ["'=1+1", '=1+1'],
    ["'tis", "'tis"],
    ['\u00a0x\u00a0', 'x'],
    ['Nin\u0303o', 'Niño'],
    ['a\u0000b\u001bd\u0085', 'abd'],
    ['one\r\ntwo\rthree', 'one\ntwo\nthree'],
    ['=SUM(A1)', '=SUM(A1)'],
  ])('%j is %j', (raw, text) => {
    expect(cellText(raw)).toBe(text);
  });

  it('becomes one line where it must', () => {
    expect(oneLine('one\ntwo\t three')).toBe('one two three');
  });
});

describe('a cell that nothing can be made of', () => {
  it.each(['#N/A', '#NV', '#REF!', '#DIV/0!', '#######', '1.23457E+12', '4,1E+08', 'x'.repeat(1001)])('%j', (text) => {
    expect(spoiltCell(text)).not.toBeNull();
  });

  it.each(['#4101', '# 3', '1E5', 'E+12', '', 'x'.repeat(1000)])('but %j can', (text) => {
    expect(spoiltCell(text)).toBeNull();
  });
});
