import { toMillimetres, type Length } from '#shared/units/length.ts';
import { massFromGrams, massIn, toGrams, type Mass } from '#shared/units/mass.ts';
import type { PlanCost } from '#shared/planning/types.ts';

/** How quantities stand in a JSON document: the unit is the field's name. */

export interface MassDocument {
  readonly g: number;
  readonly oz: number;
}

export interface LengthDocument {
  readonly mm: number;
  readonly in: number;
}

function rounded(value: number, places: number): number {
  return Number(value.toFixed(places));
}

/** To the fourth place, as fine as a mass can be given. */
export function massDocument(mass: Mass): MassDocument {
  return { g: rounded(toGrams(mass), 4), oz: rounded(massIn(mass, 'oz'), 4) };
}

/** @param grams an expected value or a spread */
export function gramsDocument(grams: number): MassDocument {
  return massDocument(massFromGrams(grams));
}

/** @param millimetres of a geometry */
export function millimetresDocument(millimetres: number): LengthDocument {
  return { mm: rounded(millimetres, 1), in: rounded(millimetres / 25.4, 2) };
}

export function lengthDocument(length: Length): LengthDocument {
  return millimetresDocument(toMillimetres(length));
}

/** Expected values, in minor units with fractions. */
export function costDocument(cost: PlanCost): PlanCost & { readonly unit: 'minor' } {
  const { currency, postage, materials, labour, risk, total } = cost;
  return {
    currency,
    unit: 'minor',
    postage: rounded(postage, 4),
    materials: rounded(materials, 4),
    labour: rounded(labour, 4),
    risk: rounded(risk, 4),
    total: rounded(total, 4),
  };
}

export function chance(probability: number): number {
  return rounded(probability, 6);
}
