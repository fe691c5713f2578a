import { lengthFromDecimal, parseLength, toMillimetres, type LengthUnit } from '#shared/units/length.ts';
import { massFromDecimal, parseMass, type Mass, type MassUnit } from '#shared/units/mass.ts';
import { parseMoney, type Money } from '#shared/units/money.ts';
import { UnitError } from '#shared/units/unit-error.ts';
import { plainDecimal, type DecimalMark } from './numbers.ts';

/** A cell's value, or what was expected in its place. */
export type Cell<Value> =
  { readonly ok: true; readonly value: Value } | { readonly ok: false; readonly expected: string };

function attempt<Value>(read: () => Value, expected: string): Cell<Value> {
  try {
    return { ok: true, value: read() };
  } catch (error) {
    if (!(error instanceof UnitError)) throw error;
    const finer =
      error.code === 'too-fine' ? ' with fewer decimals' : error.code === 'too-large' ? ', but smaller' : '';
    return { ok: false, expected: expected + finer };
  }
}

/** Every number in a text with units, in plain decimals: "1,5 kg" becomes "1.5 kg". */
function plainNumbers(text: string, mark: DecimalMark): string {
  return text.replace(/\d[\d.,'’\u00a0\u202f]*/g, (number) => plainDecimal(number, mark) ?? number);
}

const isBare = (text: string): boolean => !/[a-z"]/i.test(text);

/** An example as the file's own numbers are written. */
const asWritten = (example: string, mark: DecimalMark): string =>
  mark === 'comma' ? example.replace('.', ',') : example;

/** A mass above zero: "451 g", "1 lb 2.5 oz", or a bare number in the column's unit. */
export function massCell(text: string, unit: MassUnit, mark: DecimalMark): Cell<Mass> {
  const expected = `a mass above zero such as ${asWritten('15.9', mark)} ${unit}`;
  const read = attempt(
    () =>
      isBare(text)
        ? massFromDecimal(plainDecimal(text, mark) ?? text, unit)
        : parseMass(plainNumbers(text.replace(/\bgr\b/i, 'g'), mark)),
    expected,
  );
  return read.ok && read.value <= 0 ? { ok: false, expected } : read;
}

/** A length above zero in float millimetres, as garments are measured. */
export function lengthCell(text: string, unit: LengthUnit, mark: DecimalMark): Cell<number> {
  const expected = `a length above zero such as 21 ${unit}`;
  const read = attempt(() => {
    const fraction = /^(\d+)\s+(\d+\/\d+)$/.exec(text.trim());
    if (fraction !== null) return toMillimetres(parseLength(`${text.trim()} ${unit}`));
    if (isBare(text)) return toMillimetres(lengthFromDecimal(plainDecimal(text, mark) ?? text, unit));
    const plain = /\d\s+\d+\/\d+/.test(text) ? text : plainNumbers(text, mark);
    return toMillimetres(parseLength(plain));
  }, expected);
  return read.ok && read.value <= 0 ? { ok: false, expected } : read;
}

const SYMBOLS: Readonly<Record<string, string>> = { $: 'USD', '€': 'EUR', '£': 'GBP' };

/** An amount of zero or more in the shop's currency: "12.50", "$12.50", "12,50 €", "EUR 12,50". */
export function moneyCell(text: string, currency: string, mark: DecimalMark): Cell<Money> {
  const expected = `an amount in ${currency} such as ${asWritten('12.50', mark)}`;
  const match = /^([A-Z]{3}|[$€£])?\s*([\d.,'’\s\u00a0\u202f]+?)\s*([A-Z]{3}|[$€£])?$/i.exec(text.trim());
  if (match === null) return { ok: false, expected };
  for (const named of [match[1], match[3]]) {
    if (named !== undefined && (SYMBOLS[named] ?? named.toUpperCase()) !== currency) return { ok: false, expected };
  }
  return attempt(() => parseMoney(plainDecimal(match[2] ?? '', mark) ?? text, currency), expected);
}
