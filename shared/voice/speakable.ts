import { decimalWords, digitWords } from './number-words.ts';
import type { Language } from '#shared/words/language.ts';

const FRACTIONS: Readonly<Record<Language, Readonly<Record<string, string>>>> = {
  en: {
    '⅛': 'an eighth',
    '¼': 'a quarter',
    '⅜': 'three eighths',
    '½': 'a half',
    '⅝': 'five eighths',
    '¾': 'three quarters',
    '⅞': 'seven eighths',
  },
  es: {
    '⅛': 'un octavo',
    '¼': 'un cuarto',
    '⅜': 'tres octavos',
    '½': 'medio',
    '⅝': 'cinco octavos',
    '¾': 'tres cuartos',
    '⅞': 'siete octavos',
  },
};

const SIGNS: Readonly<Record<Language, Readonly<Record<string, string>>>> = {
  en: { '×': 'by', '&': 'and', '%': 'percent', '+': 'plus', '"': 'inches', '″': 'inches', '/': ',' },
  es: { '×': 'por', '&': 'y', '%': 'por ciento', '+': 'más', '"': 'pulgadas', '″': 'pulgadas', '/': ',' },
};

/** Names and titles are people's own; a longer one is cut at a word. */
const LONGEST = 80;

/**
 * A name or a title as it is written, made sayable: numbers, fractions and "x" between sizes in words, signs in words
 * or left out. The result has letters, marks of accent, spaces, commas, full stops, hyphens and apostrophes only.
 */
export function speakable(text: string, language: Language): string {
  const { [language]: fractions } = FRACTIONS;
  const { [language]: signs } = SIGNS;
  const and = language === 'en' ? 'and' : 'y';
  const words = shortened(text.normalize('NFC'))
    .replace(/(\d|[⅛¼⅜½⅝¾⅞])\s*[x×]\s*(?=\d)/g, '$1 × ')
    .replace(/(\d)?([⅛¼⅜½⅝¾⅞])/g, (_, before: string | undefined, glyph: string) =>
      before === undefined ? ` ${fractions[glyph] ?? ''} ` : `${before} ${and} ${fractions[glyph] ?? ''} `,
    )
    .replace(/\d+(?:\.\d+)?/g, (number) => ` ${decimalWords(number, language)} `)
    .replace(/[×&%+"″/]/g, (sign) => ` ${signs[sign] ?? ''} `)
    .replace(/[’‘]/g, "'")
    .replace(/[^\p{L}\p{M}\s.,'-]/gu, ' ');
  return words
    .replace(/\s+([,.])/g, '$1')
    .replace(/\s+/g, ' ')
    .trim();
}

/** A shelf or an order as a code is said, letter groups as they are and digits one by one: "K4-B" is "K four, B". */
export function spokenCode(text: string, language: Language): string {
  return digitWords(text.slice(0, LONGEST), language);
}

function shortened(text: string): string {
  if (text.length <= LONGEST) return text;
  const cut = text.slice(0, LONGEST);
  return cut.slice(0, Math.max(cut.lastIndexOf(' '), LONGEST / 2));
}
