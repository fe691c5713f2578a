import { UnitError } from './unit-error.ts';
import type { Language } from '#shared/words/language.ts';

/** An amount in a currency's minor unit (cents): always an integer. */
export interface Money {
  readonly minor: number;
  readonly currency: string;
}

/** @throws UnitError out-of-range when `minor` is no safe integer */
export function money(minor: number, currency: string): Money {
  if (!Number.isSafeInteger(minor)) {
    throw new UnitError('out-of-range', `money: expected whole minor units, found ${String(minor)}`);
  }
  return { minor, currency };
}

/** @throws UnitError unknown-unit on a mix of currencies */
export function addMoney(first: Money, ...rest: readonly Money[]): Money {
  let minor = first.minor;
  for (const each of rest) {
    if (each.currency !== first.currency) {
      throw new UnitError('unknown-unit', `money: cannot add ${each.currency} to ${first.currency}`);
    }
    minor += each.minor;
  }
  return money(minor, first.currency);
}

/** @throws UnitError unknown-unit on a mix of currencies */
export function subtractMoney(a: Money, b: Money): Money {
  return addMoney(a, money(-b.minor, b.currency));
}

/**
 * Text such as "4.10" to minor units: every currency is reckoned in hundredths.
 * @throws UnitError not-a-quantity, or out-of-range when it is too large
 */
export function parseMoney(text: string, currency: string): Money {
  const match = /^(-?)(\d+)(?:\.(\d{1,2}))?$/.exec(text.trim());
  if (match === null) {
    throw new UnitError('not-a-quantity', `money: expected an amount such as 4.10, found "${text}"`);
  }
  const [, sign, whole = '', fraction = ''] = match;
  const minor = Number(whole + fraction.padEnd(2, '0'));
  return money(sign === '-' && minor !== 0 ? -minor : minor, currency);
}

const SYMBOLS: Readonly<Record<string, string>> = { USD: '$', EUR: '€', GBP: '£' };

/** Whoever reckons in dollars in Spanish lives in the United States and writes them as everybody there does. */
const BEFORE_IN_SPANISH: ReadonlySet<string> = new Set(['USD']);

/**
 * "$4.10", "−$0.35"; an unknown currency shows its code: "XTS 4.10". In Spanish "4,10 €" and "4,10 XTS", with a space that
 * no line breaks at, and dollars as in the United States (CLDR, es-ES and es-US).
 */
export function formatMoney(amount: Money, language: Language = 'en'): string {
  const { currency } = amount;
  const digits = String(Math.abs(amount.minor)).padStart(3, '0');
  const [whole, part] = [digits.slice(0, -2), digits.slice(-2)];
  const sign = amount.minor < 0 ? '−' : '';
  if (language === 'es' && !BEFORE_IN_SPANISH.has(currency)) {
    return `${sign}${whole},${part}\u00a0${currency === 'EUR' ? '€' : currency}`;
  }
  return `${sign}${SYMBOLS[currency] ?? `${currency} `}${whole}.${part}`;
}

/** A text that `formatMoney` wrote in English, as the language writes it; any other text stays. */
export function moneyTextIn(text: string, language: Language): string {
  const match = /^(−?)([$€£]|[A-Z]{3} )(\d+)\.(\d{2})$/.exec(text);
  if (language === 'en' || match === null) return text;
  const [, sign, symbol = '', whole = '', part = ''] = match;
  const currency = Object.keys(SYMBOLS).find((each) => SYMBOLS[each] === symbol) ?? symbol.trim();
  const minor = Number(whole + part);
  return formatMoney(money(sign === '−' ? -minor : minor, currency), language);
}
