import type { Language } from '#shared/words/language.ts';

/** What the bench says beside packing: the set-aside shelf, and pieces folded ahead. */
export interface SideWorkWords {
  readonly aside: string;
  readonly asideHow: string;
  readonly asideNone: string;
  readonly containers: string;
  readonly containersHow: string;
  readonly containersNone: string;
  readonly orders: (orders: number, pieces: number) => string;
  readonly pieces: (pieces: number) => string;
  readonly place: (place: number | null) => string;
  readonly preparing: (container: string) => string;
  readonly fetch: string;
  readonly fetchHow: string;
  readonly lay: (basket: number) => string;
  readonly layHow: (order: string) => string;
  readonly folded: string;
  readonly foldedHow: string;
  readonly foldedNone: string;
  readonly basket: (basket: number) => string;
  readonly endBatch: string;
  /** on every screen of a batch: how far it is, whose piece it is and where it goes */
  readonly batch: (index: number, of: number, order: string, basket: number) => string;
  readonly noShelf: string;
  readonly means: Readonly<Record<'mark' | 'fetch' | 'lay' | 'folded', string>>;
  /** where the pieces of the order at hand lie */
  readonly lies: Readonly<Record<'basket' | 'aside', (number: number) => string>>;
  /** the same beside a piece */
  readonly liesShort: Readonly<Record<'basket' | 'aside', (number: number) => string>>;
}

const count = (number: number, one: string, many: string): string => `${String(number)} ${number === 1 ? one : many}`;

const en: SideWorkWords = {
  aside: 'The set-aside shelf',
  asideHow: 'choose an order to pack it now',
  asideNone: 'Nothing is set aside.',
  containers: 'Fold ahead for which container?',
  containersHow: 'the pieces of its orders are fetched along the shelves and folded one after the other',
  containersNone: 'No container has two planned orders waiting. Just after a start, look again in a moment.',
  orders: (orders, pieces) => `${count(orders, 'order', 'orders')}, ${count(pieces, 'piece', 'pieces')}`,
  pieces: (pieces) => count(pieces, 'piece', 'pieces'),
  place: (place) => (place === null ? 'on their own shelves' : `place ${String(place)}`),
  preparing: (container) => `Looking for orders: ${container}`,
  fetch: 'Fetch and scan it',
  fetchHow: 'any piece of this batch may come first',
  lay: (basket) => `Lay it in basket ${String(basket)}`,
  layHow: (order) => `everything of order ${order} goes there`,
  folded: 'Folded ahead',
  foldedHow: 'these orders are packed from their baskets when their turn comes',
  foldedNone: 'No order of this batch is folded.',
  basket: (basket) => `basket ${String(basket)}`,
  endBatch: 'End folding ahead?',
  batch: (index, of, order, basket) =>
    `piece ${String(index)} of ${String(of)} · order ${order} · basket ${String(basket)}`,
  noShelf: 'no shelf given',
  means: { mark: 'mark the next one', fetch: 'I have it', lay: 'it lies in its basket', folded: 'back to the orders' },
  lies: {
    basket: (number) => `in basket ${String(number)}`,
    aside: (number) => `set-aside shelf, place ${String(number)}`,
  },
  liesShort: {
    basket: (number) => `basket ${String(number)}`,
    aside: (number) => `place ${String(number)}`,
  },
};

const es: SideWorkWords = {
  aside: 'El estante de apartados',
  asideHow: 'elige un pedido para prepararlo ahora',
  asideNone: 'No hay nada apartado.',
  containers: '¿Para qué embalaje doblar?',
  containersHow: 'las prendas de sus pedidos se buscan por estantes y se doblan una tras otra',
  containersNone:
    'Ningún embalaje tiene dos pedidos planeados en espera. Recién arrancado, mira otra vez en un momento.',
  orders: (orders, pieces) => `${count(orders, 'pedido', 'pedidos')}, ${count(pieces, 'prenda', 'prendas')}`,
  pieces: (pieces) => count(pieces, 'prenda', 'prendas'),
  place: (place) => (place === null ? 'en sus propios estantes' : `lugar ${String(place)}`),
  preparing: (container) => `Buscando pedidos: ${container}`,
  fetch: 'Tráela y léela',
  fetchHow: 'puede ir primero cualquier prenda de la serie',
  lay: (basket) => `Ponla en la cesta ${String(basket)}`,
  layHow: (order) => `ahí va todo lo del pedido ${order}`,
  folded: 'Doblado en serie',
  foldedHow: 'estos pedidos se preparan desde su cesta cuando les toque',
  foldedNone: 'Ningún pedido de esta serie está doblado.',
  basket: (basket) => `cesta ${String(basket)}`,
  endBatch: '¿Dejar de doblar en serie?',
  batch: (index, of, order, basket) =>
    `prenda ${String(index)} de ${String(of)} · pedido ${order} · cesta ${String(basket)}`,
  noShelf: 'sin estante',
  means: { mark: 'marcar el siguiente', fetch: 'la tengo', lay: 'está en su cesta', folded: 'volver a los pedidos' },
  lies: {
    basket: (number) => `en la cesta ${String(number)}`,
    aside: (number) => `estante de apartados, lugar ${String(number)}`,
  },
  liesShort: {
    basket: (number) => `cesta ${String(number)}`,
    aside: (number) => `lugar ${String(number)}`,
  },
};

export const sideWorkWords: Readonly<Record<Language, SideWorkWords>> = { en, es };
