import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatLength, lengthFromDecimal, lengthWords, parseLength } from '#shared/units/length.ts';
import { addMoney, formatMoney, money, parseMoney, subtractMoney } from '#shared/units/money.ts';
import { UnitError } from '#shared/units/unit-error.ts';

describe('length', () => {
  it('an inch is 25.4 mm exactly', () => {
    expect(lengthFromDecimal('1', 'in')).toBe(lengthFromDecimal('25.4', 'mm'));
    expect(parseLength('12 1/4 in')).toBe(lengthFromDecimal('12.25', 'in'));
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
  ] as const)('%s is said in %s as %s', (text, unit, expected) => {
    expect(lengthWords(parseLength(text), unit)).toBe(expected);
  });

  it.each([
    ['twelve in', 'not-a-quantity'],
    ['12', 'not-a-quantity'],
    ['12 ft', 'unknown-unit'],
    ['1 1/7 in', 'too-fine'],
    ['0.00001 in', 'too-fine'],
  ])('%j is refused as %s', (text, code) => {
    expect(() => parseLength(text)).toThrow(expect.objectContaining({ name: 'UnitError', code }) as UnitError);
  });
});

describe('money', () => {
  it('is whole minor units', () => {
    expect(parseMoney('4.1', 'USD')).toEqual({ minor: 410, currency: 'USD' });
    expect(() => money(4.5, 'USD')).toThrow(UnitError);
    expect(() => parseMoney('4.105', 'USD')).toThrow(UnitError);
    expect(() => parseMoney('4,10', 'USD')).toThrow(UnitError);
  });

  it('never adds two currencies', () => {
    expect(addMoney(money(410, 'USD'), money(55, 'USD')).minor).toBe(465);
    expect(() => subtractMoney(money(410, 'USD'), money(55, 'EUR'))).toThrow(UnitError);
  });

  it('is shown with its sign and symbol', () => {
    expect(formatMoney(money(5, 'USD'))).toBe('$0.05');
    expect(formatMoney(money(-1234, 'EUR'))).toBe('−€12.34');
    expect(formatMoney(money(410, 'XTS'))).toBe('XTS 4.10');
  });
});
