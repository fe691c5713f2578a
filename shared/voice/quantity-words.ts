import { decimalWords, numberWords, type Gender } from './number-words.ts';
import { lengthIn, type Length, type LengthUnit } from '#shared/units/length.ts';
import { massDigits, type Mass, type MassUnit } from '#shared/units/mass.ts';
import type { Money } from '#shared/units/money.ts';
import type { Language } from '#shared/words/language.ts';

interface Noun {
  readonly one: string;
  readonly many: string;
  readonly gender: Gender;
}

const noun = (one: string, many: string, gender: Gender = 'masculine'): Noun => ({ one, many, gender });

const MASS_NOUNS: Readonly<Record<Language, Readonly<Record<MassUnit, Noun>>>> = {
  en: {
    oz: noun('ounce', 'ounces'),
    lb: noun('pound', 'pounds'),
    g: noun('gram', 'grams'),
    kg: noun('kilogram', 'kilograms'),
  },
  es: {
    oz: noun('onza', 'onzas', 'feminine'),
    lb: noun('libra', 'libras', 'feminine'),
    g: noun('gramo', 'gramos'),
    kg: noun('kilogramo', 'kilogramos'),
  },
};

const LENGTH_NOUNS: Readonly<Record<Language, Readonly<Record<LengthUnit, Noun>>>> = {
  en: {
    in: noun('inch', 'inches'),
    mm: noun('millimetre', 'millimetres'),
    cm: noun('centimetre', 'centimetres'),
  },
  es: {
    in: noun('pulgada', 'pulgadas', 'feminine'),
    mm: noun('milímetro', 'milímetros'),
    cm: noun('centímetro', 'centímetros'),
  },
};

/** "piece", "pieces": a count with its noun. */
export function counted(count: number, language: Language, one: string, many: string, gender?: Gender): string {
  return `${numberWords(count, language, gender)} ${count === 1 ? one : many}`;
}

/** Decimal text with a noun: exactly one is singular, everything else plural: "one ounce", "zero point five ounces". */
function withNoun(text: string, language: Language, { one, many, gender }: Noun): string {
  return `${decimalWords(text, language, gender)} ${text.replace(/^[-−]/, '') === '1' ? one : many}`;
}

const plain = (decimal: string): string => (decimal.includes('.') ? decimal.replace(/\.?0+$/, '') : decimal);

/** A mass with as many decimals as it needs, `places` at most: "fifteen point nine ounces", "sixteen ounces". */
export function massWords(mass: Mass, unit: MassUnit, places: number, language: Language): string {
  return withNoun(plain(massDigits(mass, unit, places)), language, MASS_NOUNS[language][unit]);
}

/** The number alone, where the unit has just been said: "sixteen". */
export function massNumber(mass: Mass, unit: MassUnit, places: number, language: Language): string {
  return decimalWords(plain(massDigits(mass, unit, places)), language, MASS_NOUNS[language][unit].gender);
}

const EIGHTHS: Readonly<Record<Language, readonly string[]>> = {
  en: ['', 'an eighth', 'a quarter', 'three eighths', 'a half', 'five eighths', 'three quarters', 'seven eighths'],
  es: ['', 'un octavo', 'un cuarto', 'tres octavos', 'media', 'cinco octavos', 'tres cuartos', 'siete octavos'],
};

/** A number of inches to the nearest eighth or of centimetres to the half, without its unit: "ten and a half". */
function lengthNumber(length: Length, unit: LengthUnit, language: Language): string {
  const { gender } = LENGTH_NOUNS[language][unit];
  if (unit !== 'in') return decimalWords(lengthDecimal(length, unit), language, gender);
  const { whole, fraction } = inEighths(length, language);
  if (fraction === '') return numberWords(whole, language, gender);
  if (whole === 0) return fraction;
  return `${numberWords(whole, language, gender)} ${language === 'en' ? 'and' : 'y'} ${fraction}`;
}

/**
 * The trade's way: inches to the nearest eighth as fractions ("ten and a half inches", "diez pulgadas y media"),
 * centimetres to the half ("thirty-one point five centimetres").
 */
export function spokenLength(length: Length, unit: LengthUnit, language: Language): string {
  const nouns = LENGTH_NOUNS[language][unit];
  if (unit !== 'in') return withNoun(lengthDecimal(length, unit), language, nouns);
  const { whole, fraction } = inEighths(length, language);
  if (whole === 0 && fraction !== '') return fractionAlone(fraction, language, nouns.one);
  const counts = `${numberWords(whole, language, nouns.gender)} ${whole === 1 ? nouns.one : nouns.many}`;
  if (fraction === '') return counts;
  if (language === 'es') return `${counts} y ${fraction}`;
  return `${numberWords(whole, language)} and ${fraction} ${nouns.many}`;
}

function lengthDecimal(length: Length, unit: LengthUnit): string {
  const step = unit === 'cm' ? 2 : 1;
  return plain((Math.round(lengthIn(length, unit) * step) / step).toFixed(1));
}

function inEighths(length: Length, language: Language): { readonly whole: number; readonly fraction: string } {
  const eighths = Math.round(lengthIn(length, 'in') * 8);
  return { whole: Math.floor(eighths / 8), fraction: EIGHTHS[language][eighths % 8] ?? '' };
}

/** "half an inch", "three eighths of an inch"; "media pulgada", "tres octavos de pulgada". */
function fractionAlone(fraction: string, language: Language, one: string): string {
  if (language === 'en') return fraction === 'a half' ? `half an ${one}` : `${fraction} of an ${one}`;
  return fraction === 'media' ? `media ${one}` : `${fraction} de ${one}`;
}

/** Two sides, the unit once: "ten and a half by thirteen inches", "diez y media por trece pulgadas". */
export function sizeWords(width: Length, length: Length, unit: LengthUnit, language: Language): string {
  const by = language === 'en' ? 'by' : 'por';
  return `${lengthNumber(width, unit, language)} ${by} ${spokenLength(length, unit, language)}`;
}

interface CurrencyNouns {
  readonly major: Noun;
  readonly minor: Noun;
}

const CURRENCIES: Readonly<Record<Language, Readonly<Record<string, CurrencyNouns>>>> = {
  en: {
    USD: { major: noun('dollar', 'dollars'), minor: noun('cent', 'cents') },
    EUR: { major: noun('euro', 'euros'), minor: noun('cent', 'cents') },
    GBP: { major: noun('pound', 'pounds'), minor: noun('penny', 'pence') },
  },
  es: {
    USD: { major: noun('dólar', 'dólares'), minor: noun('centavo', 'centavos') },
    EUR: { major: noun('euro', 'euros'), minor: noun('céntimo', 'céntimos') },
    GBP: { major: noun('libra', 'libras', 'feminine'), minor: noun('penique', 'peniques') },
  },
};

/** "six dollars and twenty-five cents", "ochenta centavos"; a currency without names here is spelled: "six point two five, X T S". */
export function moneyWords({ minor, currency }: Money, language: Language): string {
  const amount = Math.abs(minor);
  const sign = minor < 0 ? (language === 'en' ? 'minus ' : 'menos ') : '';
  const nouns = CURRENCIES[language][currency];
  if (nouns === undefined) {
    const text = plain((amount / 100).toFixed(2));
    return `${sign}${decimalWords(text, language)}, ${Array.from(currency).join(' ')}`;
  }
  const [whole, rest] = [Math.floor(amount / 100), amount % 100];
  const parts = [
    ...(whole > 0 || rest === 0 ? [withNoun(String(whole), language, nouns.major)] : []),
    ...(rest > 0 ? [withNoun(String(rest), language, nouns.minor)] : []),
  ];
  return `${sign}${parts.join(language === 'en' ? ' and ' : ' con ')}`;
}
