import type { StockState } from '#shared/supplies/types.ts';
import type { StockMoveKind } from '#shared/wire/supplies.ts';
import type { Language } from '#shared/words/language.ts';

/** What the "Supplies" page says. */
export interface SuppliesWords {
  readonly title: string;
  readonly how: (level: string, days: string) => string;
  readonly states: Readonly<Record<StockState, string>>;
  readonly columns: Readonly<
    Record<
      'name' | 'state' | 'onHand' | 'onOrder' | 'perDay' | 'cover' | 'reorderAt' | 'safety' | 'toOrder' | 'countedAt',
      string
    >
  >;
  readonly days: (days: string) => string;
  readonly packs: (packs: number, pack: string) => string;
  readonly nothing: string;
  readonly never: string;
  readonly look: string;
  readonly allWell: string;
  readonly short: (count: number) => string;
  readonly change: (name: string) => string;
  readonly kinds: Readonly<Record<StockMoveKind, string>>;
  readonly what: string;
  readonly amount: string;
  readonly inWhat: string;
  readonly units: Readonly<Record<'piece' | 'yd' | 'm', string>>;
  readonly inPacks: (pack: string) => string;
  readonly reason: string;
  readonly reasons: readonly string[];
  readonly who: string;
  readonly nobody: string;
  readonly note: string;
  readonly noted: (name: string) => string;
  readonly demand: string;
  readonly day: string;
  readonly used: string;
  readonly average: string;
  readonly moves: string;
  readonly at: string;
  readonly after: string;
  readonly parcel: string;
  readonly orderList: string;
  readonly nothingToOrder: string;
  readonly total: string;
  readonly left: string;
  readonly cost: string;
  readonly printAt: string;
  readonly printList: string;
  readonly queued: (title: string) => string;
  readonly close: string;
}

const en: SuppliesWords = {
  title: 'Supplies',
  how: (level, days) =>
    `Each finished parcel takes what it used off the shelf. It is time to order when what is left would not last the lead time in ${level}\u00a0% of the times; demand is that of the last ${days} days. Nobody is warned of what was never counted.`,
  states: { 'not-counted': 'not counted', out: 'none left', low: 'order now', enough: 'enough' },
  columns: {
    name: 'supply',
    state: 'state',
    onHand: 'on the shelf',
    onOrder: 'on order',
    perDay: 'used a day',
    cover: 'days of cover',
    reorderAt: 'order at',
    safety: 'safety stock',
    toOrder: 'to order',
    countedAt: 'counted',
  },
  days: (days) => days,
  packs: (packs, pack) => `${String(packs)} × ${pack}`,
  nothing: '–',
  never: 'never',
  look: 'Open',
  allWell: 'Nothing has to be ordered.',
  short: (count) => (count === 1 ? '1 supply runs short' : `${String(count)} supplies run short`),
  change: (name) => `${name}: note a change`,
  kinds: {
    used: 'used by a parcel',
    counted: 'counted',
    received: 'came in',
    ordered: 'ordered',
    taken: 'taken away',
  },
  what: 'What happened',
  amount: 'How much',
  inWhat: 'in',
  units: { piece: 'pieces', yd: 'yards', m: 'metres' },
  inPacks: (pack) => `packs of ${pack}`,
  reason: 'Why',
  reasons: ['shelf counted', 'damaged', 'used for something else', 'given away', 'wrong delivery'],
  who: 'Who',
  nobody: 'not said',
  note: 'Note it',
  noted: (name) => `${name}: noted`,
  demand: 'What each day took',
  day: 'day',
  used: 'used',
  average: 'taken for the sums',
  moves: 'Every change, newest first',
  at: 'when',
  after: 'then on the shelf',
  parcel: 'parcel',
  orderList: 'Order list',
  nothingToOrder: 'Nothing has to be ordered now.',
  total: 'Total',
  left: 'left',
  cost: 'cost',
  printAt: 'Print at',
  printList: 'Print the list',
  queued: (title) => `${title}: in the print queue`,
  close: 'Put this away',
};

const es: SuppliesWords = {
  title: 'Suministros',
  how: (level, days) =>
    `Cada paquete terminado descuenta lo que usó. Toca pedir cuando lo que queda no alcanzaría hasta la entrega el ${level}\u00a0% de las veces; la demanda es la de los últimos ${days} días. De lo que nunca se contó no se avisa.`,
  states: { 'not-counted': 'sin contar', out: 'no queda', low: 'pedir ya', enough: 'hay bastante' },
  columns: {
    name: 'suministro',
    state: 'estado',
    onHand: 'en el estante',
    onOrder: 'en camino',
    perDay: 'se usa al día',
    cover: 'días cubiertos',
    reorderAt: 'pedir al llegar a',
    safety: 'reserva de seguridad',
    toOrder: 'por pedir',
    countedAt: 'contado',
  },
  days: (days) => days,
  packs: (packs, pack) => `${String(packs)} × ${pack}`,
  nothing: '–',
  never: 'nunca',
  look: 'Abrir',
  allWell: 'No hay que pedir nada.',
  short: (count) => (count === 1 ? '1 suministro escasea' : `${String(count)} suministros escasean`),
  change: (name) => `${name}: anotar un cambio`,
  kinds: {
    used: 'usado en un paquete',
    counted: 'contado',
    received: 'llegó',
    ordered: 'pedido',
    taken: 'retirado',
  },
  what: 'Qué pasó',
  amount: 'Cuánto',
  inWhat: 'en',
  units: { piece: 'unidades', yd: 'yardas', m: 'metros' },
  inPacks: (pack) => `paquetes de ${pack}`,
  reason: 'Motivo',
  reasons: ['recuento del estante', 'estropeado', 'usado para otra cosa', 'regalado', 'entrega equivocada'],
  who: 'Quién',
  nobody: 'sin decir',
  note: 'Anotar',
  noted: (name) => `${name}: anotado`,
  demand: 'Lo que gastó cada día',
  day: 'día',
  used: 'usado',
  average: 'tomado para el cálculo',
  moves: 'Todos los cambios, el último primero',
  at: 'cuándo',
  after: 'queda en el estante',
  parcel: 'paquete',
  orderList: 'Lista de pedido',
  nothingToOrder: 'Ahora no hay que pedir nada.',
  total: 'Importe total',
  left: 'quedan',
  cost: 'coste',
  printAt: 'Imprimir en',
  printList: 'Imprimir la lista',
  queued: (title) => `${title}: en la cola de impresión`,
  close: 'Cerrar esto',
};

export const suppliesWords: Readonly<Record<Language, SuppliesWords>> = { en, es };
