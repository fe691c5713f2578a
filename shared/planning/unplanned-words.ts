import { PLAN_ERROR_CODES, UNPLANNED, type PlanErrorCode } from './plan-error.ts';
import type { Localised } from '#shared/words/language.ts';

const WORDS: Readonly<Record<PlanErrorCode, Localised>> = {
  'no-pieces': { en: 'it has no pieces', es: 'no tiene prendas' },
  'too-many-pieces': {
    en: 'it has too many pieces for one order: divide it',
    es: 'tiene demasiadas prendas para un pedido: hay que dividirlo',
  },
  'unknown-piece': {
    en: 'it names a piece that nobody entered',
    es: 'nombra una prenda que nadie ha dado de alta',
  },
  'unknown-kind': {
    en: 'it has a piece of a kind that the shop does not know',
    es: 'tiene una prenda de un tipo que la tienda no conoce',
  },
  'nothing-fits': { en: 'no container and service fit it', es: 'ningún embalaje ni servicio le sirve' },
  'no-rates': {
    en: 'no rate card is in force on this day',
    es: 'ninguna tarifa está en vigor ese día',
  },
  'took-too-long': {
    en: 'planning it took too long and was given up: divide it',
    es: 'calcular su plan tardaba demasiado y se ha dejado: hay que dividirlo',
  },
};

/** Why an order that was set aside has no plan; null where its reason is another one. */
export function unplannedWords(reason: string | null): Localised | null {
  const code = PLAN_ERROR_CODES.find((each) => `${UNPLANNED}${each}` === reason);
  return code === undefined ? null : WORDS[code];
}
