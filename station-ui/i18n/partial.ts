import type { Language } from '#shared/words/language.ts';

export interface PartialWords {
  readonly open: string;
  readonly which: string;
  readonly then: string;
  readonly follows: string;
  readonly dropped: string;
  readonly send: (pieces: number) => string;
  readonly keep: string;
  readonly goesWithout: (sku: string, who: string, when: string) => string;
  readonly inOrder: string;
  readonly comesNot: string;
  readonly restOf: string;
  readonly waitsForPiece: string;
  readonly isHere: string;
  readonly failures: Readonly<Record<string, string>>;
}

const en: PartialWords = {
  open: 'Send it without a piece …',
  which: 'Which pieces are not there?',
  then: 'What becomes of them?',
  follows: 'They follow in a parcel of their own, when they are there',
  dropped: 'They do not come: the buyer is paid back elsewhere',
  send: (pieces) => (pieces === 1 ? 'Send the other piece' : `Send the other ${String(pieces)} pieces`),
  keep: 'Leave the order as it is',
  goesWithout: (sku, who, when) => `Goes without ${sku}, said ${who === '' ? '' : `by ${who} `}${when}.`,
  inOrder: 'It follows in order',
  comesNot: 'It does not come.',
  restOf: 'The rest of order',
  waitsForPiece: 'It waits until its pieces are there.',
  isHere: 'The pieces are here: let it be packed',
  failures: {
    'in-hand': 'A bench has it in hand: give it back on the page The day first.',
    'not-waiting': 'It no longer waits.',
    combined: 'It is made of several orders: take them apart on the page Orders first.',
    'parcel-finished': 'A parcel of it is packed already.',
    'folded-ahead': 'Its pieces are folded already: let them go at the bench first.',
    'nothing-left': 'Nothing would be left to send.',
  },
};

const es: PartialWords = {
  open: 'Enviarlo sin una prenda…',
  which: '¿Qué prendas no están?',
  then: '¿Qué pasa con ellas?',
  follows: 'Van después, en un paquete propio, cuando estén',
  dropped: 'No van: se devuelve el dinero por otra vía',
  send: (pieces) => (pieces === 1 ? 'Enviar la otra prenda' : `Enviar las otras ${String(pieces)} prendas`),
  keep: 'Dejar el pedido como está',
  goesWithout: (sku, who, when) => `Va sin ${sku}, lo dijo ${who === '' ? 'alguien' : who} ${when}.`,
  inOrder: 'Va después en el pedido',
  comesNot: 'No va.',
  restOf: 'El resto del pedido',
  waitsForPiece: 'Espera hasta que estén sus prendas.',
  isHere: 'Las prendas están: que se embale',
  failures: {
    'in-hand': 'Una mesa lo tiene en mano: libérelo antes en la página El día.',
    'not-waiting': 'Ya no espera.',
    combined: 'Agrupa varios pedidos: sepárelos antes en la página Pedidos.',
    'parcel-finished': 'Ya hay un paquete preparado.',
    'folded-ahead': 'Sus prendas ya están dobladas: libérelas antes en la mesa.',
    'nothing-left': 'No quedaría nada que enviar.',
  },
};

export const partialWords: Readonly<Record<Language, PartialWords>> = { en, es };
