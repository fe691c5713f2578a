import type { Language } from '#shared/words/language.ts';

export interface CombiningWords {
  readonly title: (count: number) => string;
  readonly how: string;
  readonly columns: {
    readonly orders: string;
    readonly buyer: string;
    readonly pieces: string;
    readonly apart: string;
    readonly together: string;
    readonly saves: string;
  };
  readonly parcels: (count: number) => string;
  readonly take: string;
  readonly takeFor: (orders: string) => string;
  readonly decline: string;
  readonly declineFor: (orders: string) => string;
  readonly took: (orders: string) => string;
  readonly declined: (orders: string) => string;
  readonly taken: (count: number) => string;
  readonly part: string;
  readonly partFor: (orders: string) => string;
  readonly parted: (orders: string) => string;
  /** where an order is that became a part of another */
  readonly partOf: (order: string) => string;
}

const en: CombiningWords = {
  title: (count) => (count === 1 ? 'One buyer has several orders' : `${String(count)} buyers have several orders`),
  how: 'Same buyer, address and service. Taken together they become one order to pack; its slip names them all. It can be taken apart until a bench has it in hand.',
  columns: {
    orders: 'Orders',
    buyer: 'Buyer',
    pieces: 'Pieces',
    apart: 'Each by itself',
    together: 'Together',
    saves: 'Saves',
  },
  parcels: (count) => (count === 1 ? '1 parcel' : `${String(count)} parcels`),
  take: 'Pack together',
  takeFor: (orders) => `Pack orders ${orders} together`,
  decline: 'Leave apart',
  declineFor: (orders) => `Leave orders ${orders} apart`,
  took: (orders) => `${orders} is one order to pack now`,
  declined: (orders) => `${orders} stay apart`,
  taken: (count) =>
    count === 1 ? 'One order is combined of several' : `${String(count)} orders are combined of several`,
  part: 'Take apart',
  partFor: (orders) => `Take order ${orders} apart`,
  parted: (orders) => `${orders} wait each by itself again`,
  partOf: (order) => `Goes in one parcel with others, as order ${order}`,
};

const es: CombiningWords = {
  title: (count) =>
    count === 1 ? 'Un comprador tiene varios pedidos' : `${String(count)} compradores tienen varios pedidos`,
  how: 'Mismo comprador, dirección y servicio. Juntos son un solo pedido que embalar; su albarán los nombra todos. Se pueden separar hasta que una mesa lo tenga en mano.',
  columns: {
    orders: 'Pedidos',
    buyer: 'Comprador',
    pieces: 'Prendas',
    apart: 'Por separado',
    together: 'Juntos',
    saves: 'Ahorra',
  },
  parcels: (count) => (count === 1 ? '1 paquete' : `${String(count)} paquetes`),
  take: 'Embalar juntos',
  takeFor: (orders) => `Embalar juntos los pedidos ${orders}`,
  decline: 'Dejar separados',
  declineFor: (orders) => `Dejar separados los pedidos ${orders}`,
  took: (orders) => `${orders} es ahora un solo pedido que embalar`,
  declined: (orders) => `${orders} siguen separados`,
  taken: (count) => (count === 1 ? 'Un pedido agrupa varios' : `${String(count)} pedidos agrupan varios`),
  part: 'Separar',
  partFor: (orders) => `Separar el pedido ${orders}`,
  parted: (orders) => `${orders} esperan otra vez por separado`,
  partOf: (order) => `Va en un paquete con otros, como pedido ${order}`,
};

export const combiningWords: Readonly<Record<Language, CombiningWords>> = { en, es };
