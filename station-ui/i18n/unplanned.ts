import { ifThere, one } from './say.ts';
import type { Values } from './words.ts';
import { MOST_PIECES } from '#shared/planning/most-pieces.ts';
import type { Language } from '#shared/words/language.ts';

const MOST = String(MOST_PIECES);

function en(v: Values): string {
  const order = ifThere(one(v, 'order'), 'order ') || 'this order';
  switch (one(v, 'why')) {
    case 'no-pieces':
      return `Set aside: ${order} has no pieces. Call for help`;
    case 'too-many-pieces':
      return `Set aside: ${order} has more than ${MOST} pieces. Divide it in the office`;
    case 'unknown-piece':
      return `Set aside: ${order} names a piece that nobody entered. Call for help`;
    case 'unknown-kind':
      return `Set aside: ${order} has a piece of a kind that the shop does not know. Call for help`;
    case 'no-rates':
      return `No rate card is in force today, so ${order} waits: check the server’s date and the rate cards`;
    case 'took-too-long':
      return `Set aside: planning ${order} took too long. Divide it in the office`;
    default:
      return `No container and service fit ${order}: call for help`;
  }
}

function es(v: Values): string {
  const order = ifThere(one(v, 'order'), 'el pedido ') || 'este pedido';
  switch (one(v, 'why')) {
    case 'no-pieces':
      return `Apartado: ${order} no tiene prendas. Pide ayuda`;
    case 'too-many-pieces':
      return `Apartado: ${order} tiene más de ${MOST} prendas. Hay que dividirlo en la oficina`;
    case 'unknown-piece':
      return `Apartado: ${order} nombra una prenda que nadie ha dado de alta. Pide ayuda`;
    case 'unknown-kind':
      return `Apartado: ${order} tiene una prenda de un tipo que la tienda no conoce. Pide ayuda`;
    case 'no-rates':
      return `Hoy no hay ninguna tarifa en vigor y ${order} espera: mira la fecha del servidor y las tarifas`;
    case 'took-too-long':
      return `Apartado: calcular el plan tardaba demasiado para ${order}. Hay que dividirlo en la oficina`;
    default:
      return `Ningún embalaje ni servicio sirve para ${order}: pide ayuda`;
  }
}

/** Why an order cannot be planned, and what to do. */
export const unplanned: Readonly<Record<Language, (values: Values) => string>> = { en, es };
