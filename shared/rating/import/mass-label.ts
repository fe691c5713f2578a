import type { Mass, MassUnit } from '#shared/units/mass.ts';
import { parseMass } from '#shared/units/mass.ts';
import { UnitError } from '#shared/units/unit-error.ts';
import { tidy } from './cell.ts';
import type { DecimalMark } from './price-cell.ts';

const UNIT_WORDS: readonly (readonly [RegExp, MassUnit])[] = [
  [/\b(?:oz|ounces?|onzas?)\b/i, 'oz'],
  [/\b(?:lbs?|pounds?|libras?)\b/i, 'lb'],
  [/\b(?:kgs?|kilos?|kilograms?|kilogramos?)\b/i, 'kg'],
  [/\b(?:g|gr|grams?|gramos?)\b/i, 'g'],
];

/** The one unit of mass that a heading names, such as "Weight not over (lb)"; null when it names none or several. */
export function unitNamed(text: string): MassUnit | null {
  const found = UNIT_WORDS.filter(([word]) => word.test(text)).map(([, unit]) => unit);
  return found.length === 1 ? (found[0] ?? null) : null;
}

export type MassLabel =
  | { readonly is: 'mass'; readonly mass: Mass }
  | { readonly is: 'no-unit' }
  | { readonly is: 'other' }
  | { readonly is: 'wrong'; readonly message: string };

/** Words that stand around the number of a row: "up to", "Not over", "hasta". */
const AROUND =
  /[≤<]|\b(?:weight|not|over|exceeding|more|than|up|to|through|until|and|under|or|less|max(?:imum)?|above|peso|hasta|no|más|mas|de|máx(?:imo)?)\b\.?/giu;

/**
 * The highest mass of a row from its label: "up to 8 oz", "1 lb 8 oz", "0.5 kg", "Not over 2", "over 8 to 12 oz". Of a range,
 * the upper end.
 * @param unit of a number that names none
 */
export function readMassLabel(text: string, unit: MassUnit | null, mark: DecimalMark): MassLabel {
  const upper = upperEnd(tidy(text));
  if (!/\d/.test(upper)) return { is: 'other' };
  const bare = tidy(upper.replace(AROUND, ' '));
  const number =
    mark === ',' ? bare.replace(/(\d)\.(?=\d{3}\b)/g, '$1').replace(',', '.') : bare.replace(/(\d),(?=\d{3}\b)/g, '$1');
  const words = number
    .replace(/\bonzas?\b/gi, 'oz')
    .replace(/\blibras?\b/gi, 'lb')
    .replace(/\b(?:kgs|kilos?|kilogramos?)\b/gi, 'kg')
    .replace(/\b(?:gr|gramos?)\b/gi, 'g')
    .replace(/([a-z])\./gi, '$1');
  if (/^[\d.]+$/.test(words)) return unit === null ? { is: 'no-unit' } : parsed(`${words} ${unit}`);
  return /^(?:[\d.]+ ?[a-z]+ ?)+$/i.test(words) ? parsed(words) : { is: 'other' };
}

/** "8.1 - 12 oz", "8oz - 12oz" and "over 8 to 12 oz" end at 12 oz. */
function upperEnd(text: string): string {
  const parts = text.split(
    /\s*[–—]\s*|\s*(?<=\d\s*[a-z]*\s*)-(?=\s*\d)\s*|(?<=\d\s*(?:oz|lb|lbs|g|kg)?)\s+(?:to|through|up to|hasta|a)\s+/i,
  );
  return parts.at(-1) ?? text;
}

function parsed(text: string): MassLabel {
  try {
    const mass = parseMass(text);
    return mass > 0 ? { is: 'mass', mass } : { is: 'wrong', message: `expected more than nothing, found "${text}"` };
  } catch (error) {
    if (!(error instanceof UnitError)) throw error;
    return { is: 'wrong', message: error.message };
  }
}
