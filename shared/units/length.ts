import { decimalsIn } from './decimal-mark.ts';
import { formatScaled, scaleDecimal } from './decimal.ts';
import { UnitError } from './unit-error.ts';
import type { Language } from '#shared/words/language.ts';

/**
 * An exact length: an integer count of base units of 1/40,000 mm.
 *
 * The base unit is chosen so that 0.001 in, 1/64 in and 0.001 mm are all whole numbers of it (1 in = 25.4 mm exactly).
 * Geometry of cloth works in plain float millimetres; exact lengths are for what a price or a refusal depends on.
 */
export type Length = number & { readonly __brand: 'Length' };

export const LENGTH_UNITS = ['in', 'cm', 'mm'] as const;
export type LengthUnit = (typeof LENGTH_UNITS)[number];

const PER_UNIT: Readonly<Record<LengthUnit, number>> = { in: 1_016_000, cm: 400_000, mm: 40_000 };

/** @throws UnitError out-of-range when the count is no safe integer */
export function lengthFromBase(count: number): Length {
  if (!Number.isSafeInteger(count)) {
    throw new UnitError('out-of-range', `length: expected a whole number of base units, found ${String(count)}`);
  }
  return count as Length;
}

/** @throws UnitError not-a-quantity, too-fine or too-large */
export function lengthFromDecimal(text: string, unit: LengthUnit): Length {
  const scaled = scaleDecimal(text, PER_UNIT[unit]);
  if (scaled.ok) return scaled.value as Length;
  if (scaled.problem === 'not-a-number') {
    throw new UnitError('not-a-quantity', `length: expected a decimal number of ${unit}, found "${text}"`);
  }
  const code = scaled.problem;
  const why = code === 'too-fine' ? 'finer than this station counts (0.001 in)' : 'larger than this station counts';
  throw new UnitError(code, `length: "${text}" ${unit} is ${why}`);
}

const UNIT_WORDS: Readonly<Record<string, LengthUnit>> = {
  in: 'in',
  inch: 'in',
  inches: 'in',
  '"': 'in',
  cm: 'cm',
  mm: 'mm',
};

/**
 * Text with a unit, such as "12.25in", "12 1/4 in", "1/2 in" or "31cm", to an exact length.
 * @throws UnitError not-a-quantity, unknown-unit, too-fine or too-large
 */
export function parseLength(text: string): Length {
  const match = /^(?:(?:(\d+)\s+)?(\d+)\/(\d+)|([+-]?[\d.]+))\s*([a-z"]+)$/i.exec(text.trim());
  if (match === null) {
    throw new UnitError(
      'not-a-quantity',
      `length: expected a number and a unit such as 12.25in or 31cm, found "${text}"`,
    );
  }
  const [, whole = '0', top, bottom, digits = '', word = ''] = match;
  const unit = UNIT_WORDS[word.toLowerCase()];
  if (unit === undefined) {
    throw new UnitError('unknown-unit', `length: expected in, cm or mm, found "${word}" in "${text}"`);
  }
  if (top === undefined) return lengthFromDecimal(digits, unit);
  const fraction = (Number(top) * PER_UNIT[unit]) / Number(bottom);
  if (!Number.isSafeInteger(fraction)) {
    throw new UnitError('too-fine', `length: the fraction in "${text}" is finer than this station counts (1/64 in)`);
  }
  return lengthFromBase(lengthFromDecimal(whole, unit) + fraction);
}

/** Exact sums. */
export function addLength(...lengths: readonly Length[]): Length {
  return lengthFromBase(lengths.reduce((sum, length) => sum + length, 0));
}

/** Float millimetres, for geometry. */
export function toMillimetres(length: Length): number {
  return length / PER_UNIT.mm;
}

/** The nearest exact length to a geometry's millimetres. */
export function lengthFromMillimetres(millimetres: number): Length {
  return lengthFromBase(Math.round(millimetres * PER_UNIT.mm));
}

/** A float in the unit, for charts; never for a price. */
export function lengthIn(length: Length, unit: LengthUnit): number {
  return length / PER_UNIT[unit];
}

/** Decimal text with its unit, rounded half away from zero: "31.5 cm". */
export function formatLength(length: Length, unit: LengthUnit, places: number): string {
  return `${formatScaled(length, PER_UNIT[unit], places)} ${unit}`;
}

const EIGHTHS = ['', '⅛', '¼', '⅜', '½', '⅝', '¾', '⅞'] as const;

/** A length of zero or more in the trade's way: inches to the nearest eighth with fraction glyphs ("10½"), centimetres to the half ("31.5", in Spanish "31,5"). No unit. */
export function lengthWords(length: Length, unit: LengthUnit, language: Language = 'en'): string {
  if (unit !== 'in') {
    const digits = formatScaled(length, PER_UNIT[unit], unit === 'cm' ? 1 : 0).replace(/\.0$/, '');
    return decimalsIn(digits, unit, language);
  }
  const eighths = Math.round((length * 8) / PER_UNIT.in);
  const glyph = EIGHTHS[eighths % 8] ?? '';
  const whole = Math.floor(eighths / 8);
  return whole === 0 && glyph !== '' ? glyph : `${String(whole)}${glyph}`;
}
