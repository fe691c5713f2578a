import type { Language } from '#shared/words/language.ts';

/** Gender of the noun that is counted; English has none. */
export type Gender = 'masculine' | 'feminine';

const DIGITS: Readonly<Record<Language, readonly string[]>> = {
  en: ['zero', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine'],
  es: ['cero', 'uno', 'dos', 'tres', 'cuatro', 'cinco', 'seis', 'siete', 'ocho', 'nueve'],
};

/** How digits are said where each is said by itself, as far as they are understood: in English. */
export const SAID_DIGITS: Readonly<Record<string, string>> = {
  oh: '0',
  ...Object.fromEntries(DIGITS.en.map((word, value) => [word, String(value)])),
};

const POINT: Readonly<Record<Language, string>> = { en: 'point', es: 'coma' };
const MINUS: Readonly<Record<Language, string>> = { en: 'minus', es: 'menos' };

const MOST = 999_999;

/**
 * A whole number from 0 to 999,999 in words, as one says it before the thing that is counted: "twenty-one",
 * "veintiuna" (onzas), "veintiún" (gramos). Without a gender Spanish counts by itself: "veintiuno".
 * @throws RangeError on any other number
 */
export function numberWords(value: number, language: Language, gender?: Gender): string {
  if (!Number.isInteger(value) || value < 0 || value > MOST) {
    throw new RangeError(`number words: expected a whole number from 0 to ${String(MOST)}, found ${String(value)}`);
  }
  if (value === 0) return digit(0, language);
  const thousands = Math.floor(value / 1000);
  const rest = value % 1000;
  const below = (part: number): string => (language === 'en' ? hundredsEn(part) : hundredsEs(part, gender));
  const parts = [thousandWords(thousands, language, gender), rest === 0 ? '' : below(rest)];
  return parts.filter((part) => part !== '').join(' ');
}

/** Decimal text such as "15.9" or "-0.25" in words, its decimals one by one: "fifteen point nine", "quince coma nueve". */
export function decimalWords(text: string, language: Language, gender?: Gender): string {
  const match = /^([-−]?)(\d+)(?:\.(\d+))?$/.exec(text);
  if (match === null) throw new RangeError(`number words: expected a decimal number such as 15.9, found "${text}"`);
  const [, sign = '', whole = '', decimals] = match;
  const words = wholeWords(whole, language, decimals === undefined ? gender : undefined);
  const behind = decimals === undefined ? '' : ` ${POINT[language]} ${digitWords(decimals, language)}`;
  return `${sign === '' ? '' : `${MINUS[language]} `}${words}${behind}`;
}

/** Digits one after the other, as a code is read out; anything else but letters is a pause. */
export function digitWords(text: string, language: Language): string {
  return Array.from(text.toUpperCase())
    .map((each) => (/\d/.test(each) ? digit(Number(each), language) : /[A-Z]/.test(each) ? each : ','))
    .join(' ')
    .replace(/ ,( ,)*/g, ',')
    .replace(/^,\s*|,\s*$/g, '');
}

/** A number too long to be said as one, or with a zero in front, is a code. */
function wholeWords(whole: string, language: Language, gender: Gender | undefined): string {
  const isCode = whole.length > 6 || (whole.length > 1 && whole.startsWith('0'));
  return isCode ? digitWords(whole, language) : numberWords(Number(whole), language, gender);
}

function digit(value: number, language: Language): string {
  return DIGITS[language][value] ?? '';
}

function thousandWords(thousands: number, language: Language, gender: Gender | undefined): string {
  if (thousands === 0) return '';
  if (language === 'en') return `${hundredsEn(thousands)} thousand`;
  // "mil" is counted as masculine where it stands alone and takes the gender of the thing in its hundreds.
  return thousands === 1 ? 'mil' : `${hundredsEs(thousands, gender ?? 'masculine')} mil`;
}

const TEENS_EN = [
  'ten',
  'eleven',
  'twelve',
  'thirteen',
  'fourteen',
  'fifteen',
  'sixteen',
  'seventeen',
  'eighteen',
  'nineteen',
];
const TENS_EN = ['', '', 'twenty', 'thirty', 'forty', 'fifty', 'sixty', 'seventy', 'eighty', 'ninety'];

function hundredsEn(value: number): string {
  const hundreds = Math.floor(value / 100);
  const rest = value % 100;
  const words = hundreds === 0 ? [] : [`${digit(hundreds, 'en')} hundred`];
  if (rest > 0) words.push(tensEn(rest));
  return words.join(' ');
}

function tensEn(value: number): string {
  if (value < 10) return digit(value, 'en');
  if (value < 20) return TEENS_EN[value - 10] ?? '';
  const tens = TENS_EN[Math.floor(value / 10)] ?? '';
  return value % 10 === 0 ? tens : `${tens}-${digit(value % 10, 'en')}`;
}

const TO_29_ES = [
  'diez',
  'once',
  'doce',
  'trece',
  'catorce',
  'quince',
  'dieciséis',
  'diecisiete',
  'dieciocho',
  'diecinueve',
  'veinte',
  'veintiuno',
  'veintidós',
  'veintitrés',
  'veinticuatro',
  'veinticinco',
  'veintiséis',
  'veintisiete',
  'veintiocho',
  'veintinueve',
];
const TENS_ES = ['', '', '', 'treinta', 'cuarenta', 'cincuenta', 'sesenta', 'setenta', 'ochenta', 'noventa'];
const HUNDREDS_ES = [
  '',
  'ciento',
  'doscientos',
  'trescientos',
  'cuatrocientos',
  'quinientos',
  'seiscientos',
  'setecientos',
  'ochocientos',
  'novecientos',
];

function hundredsEs(value: number, gender: Gender | undefined): string {
  if (value === 100) return 'cien';
  const hundreds = HUNDREDS_ES[Math.floor(value / 100)] ?? '';
  const rest = value % 100;
  const words = hundreds === '' ? [] : [gender === 'feminine' ? hundreds.replace(/os$/, 'as') : hundreds];
  if (rest > 0) words.push(tensEs(rest, gender));
  return words.join(' ');
}

function tensEs(value: number, gender: Gender | undefined): string {
  if (value % 10 === 1 && value !== 11) return endingInOne(value, gender);
  if (value < 10) return digit(value, 'es');
  if (value < 30) return TO_29_ES[value - 10] ?? '';
  const tens = TENS_ES[Math.floor(value / 10)] ?? '';
  return value % 10 === 0 ? tens : `${tens} y ${digit(value % 10, 'es')}`;
}

const ONE_ES: Readonly<Record<Gender | 'alone', string>> = { masculine: 'un', feminine: 'una', alone: 'uno' };

function endingInOne(value: number, gender: Gender | undefined): string {
  if (value === 21 && gender === 'masculine') return 'veintiún';
  const one = ONE_ES[gender ?? 'alone'];
  if (value === 1) return one;
  return value === 21 ? `veinti${one}` : `${TENS_ES[Math.floor(value / 10)] ?? ''} y ${one}`;
}
