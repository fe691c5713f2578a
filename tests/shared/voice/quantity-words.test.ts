import { expect, it } from 'vitest';
import { massWords, moneyWords, sizeWords, spokenLength } from '#shared/voice/quantity-words.ts';
import { speakable, spokenCode } from '#shared/voice/speakable.ts';
import { lengthFromDecimal, lengthFromMillimetres, type LengthUnit } from '#shared/units/length.ts';
import { massFromDecimal, type MassUnit } from '#shared/units/mass.ts';
import { money } from '#shared/units/money.ts';

// Plural of everything but exactly one: The Chicago Manual of Style on decimal quantities, from memory.

it.each<[string, MassUnit, string, string]>([
  ['15.9', 'oz', 'fifteen point nine ounces', 'quince coma nueve onzas'],
  ['16', 'oz', 'sixteen ounces', 'dieciséis onzas'],
  ['1', 'oz', 'one ounce', 'una onza'],
  ['21', 'oz', 'twenty-one ounces', 'veintiuna onzas'],
  ['0.1', 'oz', 'zero point one ounces', 'cero coma uno onzas'],
  ['1', 'g', 'one gram', 'un gramo'],
  ['21', 'g', 'twenty-one grams', 'veintiún gramos'],
  ['451', 'g', 'four hundred fifty-one grams', 'cuatrocientos cincuenta y un gramos'],
  ['200', 'oz', 'two hundred ounces', 'doscientas onzas'],
  ['20', 'lb', 'twenty pounds', 'veinte libras'],
  ['-0.5', 'oz', 'minus zero point five ounces', 'menos cero coma cinco onzas'],
])('says %s %s as "%s" and "%s"', (text, unit, en, es) => {
  const mass = massFromDecimal(text, unit);
  expect(massWords(mass, unit, 1, 'en')).toBe(en);
  expect(massWords(mass, unit, 1, 'es')).toBe(es);
});

it.each([
  ['10.5', 'ten and a half inches', 'diez pulgadas y media'],
  ['13', 'thirteen inches', 'trece pulgadas'],
  ['1', 'one inch', 'una pulgada'],
  ['1.25', 'one and a quarter inches', 'una pulgada y un cuarto'],
  ['0.5', 'half an inch', 'media pulgada'],
  ['0.375', 'three eighths of an inch', 'tres octavos de pulgada'],
  ['0.25', 'a quarter of an inch', 'un cuarto de pulgada'],
  ['9.97', 'ten inches', 'diez pulgadas'],
])('says %s in as "%s" and "%s"', (text, en, es) => {
  const length = lengthFromDecimal(text, 'in');
  expect(spokenLength(length, 'in', 'en')).toBe(en);
  expect(spokenLength(length, 'in', 'es')).toBe(es);
});

it.each<[number, number, LengthUnit, string, string]>([
  [266.7, 330.2, 'in', 'ten and a half by thirteen inches', 'diez y media por trece pulgadas'],
  [254, 342.9, 'in', 'ten by thirteen and a half inches', 'diez por trece pulgadas y media'],
  [
    315,
    240,
    'cm',
    'thirty-one point five by twenty-four centimetres',
    'treinta y uno coma cinco por veinticuatro centímetros',
  ],
  [
    315,
    240,
    'mm',
    'three hundred fifteen by two hundred forty millimetres',
    'trescientos quince por doscientos cuarenta milímetros',
  ],
])('says %i by %i mm in %s as "%s" and "%s"', (width, length, unit, en, es) => {
  const sides = [lengthFromMillimetres(width), lengthFromMillimetres(length)] as const;
  expect(sizeWords(...sides, unit, 'en')).toBe(en);
  expect(sizeWords(...sides, unit, 'es')).toBe(es);
});

it.each([
  [625, 'USD', 'six dollars and twenty-five cents', 'seis dólares con veinticinco centavos'],
  [100, 'USD', 'one dollar', 'un dólar'],
  [101, 'USD', 'one dollar and one cent', 'un dólar con un centavo'],
  [80, 'USD', 'eighty cents', 'ochenta centavos'],
  [0, 'USD', 'zero dollars', 'cero dólares'],
  [2100, 'EUR', 'twenty-one euros', 'veintiún euros'],
  [2101, 'GBP', 'twenty-one pounds and one penny', 'veintiuna libras con un penique'],
  [-35, 'USD', 'minus thirty-five cents', 'menos treinta y cinco centavos'],
  [410, 'XTS', 'four point one, X T S', 'cuatro coma uno, X T S'],
])('says %i of %s as "%s" and "%s"', (minor, currency, en, es) => {
  expect(moneyWords(money(minor, currency), 'en')).toBe(en);
  expect(moneyWords(money(minor, currency), 'es')).toBe(es);
});

it.each([
  ['Film pouch 12 x 15½', 'Film pouch twelve by fifteen and a half', 'Film pouch doce por quince y medio'],
  ['Carton 8 x 6 x 4', 'Carton eight by six by four', 'Carton ocho por seis por cuatro'],
  ['Denim & wool, 100% “heavy”', 'Denim and wool, one hundred percent heavy', 'Denim y wool, cien por ciento heavy'],
  ['Jeans 32/34', 'Jeans thirty-two, thirty-four', 'Jeans treinta y dos, treinta y cuatro'],
  ['[[h@l@U]] <break time="9s"/> `rm`', 'h l U break time inches nine s inches, rm', null],
  ['--help', '--help', '--help'],
  ['a\u0000b\u001b[31m', 'a b thirty-one m', null],
])('makes "%s" sayable', (text, en, es) => {
  expect(speakable(text, 'en')).toBe(en);
  if (es !== null) expect(speakable(text, 'es')).toBe(es);
});

it('cuts an endless title at a word', () => {
  const cut = speakable('long '.repeat(500), 'en');
  expect(cut.length).toBeLessThanOrEqual(80);
  expect(cut.endsWith('long')).toBe(true);
});

it('reads a shelf as a code', () => {
  expect(spokenCode('K4-B', 'en')).toBe('K four, B');
});
