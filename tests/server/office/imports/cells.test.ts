import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { countryCode } from '#server/office/imports/countries.ts';
import { plainDecimal } from '#server/office/imports/numbers.ts';
import { lengthCell, massCell, moneyCell } from '#server/office/imports/quantities.ts';
import { parseMass } from '#shared/units/mass.ts';

describe('numbers as people write them', () => {
  it.each([
    ['12.50', 'point', '12.50'],
    ['12,50', 'point', '12.50'],
    ['1.234,56', 'point', '1234.56'],
    ['1,234.56', 'comma', '1234.56'],
    ['1,234', 'point', '1234'],
    ['1,234', 'comma', '1.234'],
    ['1.234', 'comma', '1234'],
    ['1.234', 'point', '1.234'],
    ['0,125', 'point', '0.125'],
    ['1.234.567', 'point', '1234567'],
    ['1 234,5', 'point', '1234.5'],
    ["1'234.50", 'comma', '1234.50'],
    ['\u22123,5', 'point', '-3.5'],
    ['12', 'comma', '12'],
  ] as const)('%s with %s is %s', (text, mark, plain) => {
    expect(plainDecimal(text, mark)).toBe(plain);
  });

  it.each(['', 'abc', '1.2.3', '12,34,5', '1,23.456,7', '--1', '1e5', '.,'])('%j is no number', (text) => {
    expect(plainDecimal(text, 'point')).toBeNull();
  });

  it('reads any amount back from the way each country groups it', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 99_999_999 }), (cents) => {
        const whole = Math.floor(cents / 100);
        const fraction = String(cents % 100).padStart(2, '0');
        for (const [locale, decimal] of [
          ['en-US', '.'],
          ['de-DE', ','],
          ['fr-FR', ','],
          ['es-ES', ','],
        ] as const) {
          const text = `${new Intl.NumberFormat(locale).format(whole)}${decimal}${fraction}`;
          expect(plainDecimal(text, 'point')).toBe(`${String(whole)}.${fraction}`);
        }
      }),
    );
  });
});

describe('cells with units', () => {
  it.each([
    ['451', 'g', '451 g'],
    ['15,9 oz', 'g', '15.9 oz'],
    ['1 lb 2.5 oz', 'oz', '18.5 oz'],
    ['1.234,5 g', 'oz', '1234.5 g'],
    ['0,45 kg', 'oz', '450 g'],
    ['380 gr', 'oz', '380 g'],
  ] as const)('%s in a column of %s is %s', (text, unit, same) => {
    expect(massCell(text, unit, 'point')).toEqual({ ok: true, value: parseMass(same) });
  });

  it.each(['0', '-3', 'heavy', '3 stone', '1..2', '15.9 oz oz'])('refuses %j as a mass', (text) => {
    expect(massCell(text, 'oz', 'point').ok).toBe(false);
  });

  it.each([
    ['21', 'in', 533.4],
    ['21 1/2', 'in', 546.1],
    ['21 1/2 in', 'cm', 546.1],
    ['53,5 cm', 'in', 535],
    ['53.5', 'cm', 535],
  ] as const)('%s in a column of %s is %d mm', (text, unit, millimetres) => {
    const cell = lengthCell(text, unit, 'point');
    expect(cell.ok && Math.abs(cell.value - millimetres) < 1e-9).toBe(true);
  });

  it.each(['12.50', '$12.50', '12,50', 'USD 12.50', '12.5 USD', ' 12.50 '])('%s is 1250 cents', (text) => {
    expect(moneyCell(text, 'USD', 'point')).toEqual({ ok: true, value: { minor: 1250, currency: 'USD' } });
  });

  it.each(['12,50 €', 'GBP 3', 'free', '-4', '1.2345', ''])('refuses %j as dollars', (text) => {
    expect(moneyCell(text, 'USD', 'point').ok).toBe(false);
  });

  it.each([
    ['point', '15.9 kg', '12.50'],
    ['comma', '15,9 kg', '12,50'],
  ] as const)('where decimals have a %s the example that is asked for has one, too', (mark, mass, amount) => {
    expect(massCell('heavy', 'kg', mark)).toMatchObject({ expected: `a mass above zero such as ${mass}` });
    expect(moneyCell('dozen', 'EUR', mark)).toMatchObject({ expected: `an amount in EUR such as ${amount}` });
  });

  it.each([
    ['us', 'US'],
    ['United States', 'US'],
    ['Estados Unidos', 'US'],
    ['Deutschland', 'DE'],
    ['España', 'ES'],
    ['USA', 'US'],
  ])('%s is the country %s', (text, code) => {
    expect(countryCode(text)).toBe(code);
  });

  it.each(['Atlantis', 'ZZZ', 'QX'])('%s is no country', (text) => {
    expect(countryCode(text)).toBeUndefined();
  });
});
