import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  addLength,
  formatLength,
  lengthFromBase,
  lengthFromDecimal,
  lengthFromMillimetres,
  lengthIn,
  lengthWords,
  parseLength,
  toMillimetres,
} from '#shared/units/length.ts';
import { addMoney, formatMoney, money, moneyTextIn, parseMoney, subtractMoney } from '#shared/units/money.ts';
import { UnitError } from '#shared/units/unit-error.ts';

describe('length', () => {
  it('an inch is 25.4 mm exactly', () => {
    expect(lengthFromDecimal('1', 'in')).toBe(lengthFromDecimal('25.4', 'mm'));
    expect(parseLength('12 1/4 in')).toBe(lengthFromDecimal('12.25', 'in'));
    expect(parseLength('1/2 in')).toBe(lengthFromDecimal('0.5', 'in'));
    expect(parseLength('1 1/64 in')).toBe(lengthFromDecimal('25.796875', 'mm'));
  });

  it('keeps every thousandth of an inch', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 200_000 }), (count) => {
        const text = `${String(Math.floor(count / 1000))}.${String(count % 1000).padStart(3, '0')}`;
        expect(formatLength(lengthFromDecimal(text, 'in'), 'in', 3)).toBe(`${text} in`);
      }),
    );
  });

  it.each([
    ['10.5 in', 'in', '10½'],
    ['1.25 in', 'in', '1¼'],
    ['0.5 in', 'in', '½'],
    ['9 in', 'in', '9'],
    ['31.5 cm', 'cm', '31.5'],
    ['31 cm', 'cm', '31'],
    ['31.04 cm', 'cm', '31'],
    ['315.4 mm', 'mm', '315'],
    ['0 in', 'in', '0'],
    ['9.95 in', 'in', '10'],
    ['2.375 in', 'in', '2⅜'],
    ['7.875 in', 'in', '7⅞'],
    ['7.125 in', 'in', '7⅛'],
    ['7.625 in', 'in', '7⅝'],
    ['7.75 in', 'in', '7¾'],
  ] as const)('%s is said in %s as %s', (text, unit, expected) => {
    expect(lengthWords(parseLength(text), unit)).toBe(expected);
  });

  // One inch is 25.4 mm: international yard and pound agreement, 1959.
  it.each([
    ['12in', 304.8],
    ['12 Inches', 304.8],
    ['1 inch', 25.4],
    ['12"', 304.8],
    [' 30.48 cm ', 304.8],
    ['+7 mm', 7],
    ['-7 mm', -7],
    ['3 3/8 in', 85.725],
    ['3   11/32 in', 84.931_25],
    ['0 1/2 cm', 5],
  ])('%s is %f mm', (text, millimetres) => {
    expect(toMillimetres(parseLength(text))).toBe(millimetres);
    expect(lengthFromMillimetres(millimetres)).toBe(parseLength(text));
  });

  it('is the nearest of its units to a geometry, and a float for charts', () => {
    expect(lengthFromMillimetres(1.000_012)).toBe(40_000);
    expect(lengthFromMillimetres(1.000_013)).toBe(40_001);
    expect(lengthIn(parseLength('30.48 cm'), 'in')).toBe(12);
    expect(lengthIn(parseLength('12 in'), 'mm')).toBe(304.8);
    expect(addLength(parseLength('1 in'), parseLength('2.54 cm'))).toBe(parseLength('2 in'));
    expect(addLength()).toBe(0);
  });

  it('names what it expected and what it found', () => {
    const said = (text: string) => () => parseLength(text);
    expect(said('twelve')).toThrow('length: expected a number and a unit such as 12.25in or 31cm, found "twelve"');
    expect(said('12 ft')).toThrow('length: expected in, cm or mm, found "ft" in "12 ft"');
    expect(said('1..2 in')).toThrow('length: expected a decimal number of in, found "1..2"');
    expect(said('0.00001 in')).toThrow('length: "0.00001" in is finer than this station counts (0.001 in)');
    expect(said('99999999999 cm')).toThrow('length: "99999999999" cm is larger than this station counts');
    expect(said('1 1/7 in')).toThrow('length: the fraction in "1 1/7 in" is finer than this station counts (1/64 in)');
    expect(() => lengthFromBase(1.5)).toThrow('length: expected a whole number of base units, found 1.5');
    expect(() => lengthFromMillimetres(1e12)).toThrow(expect.objectContaining({ code: 'out-of-range' }));
  });

  it.each([
    ['twelve in', 'not-a-quantity'],
    ['12', 'not-a-quantity'],
    ['12 ft', 'unknown-unit'],
    ['1 1/7 in', 'too-fine'],
    ['0.00001 in', 'too-fine'],
    ['1 1/0 in', 'too-fine'],
    ['99999999999 in', 'too-large'],
    ['1/7 in', 'too-fine'],
    ['1/0 in', 'too-fine'],
    // A fraction stands alone or behind a whole number, and never behind a sign.
    ['-1/2 in', 'not-a-quantity'],
    ['12.5 1/2 in', 'not-a-quantity'],
    ['-1 1/2 in', 'not-a-quantity'],
    ['x12 in', 'not-a-quantity'],
    ['12 in x', 'not-a-quantity'],
    ['1..2 in', 'not-a-quantity'],
  ])('%j is refused as %s', (text, code) => {
    expect(() => parseLength(text)).toThrow(expect.objectContaining({ name: 'UnitError', code }) as UnitError);
  });
});

describe('money', () => {
  it('is whole minor units', () => {
    expect(parseMoney('4.1', 'USD')).toEqual({ minor: 410, currency: 'USD' });
    expect(() => money(4.5, 'USD')).toThrow('money: expected whole minor units, found 4.5');
    expect(() => parseMoney('4.105', 'USD')).toThrow(UnitError);
    expect(() => parseMoney('4,10', 'USD')).toThrow('money: expected an amount such as 4.10, found "4,10"');
    expect(() => parseMoney('$4', 'USD')).toThrow(expect.objectContaining({ code: 'not-a-quantity' }));
    expect(() => parseMoney('4.', 'USD')).toThrow(UnitError);
    expect(() => parseMoney('99999999999999999', 'USD')).toThrow(expect.objectContaining({ code: 'out-of-range' }));
    expect(parseMoney(' 12 ', 'EUR')).toEqual({ minor: 1200, currency: 'EUR' });
    expect(parseMoney('-0.05', 'USD').minor).toBe(-5);
    expect(parseMoney('-0.00', 'USD').minor).toBe(0);
  });

  it('never adds two currencies', () => {
    expect(addMoney(money(410, 'USD'), money(55, 'USD')).minor).toBe(465);
    expect(addMoney(money(1, 'USD'), money(2, 'USD'), money(3, 'USD'))).toEqual({ minor: 6, currency: 'USD' });
    expect(subtractMoney(money(410, 'USD'), money(500, 'USD'))).toEqual({ minor: -90, currency: 'USD' });
    const mixed = () => subtractMoney(money(410, 'USD'), money(55, 'EUR'));
    expect(mixed).toThrow('money: cannot add EUR to USD');
    expect(mixed).toThrow(expect.objectContaining({ code: 'unknown-unit' }));
  });

  it('is shown with its sign and symbol', () => {
    expect(formatMoney(money(5, 'USD'))).toBe('$0.05');
    expect(formatMoney(money(-1234, 'EUR'))).toBe('−€12.34');
    expect(formatMoney(money(410, 'XTS'))).toBe('XTS 4.10');
    expect(formatMoney(money(0, 'GBP'))).toBe('£0.00');
    expect(formatMoney(money(123_456, 'USD'))).toBe('$1234.56');
  });

  // ECMA-402 with the CLDR data of Node: es-ES, and es-US for dollars. Its hyphen is our minus sign.
  it.each(['EUR', 'GBP', 'XTS', 'USD'])('is written in Spanish as CLDR has it: %s', (currency) => {
    const reference = new Intl.NumberFormat(currency === 'USD' ? 'es-US' : 'es-ES', {
      style: 'currency',
      currency,
      useGrouping: false,
    });
    for (const minor of [0, 5, 490, -35, 123_456]) {
      const amount = money(minor, currency);
      const expected = reference.format(minor / 100).replace('-', '−');
      expect(formatMoney(amount, 'es')).toBe(expected);
      expect(moneyTextIn(formatMoney(amount), 'es')).toBe(expected);
    }
    expect(moneyTextIn('16 oz', 'es')).toBe('16 oz');
    expect(moneyTextIn('$4.90', 'en')).toBe('$4.90');
  });
});
