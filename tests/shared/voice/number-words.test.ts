import fc from 'fast-check';
import { ToWords } from 'to-words';
import { expect, it } from 'vitest';
import { decimalWords, digitWords, numberWords, type Gender } from '#shared/voice/number-words.ts';
import { LANGUAGES, type Language } from '#shared/words/language.ts';

// Checked against to-words 5.7 (MIT), a general library of number words, for every number up to 9,999 and samples above.

const ALL = Array.from({ length: 10_000 }, (_, value) => value);

const LIBRARY = { en: new ToWords({ localeCode: 'en-US' }), es: new ToWords({ localeCode: 'es-ES' }) };
const theirs = (value: number, language: Language, gender: Gender = 'masculine') =>
  spaced(LIBRARY[language].convert(value, { gender }).toLowerCase());
/** "forty-seven" and "forty seven" sound the same. */
const spaced = (words: string) => words.replace(/-/g, ' ');

it.each(LANGUAGES)('says every number from 0 to 9,999 in %s as the library does', (language) => {
  for (const value of ALL) expect(spaced(numberWords(value, language))).toBe(theirs(value, language));
});

it('says every number before a feminine noun as the library does', () => {
  for (const value of ALL) expect(numberWords(value, 'es', 'feminine')).toBe(theirs(value, 'es', 'feminine'));
});

// Real Academia Española, "Ortografía", numerals written as one word; from memory.
it.each([
  [16, 'dieciséis'],
  [22, 'veintidós'],
  [23, 'veintitrés'],
  [26, 'veintiséis'],
  [2016, 'dos mil dieciséis'],
])('writes %i with its accent', (value, words) => {
  expect(numberWords(value, 'es')).toBe(words);
});

// Before a masculine noun "uno" loses its o (Real Academia Española, "Diccionario panhispánico de dudas", entry "uno"; from memory).
it.each([
  [1, 'un'],
  [21, 'veintiún'],
  [31, 'treinta y un'],
  [101, 'ciento un'],
  [11, 'once'],
])('shortens %i before a masculine noun to "%s"', (value, words) => {
  expect(numberWords(value, 'es', 'masculine')).toBe(words);
});

it('says larger numbers as the library does', () => {
  fc.assert(
    fc.property(fc.integer({ min: 10_000, max: 999_999 }), (value) => {
      expect(spaced(numberWords(value, 'en'))).toBe(theirs(value, 'en'));
      // The library says "veintiuno mil" and "ciento uno mil"; the orthography wants "veintiún mil" and "ciento un mil".
      if (!String(Math.floor(value / 1000)).endsWith('1')) expect(numberWords(value, 'es')).toBe(theirs(value, 'es'));
    }),
  );
});

it.each([
  [21_000, 'veintiún mil'],
  [31_000, 'treinta y un mil'],
  [101_000, 'ciento un mil'],
])('counts %i as "%s"', (value, words) => {
  expect(numberWords(value, 'es')).toBe(words);
});

it.each([
  ['15.9', 'fifteen point nine', 'quince coma nueve'],
  ['0.05', 'zero point zero five', 'cero coma cero cinco'],
  ['16', 'sixteen', 'dieciséis'],
  ['-0.5', 'minus zero point five', 'menos cero coma cinco'],
  ['1047', 'one thousand forty-seven', 'mil cuarenta y siete'],
  ['0401', 'zero four zero one', 'cero cuatro cero uno'],
])('says %s as "%s" and "%s"', (text, en, es) => {
  expect(decimalWords(text, 'en')).toBe(en);
  expect(decimalWords(text, 'es')).toBe(es);
});

/** The digits that a row of digit words stands for. */
function back(words: string, language: Language): string {
  const names = Array.from({ length: 10 }, (_, digit) => digitWords(String(digit), language));
  return words
    .split(' ')
    .map((word) => names.indexOf(word))
    .join('');
}

/** The number that words stand for, by looking it up among all of them. */
const MEANING = new Map(
  LANGUAGES.map((language) => [language, new Map(ALL.map((value) => [numberWords(value, language), value]))]),
);

it.each(LANGUAGES)('no two numbers and no two decimals sound the same in %s: the words lead back', (language) => {
  expect(MEANING.get(language)?.size).toBe(10_000);
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 9999 }), fc.stringMatching(/^\d{1,4}$/), (whole, decimals) => {
      const words = decimalWords(`${String(whole)}.${decimals}`, language);
      const [front = '', behind = ''] = words.split(language === 'en' ? ' point ' : ' coma ');
      expect(MEANING.get(language)?.get(front)).toBe(whole);
      expect(back(behind, language)).toBe(decimals);
    }),
  );
});

it('reads codes out, with a pause where they have a sign', () => {
  expect(digitWords('55802-1234', 'en')).toBe('five five eight zero two, one two three four');
  expect(digitWords('K4-B', 'es')).toBe('K cuatro, B');
});

it.each([-1, 1.5, 1_000_000, Number.NaN])('refuses %s', (value) => {
  expect(() => numberWords(value, 'en')).toThrow(RangeError);
});

it.each(['', 'abc', '1,5', '1.', '--1', '1e3'])('refuses "%s" as a decimal', (text) => {
  expect(() => decimalWords(text, 'es')).toThrow(RangeError);
});
