import type { Supply, SupplyUnit } from './types.ts';
import { decimalsIn } from '#shared/units/decimal-mark.ts';
import { scaleDecimal } from '#shared/units/decimal.ts';
import { UnitError } from '#shared/units/unit-error.ts';
import type { LengthUnit } from '#shared/units/length.ts';
import type { Language } from '#shared/words/language.ts';

/** Tape and paper are bought by the metre or the yard; in base units of a length, 1/40,000 mm. */
const LONG_UNITS: Readonly<Record<string, number>> = {
  mm: 40_000,
  cm: 400_000,
  m: 40_000_000,
  in: 1_016_000,
  ft: 12_192_000,
  yd: 36_576_000,
};

/** How a shop that measures in a unit speaks of a roll. */
export function rollUnit(unit: LengthUnit): 'm' | 'yd' {
  return unit === 'in' ? 'yd' : 'm';
}

/**
 * A count, or a length such as "66 m" or "54.7 yd", as a whole number of the supply's unit.
 * @param bare the unit of a length without one
 * @throws UnitError not-a-quantity, unknown-unit, too-fine or too-large, or out-of-range when below zero
 */
export function parseAmount(text: string, unit: SupplyUnit, bare: 'm' | 'yd' = 'm'): number {
  const match = /^([+-]?[\d.]+)\s*([a-z]*)$/i.exec(text.trim());
  const word = (match?.[2] ?? '').toLowerCase();
  const example = unit === 'piece' ? 'a whole number such as 120' : 'a length such as 66 m';
  if (match === null) throw new UnitError('not-a-quantity', `amount: expected ${example}, found "${text}"`);
  if (unit === 'piece' && word !== '') {
    throw new UnitError('unknown-unit', `amount: expected ${example}, found "${text}"`);
  }
  const perUnit = unit === 'piece' ? 1 : LONG_UNITS[word === '' ? bare : word];
  if (perUnit === undefined) {
    throw new UnitError('unknown-unit', `amount: expected mm, cm, m, in, ft or yd, found "${word}" in "${text}"`);
  }
  const scaled = scaleDecimal(match[1] ?? '', perUnit);
  if (!scaled.ok) {
    const code = scaled.problem === 'not-a-number' ? 'not-a-quantity' : scaled.problem;
    throw new UnitError(code, `amount: expected ${example}, found "${text}"`);
  }
  if (scaled.value < 0) throw new UnitError('out-of-range', `amount: expected 0 or more, found "${text}"`);
  return scaled.value;
}

/** "120", "54.7 yd", "49.3 m" (in Spanish "49,3 m"): in the shop's own way, rounded to what is worth reading. */
export function amountWords(amount: number, unit: SupplyUnit, shown: LengthUnit, language: Language): string {
  if (unit === 'piece') return decimalsIn(String(Math.round(amount * 10) / 10), shown, language);
  const roll = rollUnit(shown);
  return `${decimalsIn((amount / (LONG_UNITS[roll] ?? 1)).toFixed(1), shown, language)} ${roll}`;
}

/** A float in what {@link amountWords} shows, for charts and files. */
export function amountShown(amount: number, unit: SupplyUnit, shown: LengthUnit): number {
  return unit === 'piece' ? amount : amount / (LONG_UNITS[rollUnit(shown)] ?? 1);
}

/** What one parcel takes at most by a single use: how lumpy the demand is. */
export function lumpOf({ uses }: Supply): number {
  return Math.max(1, ...uses.map((use) => use.amount));
}
