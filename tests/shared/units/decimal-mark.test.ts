import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decimalsIn, quantitiesIn } from '#shared/units/decimal-mark.ts';
import { lengthFromDecimal, lengthWords } from '#shared/units/length.ts';
import { formatMass, formatMassPlain, massFromDecimal } from '#shared/units/mass.ts';

/** The Common Locale Data Repository as this runtime carries it: Spanish of Spain, Spanish of the United States. */
const asIn = (locale: string, value: number) =>
  new Intl.NumberFormat(locale, { minimumFractionDigits: 1, maximumFractionDigits: 1, useGrouping: false }).format(
    value,
  );

describe('decimals beside a unit', () => {
  it('are those of Spain in metric units, those of the United States in its own, and a point in English', () => {
    fc.assert(
      fc.property(fc.integer({ min: -9999, max: 9999 }), (tenths) => {
        const digits = (tenths / 10).toFixed(1);
        for (const unit of ['g', 'kg', 'mm', 'cm', 'm', 'cm3']) {
          expect(decimalsIn(digits, unit, 'es')).toBe(asIn('es-ES', tenths / 10));
        }
        for (const unit of ['oz', 'lb', 'in', 'ft', 'yd', 'ft3']) {
          expect(decimalsIn(digits, unit, 'es')).toBe(asIn('es-US', tenths / 10));
        }
        expect(decimalsIn(digits, 'g', 'en')).toBe(asIn('en-US', tenths / 10));
      }),
      { numRuns: 100 },
    );
  });

  it('are so in masses and sizes', () => {
    expect(formatMass(massFromDecimal('183.2', 'g'), 'g', 1, 'es')).toBe('183,2 g');
    expect(formatMass(massFromDecimal('15.9', 'oz'), 'oz', 1, 'es')).toBe('15.9 oz');
    expect(formatMassPlain(massFromDecimal('0.5', 'kg'), 'kg', 'es')).toBe('0,5 kg');
    expect(formatMassPlain(massFromDecimal('320', 'oz'), 'oz', 'es')).toBe('20 lb');
    expect(lengthWords(lengthFromDecimal('6.8', 'cm'), 'cm', 'es')).toBe('6,8');
    expect(lengthWords(lengthFromDecimal('10.5', 'in'), 'in', 'es')).toBe('10½');
  });
});

it.each([
  ['0.5 kg', '0,5 kg'],
  ['31.5 cm × 20 cm × 2.25 cm', '31,5 cm × 20 cm × 2,25 cm'],
  ['<0.001 cm', '<0,001 cm'],
  ['pesa 12.5\u00a0g', 'pesa 12,5\u00a0g'],
  ['15.9 oz', '15.9 oz'],
  ['2.8 yd', '2.8 yd'],
  ['49.3 m', '49,3 m'],
  ['1.2.3.4 me', '1.2.3.4 me'],
  ['3.5 minutos', '3.5 minutos'],
])('in a Spanish text %j is %j', (text, said) => {
  expect(quantitiesIn(text, 'es')).toBe(said);
  expect(quantitiesIn(text, 'en')).toBe(text);
});
