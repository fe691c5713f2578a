import { describe, expect, it } from 'vitest';
import { formatScaled, scaleDecimal } from '#shared/units/decimal.ts';

const MOST = String(Number.MAX_SAFE_INTEGER);

describe('a decimal text as a whole number of small units', () => {
  it.each([
    ['15.9', 10, 159],
    ['+12', 3, 36],
    ['-0.5', 8, -4],
    ['.25', 4, 1],
    ['7.', 2, 14],
    ['007.50', 2, 15],
    [MOST, 1, Number.MAX_SAFE_INTEGER],
    [`-${MOST}`, 1, -Number.MAX_SAFE_INTEGER],
    ['-0', 5, 0],
    ['-0.000', 5, 0],
  ])('%s times %i is %i', (text, numerator, value) => {
    expect(scaleDecimal(text, numerator)).toEqual({ ok: true, value });
  });

  it.each([
    ['', 1, 'not-a-number'],
    ['.', 1, 'not-a-number'],
    ['-', 1, 'not-a-number'],
    ['1e3', 1, 'not-a-number'],
    ['1 ', 1, 'not-a-number'],
    [' 1', 1, 'not-a-number'],
    ['--1', 1, 'not-a-number'],
    ['1.2.3', 1, 'not-a-number'],
    ['0.25', 2, 'too-fine'],
    ['9007199254740992', 1, 'too-large'],
    ['4503599627370496', 2, 'too-large'],
  ])('%j times %i is %s', (text, numerator, problem) => {
    expect(scaleDecimal(text, numerator)).toEqual({ ok: false, problem });
  });
});

describe('a count as decimal text', () => {
  it.each([
    [159, 10, 1, '15.9'],
    [155, 100, 1, '1.6'],
    [154, 100, 1, '1.5'],
    [-155, 100, 1, '-1.6'],
    [-4, 100, 1, '0.0'],
    [0, 7, 0, '0'],
    [5, 10, 0, '1'],
    [1, 3, 4, '0.3333'],
    [2, 3, 4, '0.6667'],
    [1234, 1, 2, '1234.00'],
  ])('%i of %i to the unit, %i places: %s', (count, perUnit, places, text) => {
    expect(formatScaled(count, perUnit, places)).toBe(text);
  });
});
