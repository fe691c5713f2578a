import { decimalsIn } from './decimal-mark.ts';
import { formatScaled, scaleDecimal } from './decimal.ts';
import { UnitError } from './unit-error.ts';
import type { Language } from '#shared/words/language.ts';

/**
 * An exact mass: an integer count of base units of 1/16,000,000,000 g.
 *
 * The base unit is chosen so that 0.0001 oz, 0.0001 lb and 0.0001 g are all whole numbers of it
 * (1 oz = 28.349523125 g exactly, international avoirdupois, 1959). Sums stay exact up to 560 kg.
 */
export type Mass = number & { readonly __brand: 'Mass' };

export const MASS_UNITS = ['oz', 'lb', 'g', 'kg'] as const;
export type MassUnit = (typeof MASS_UNITS)[number];

/** Base units in one of each unit. */
const PER_UNIT: Readonly<Record<MassUnit, number>> = {
  oz: 453_592_370_000,
  lb: 7_257_477_920_000,
  g: 16_000_000_000,
  kg: 16_000_000_000_000,
};

export const ZERO_MASS = 0 as Mass;

/** @throws UnitError out-of-range when the count is no safe integer */
export function massFromBase(count: number): Mass {
  if (!Number.isSafeInteger(count)) {
    throw new UnitError('out-of-range', `mass: expected a whole number of base units, found ${String(count)}`);
  }
  return count as Mass;
}

/**
 * Decimal text in a unit to an exact mass.
 * @throws UnitError not-a-quantity, too-fine (below 0.0001 of oz, lb or g) or too-large (above about 560 kg)
 */
export function massFromDecimal(text: string, unit: MassUnit): Mass {
  const scaled = scaleDecimal(text, PER_UNIT[unit]);
  if (scaled.ok) return scaled.value as Mass;
  if (scaled.problem === 'not-a-number') {
    throw new UnitError('not-a-quantity', `mass: expected a decimal number of ${unit}, found "${text}"`);
  }
  if (scaled.problem === 'too-fine') {
    throw new UnitError('too-fine', `mass: "${text}" ${unit} is finer than this station counts (0.0001 ${unit})`);
  }
  throw new UnitError('too-large', `mass: "${text}" ${unit} is larger than this station counts (560 kg)`);
}

const UNIT_WORDS: Readonly<Record<string, MassUnit>> = {
  oz: 'oz',
  ounce: 'oz',
  ounces: 'oz',
  lb: 'lb',
  lbs: 'lb',
  pound: 'lb',
  pounds: 'lb',
  g: 'g',
  gram: 'g',
  grams: 'g',
  kg: 'kg',
  kilogram: 'kg',
  kilograms: 'kg',
};

/**
 * Text with a unit, such as "15.9oz", "1 lb 2.5 oz" or "451 g", to an exact mass.
 * @throws UnitError not-a-quantity, unknown-unit, too-fine or too-large
 */
export function parseMass(text: string): Mass {
  const parts = [...text.trim().matchAll(/([+-]?[\d.]+)\s*([a-z]+)\s*/gi)];
  const covered = parts.map((part) => part[0]).join('');
  if (parts.length === 0 || covered.length !== text.trim().length) {
    throw new UnitError('not-a-quantity', `mass: expected a number and a unit such as 15.9oz or 451g, found "${text}"`);
  }
  let total = 0;
  for (const [, digits = '', word = ''] of parts) {
    const unit = UNIT_WORDS[word.toLowerCase()];
    if (unit === undefined) {
      throw new UnitError('unknown-unit', `mass: expected oz, lb, g or kg, found "${word}" in "${text}"`);
    }
    total += massFromDecimal(digits, unit);
  }
  return massFromBase(total);
}

export function addMass(...masses: readonly Mass[]): Mass {
  return massFromBase(masses.reduce((sum, mass) => sum + mass, 0));
}

export function subtractMass(a: Mass, b: Mass): Mass {
  return massFromBase(a - b);
}

/** A whole number of equal masses, such as 500 divisions. */
export function timesMass(mass: Mass, count: number): Mass {
  return massFromBase(mass * count);
}

/** The nearest exact mass to a model's grams (a float, for expected values and spreads only). */
export function massFromGrams(grams: number): Mass {
  return massFromBase(Math.round(grams * PER_UNIT.g));
}

/** Grams as a float, for models and charts; never for a price. */
export function toGrams(mass: Mass): number {
  return mass / PER_UNIT.g;
}

/** A float in the unit, for charts and models; never for a price. */
export function massIn(mass: Mass, unit: MassUnit): number {
  return mass / PER_UNIT[unit];
}

/** Decimal text without its unit: "15.9". Rounds half away from zero. */
export function massDigits(mass: Mass, unit: MassUnit, places: number): string {
  return formatScaled(mass, PER_UNIT[unit], places);
}

/** Decimal text with its unit: "15.9 oz", and "183,2 g" in Spanish. */
export function formatMass(mass: Mass, unit: MassUnit, places: number, language: Language = 'en'): string {
  return `${decimalsIn(massDigits(mass, unit, places), unit, language)} ${unit}`;
}

/**
 * As many decimals as the mass needs in the unit, four at most: "16 oz", "0.1 oz". Whole pounds above the first are said
 * as pounds, "20 lb", as price lists do.
 */
export function formatMassPlain(mass: Mass, unit: MassUnit, language: Language = 'en'): string {
  if (unit === 'oz' && mass > PER_UNIT.lb && mass % PER_UNIT.lb === 0) return formatMassPlain(mass, 'lb', language);
  const text = massDigits(mass, unit, 4).replace(/\.?0+$/, '');
  return `${decimalsIn(text, unit, language)} ${unit}`;
}
