import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  addMass,
  formatMass,
  formatMassPlain,
  massDigits,
  massFromBase,
  massFromDecimal,
  massFromGrams,
  massIn,
  MASS_UNITS,
  parseMass,
  subtractMass,
  timesMass,
  toGrams,
} from '#shared/units/mass.ts';
import { UnitError } from '#shared/units/unit-error.ts';

const tenThousandths = fc.integer({ min: 0, max: 2_500_000 });
const decimal = (count: number) => `${String(Math.floor(count / 10_000))}.${String(count % 10_000).padStart(4, '0')}`;

describe('exact at the edge', () => {
  it('a sum of tenths of an ounce is the ounce, where binary fractions are not', () => {
    const tenth = massFromDecimal('0.1', 'oz');
    expect(addMass(...Array.from({ length: 10 }, () => tenth))).toBe(massFromDecimal('1', 'oz'));
    expect(Array.from({ length: 10 }, () => 0.1).reduce((sum, each) => sum + each, 0)).not.toBe(1);
  });

  it('sixteen ounces are a pound and 453.59237 g, to the last digit', () => {
    expect(massFromDecimal('16', 'oz')).toBe(massFromDecimal('1', 'lb'));
    // International avoirdupois pound, 1959: exactly 0.45359237 kg.
    expect(BigInt(massFromDecimal('1', 'lb')) * 100_000_000n).toBe(BigInt(massFromDecimal('1', 'kg')) * 45_359_237n);
  });

  it('keeps every ten-thousandth of oz, lb and g, and adds them without loss', () => {
    fc.assert(
      fc.property(fc.constantFrom(...MASS_UNITS), tenThousandths, tenThousandths, (unit, a, b) => {
        const sum = addMass(massFromDecimal(decimal(a), unit), massFromDecimal(decimal(b), unit));
        expect(sum).toBe(massFromDecimal(decimal(a + b), unit));
        expect(subtractMass(sum, massFromDecimal(decimal(b), unit))).toBe(massFromDecimal(decimal(a), unit));
      }),
    );
  });

  it('orders masses of different units as exact fractions do', () => {
    fc.assert(
      fc.property(tenThousandths, tenThousandths, (ounceCount, gramCount) => {
        // Cross-multiplied in big integers: 1 oz = 28,349,523,125 ng.
        const exact = BigInt(ounceCount) * 28_349_523_125n - BigInt(gramCount) * 1_000_000_000n;
        const ours = massFromDecimal(decimal(ounceCount), 'oz') - massFromDecimal(decimal(gramCount), 'g');
        expect(Math.sign(ours)).toBe(exact > 0n ? 1 : exact < 0n ? -1 : 0);
      }),
    );
  });

  it('writes what it read', () => {
    fc.assert(
      fc.property(fc.constantFrom(...MASS_UNITS), tenThousandths, (unit, count) => {
        expect(massDigits(massFromDecimal(decimal(count), unit), unit, 4)).toBe(decimal(count));
      }),
    );
  });
});

describe('what people write', () => {
  it.each([
    ['15.9oz', '15.9 oz'],
    ['15.9 ounces', '15.9 oz'],
    ['1 lb 2.5 oz', '18.5 oz'],
    // Whole pounds above the first are said as price lists say them.
    ['16 oz', '16 oz'],
    ['32 oz', '2 lb'],
    ['320 oz', '20 lb'],
    ['.5 lb', '8 oz'],
    ['-0.1 oz', '-0.1 oz'],
    ['1 ounce', '1 oz'],
    ['2 Pounds 3 OZ', '35 oz'],
    [' 1 lbs ', '16 oz'],
    ['1 pound', '16 oz'],
    ['17 oz', '17 oz'],
    ['0.45359237 kg', '16 oz'],
    ['453.59237 grams', '16 oz'],
    ['453.59237 gram', '16 oz'],
    ['0.45359237 kilograms', '16 oz'],
    ['0.45359237 kilogram', '16 oz'],
    ['0.1234 oz', '0.1234 oz'],
    ['0 oz', '0 oz'],
  ])('%s is %s', (text, expected) => {
    expect(formatMassPlain(parseMass(text), 'oz')).toBe(expected);
  });

  it.each([
    ['', 'not-a-quantity'],
    ['15.9', 'not-a-quantity'],
    ['heavy', 'not-a-quantity'],
    ['15,9 oz', 'not-a-quantity'],
    ['1.2.3 oz', 'not-a-quantity'],
    ['. oz', 'not-a-quantity'],
    ['about 15.9 oz', 'not-a-quantity'],
    ['15.9 oz 3', 'not-a-quantity'],
    ['3 stone', 'unknown-unit'],
    ['0.00001 oz', 'too-fine'],
    ['99999 kg', 'too-large'],
  ])('%j is refused as %s and the message quotes it', (text, code) => {
    const parse = () => parseMass(text);
    expect(parse).toThrow(UnitError);
    try {
      parse();
    } catch (error) {
      expect((error as UnitError).code).toBe(code);
      expect((error as UnitError).message).toContain(/[\d.]+/.exec(text)?.[0] ?? '');
    }
  });

  it('rounds for show, half away from zero', () => {
    expect(formatMass(massFromDecimal('15.95', 'oz'), 'oz', 1)).toBe('16.0 oz');
    expect(formatMass(massFromDecimal('-0.04', 'oz'), 'oz', 1)).toBe('0.0 oz');
    expect(toGrams(massFromDecimal('1', 'oz'))).toBeCloseTo(28.349523125, 9);
    expect(formatMass(massFromDecimal('-15.95', 'oz'), 'oz', 1)).toBe('-16.0 oz');
    expect(formatMass(massFromDecimal('15.949', 'oz'), 'oz', 1)).toBe('15.9 oz');
    expect(formatMass(massFromDecimal('0.5', 'g'), 'g', 0)).toBe('1 g');
    expect(formatMass(massFromDecimal('0.49', 'g'), 'g', 0)).toBe('0 g');
    // The pounds of a mass in grams are grams.
    expect(formatMassPlain(massFromDecimal('2', 'lb'), 'g')).toBe('907.1847 g');
    expect(formatMassPlain(massFromDecimal('10', 'g'), 'g')).toBe('10 g');
  });

  it('counts, and turns into floats and back', () => {
    expect(timesMass(massFromDecimal('0.01', 'lb'), 500)).toBe(massFromDecimal('5', 'lb'));
    expect(massFromGrams(28.349523125)).toBe(massFromDecimal('1', 'oz'));
    expect(massIn(massFromDecimal('2', 'lb'), 'oz')).toBe(32);
    expect(massIn(massFromDecimal('2.5', 'kg'), 'g')).toBe(2500);
    expect(addMass()).toBe(0);
  });

  it('names what it expected and what it found', () => {
    const said = (text: string) => () => parseMass(text);
    expect(said('heavy')).toThrow('mass: expected a number and a unit such as 15.9oz or 451g, found "heavy"');
    expect(said('3 stone')).toThrow('mass: expected oz, lb, g or kg, found "stone" in "3 stone"');
    expect(said('1.2.3 oz')).toThrow('mass: expected a decimal number of oz, found "1.2.3"');
    expect(said('0.00001 g')).not.toThrow();
    expect(said('0.00001 oz')).toThrow('mass: "0.00001" oz is finer than this station counts (0.0001 oz)');
    expect(said('564 kg')).toThrow('mass: "564" kg is larger than this station counts (560 kg)');
    expect(said('400 kg 400 kg')).toThrow('mass: expected a whole number of base units');
    expect(() => massFromBase(Number.MAX_SAFE_INTEGER + 1)).toThrow(expect.objectContaining({ code: 'out-of-range' }));
    expect(massFromBase(Number.MAX_SAFE_INTEGER)).toBe(Number.MAX_SAFE_INTEGER);
  });
});
