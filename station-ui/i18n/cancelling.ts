import type { Language } from '#shared/words/language.ts';

export interface CancellingWords {
  readonly cancel: string;
  readonly really: (order: string) => string;
  readonly keep: string;
  readonly reopen: string;
  readonly failures: Readonly<Record<string, string>>;
}

const en: CancellingWords = {
  cancel: 'Cancel the order',
  really: (order) => `Order ${order} will not be packed, and its pieces are free for others. Cancel it?`,
  keep: 'Keep it',
  reopen: 'Let it wait again',
  failures: {
    'in-hand': 'A bench has it in hand: give it back on the page The day first.',
    'not-waiting': 'It no longer waits.',
    combined: 'It is made of several orders: take them apart on the page Orders first.',
    'parcel-finished': 'A parcel of it is packed already.',
    'piece-sold': 'One of its pieces is in another order by now.',
  },
};

const es: CancellingWords = {
  cancel: 'Anular el pedido',
  really: (order) => `El pedido ${order} no se embalará y sus prendas quedan libres para otros. ¿Anularlo?`,
  keep: 'Conservarlo',
  reopen: 'Que espere otra vez',
  failures: {
    'in-hand': 'Una mesa lo tiene en mano: libérelo antes en la página El día.',
    'not-waiting': 'Ya no espera.',
    combined: 'Agrupa varios pedidos: sepárelos antes en la página Pedidos.',
    'parcel-finished': 'Ya hay un paquete preparado.',
    'piece-sold': 'Una de sus prendas está ya en otro pedido.',
  },
};

export const cancellingWords: Readonly<Record<Language, CancellingWords>> = { en, es };
