import type { Language } from '#shared/words/language.ts';

/** Whoever weighs in ounces and measures in inches in Spanish lives in the United States and writes as everybody there does. */
const WITH_POINT: ReadonlySet<string> = new Set(['oz', 'lb', 'in', 'ft', 'yd', 'ft3']);

/**
 * Plain decimals as they are written beside a unit: "6,8" cm in Spanish, but "15.9" oz (CLDR, es-ES and es-US).
 * @param unit what they count, or what the shop weighs in where they count something else
 */
export function decimalsIn(digits: string, unit: string, language: Language): string {
  return writtenWith(unit, language) === 'comma' ? digits.replace('.', ',') : digits;
}

/** With what a language writes decimals beside a unit. */
export function writtenWith(unit: string, language: Language): 'point' | 'comma' {
  return language === 'es' && !WITH_POINT.has(unit) ? 'comma' : 'point';
}

/** A text with quantities such as "31.5 cm × 20 cm" as the language writes them; what has no such unit stays. */
export function quantitiesIn(text: string, language: Language): string {
  return text.replace(
    /(\d+\.\d+)(\s(?:g|kg|mm|cm|cm3|m)(?![\p{L}\d]))/gu,
    (_, digits: string, unit: string) => `${decimalsIn(digits, unit.trim(), language)}${unit}`,
  );
}
