import type { Language } from '#shared/words/language.ts';

interface SlipWords {
  /** margin to the ceiling, the ceiling, and the margin of error */
  readonly below: (margin: string, ceiling: string, error: string) => string;
  /** a piece that was not there, with the order in which it comes */
  readonly follows: (piece: string, order: string) => string;
  readonly comesNot: (piece: string) => string;
  readonly weighAgain: string;
  readonly makeLighter: string;
  readonly makeLighterBy: (what: string, by: string) => string;
  readonly payNext: string;
  /** the next bracket belongs to another service */
  readonly payOther: (service: string) => string;
}

/** What a slip says of a weighing. A margin that is negative lies above the ceiling and shows its sign. */
export const slipWords: Readonly<Record<Language, SlipWords>> = {
  en: {
    below: (margin, ceiling, error) => `${margin} to ${ceiling} (+/- ${error})`,
    follows: (piece, order) => `Follows later: ${piece} (order ${order})`,
    comesNot: (piece) => `Not in this parcel: ${piece}`,
    weighAgain: 'Zero and weigh again',
    makeLighter: 'Make it lighter',
    makeLighterBy: (what, by) => `Make it lighter: ${what}, ${by} less`,
    payNext: 'Pay the next bracket',
    payOther: (service) => `Pay the next bracket: ${service}`,
  },
  es: {
    below: (margin, ceiling, error) => `${margin} hasta ${ceiling} (+/- ${error})`,
    follows: (piece, order) => `Va después: ${piece} (pedido ${order})`,
    comesNot: (piece) => `No va en este paquete: ${piece}`,
    weighAgain: 'Poner a cero y pesar otra vez',
    makeLighter: 'Aligerarlo',
    makeLighterBy: (what, by) => `Aligerarlo: ${what}, ${by} menos`,
    payNext: 'Pagar el tramo siguiente',
    payOther: (service) => `Pagar el tramo siguiente: ${service}`,
  },
};
