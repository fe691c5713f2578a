import type { Risk } from '#shared/day-board/risk.ts';
import type { DayOrder } from '#shared/wire/day.ts';
import { minutesAndSeconds, span } from './time.ts';
import type { Language } from '#shared/words/language.ts';

/** What the "Day" page says. */
export interface DayWords {
  readonly title: string;
  readonly wall: string;
  readonly leaveWall: string;
  readonly live: string;
  readonly lost: string;
  readonly doneToday: (count: number) => string;
  readonly waiting: (count: number) => string;
  readonly pace: (seconds: number, benches: number, orders: number) => string;
  readonly overdue: (count: number) => string;
  readonly collections: string;
  readonly collection: (when: string, carriers: string) => string;
  readonly noCarrier: string;
  readonly left: (time: string) => string;
  readonly gone: string;
  readonly needs: (time: string) => string;
  readonly allOrders: string;
  readonly itsOrders: string;
  readonly risks: Readonly<Record<Risk, string>>;
  readonly riskCounts: Readonly<Record<Risk, (count: number) => string>>;
  readonly states: Readonly<Record<DayOrder['state'], string>>;
  readonly packing: (count: number) => string;
  readonly setAside: (count: number) => string;
  readonly benches: string;
  readonly nobody: string;
  readonly free: string;
  readonly at: (order: string, step: string, time: string) => string;
  readonly release: string;
  readonly reallyRelease: (order: string) => string;
  readonly releasedBy: string;
  readonly keep: string;
  readonly releaseFailures: Readonly<Record<'not-packing' | 'parcel-finished' | 'other', string>>;
  readonly devicesWell: string;
  readonly orders: string;
  readonly columns: Readonly<
    Record<'id' | 'buyer' | 'pieces' | 'leaves' | 'risk' | 'chance' | 'state' | 'bench' | 'reason', string>
  >;
  readonly time: (minutes: number) => string;
  readonly nothingOpen: string;
  readonly asideTitle: string;
}

const en: DayWords = {
  title: 'The day',
  wall: 'Large screen',
  leaveWall: 'Back to the office',
  live: 'live',
  lost: 'the link is lost: this is how it was',
  doneToday: (count) => `${String(count)} done today`,
  waiting: (count) => `${String(count)} to do`,
  pace: (seconds, benches, orders) =>
    `${minutesAndSeconds(seconds)} an order, ${benches === 1 ? '1 bench' : `${String(benches)} benches`}${orders === 0 ? ' (a guess: nothing packed yet)' : ''}`,
  overdue: (count) => (count === 1 ? '1 parcel should have left' : `${String(count)} parcels should have left`),
  collections: 'Collections',
  collection: (when, carriers) => `${when} · ${carriers}`,
  noCarrier: 'no collection',
  left: (time) => `in ${time}`,
  gone: 'gone',
  needs: (time) => `needs ${time}`,
  allOrders: 'All orders',
  itsOrders: 'Its orders',
  risks: { missed: 'missed', late: 'too late', tight: 'tight', safe: 'in time' },
  riskCounts: {
    missed: (count) => `${String(count)} missed`,
    late: (count) => `${String(count)} too late`,
    tight: (count) => `${String(count)} tight`,
    safe: (count) => `${String(count)} in time`,
  },
  states: { open: 'waiting', packing: 'packing', 'set-aside': 'set aside' },
  packing: (count) => `${String(count)} packing`,
  setAside: (count) => `${String(count)} set aside`,
  benches: 'Benches',
  nobody: 'nobody signed on',
  free: 'no order in hand',
  at: (order, step, time) => `${order}: ${step}, ${time}`,
  release: 'Release order',
  reallyRelease: (order) => `Take ${order} from this bench? Any bench may then pack it.`,
  releasedBy: 'Who releases it',
  keep: 'Leave it there',
  releaseFailures: {
    'not-packing': 'The order is not at this bench any more.',
    'parcel-finished': 'A parcel of it is packed already: set it aside at the bench.',
    other: 'The server could not do this.',
  },
  devicesWell: 'devices work',
  orders: 'Orders not packed yet',
  columns: {
    id: 'order',
    buyer: 'buyer',
    pieces: 'pieces',
    leaves: 'leaves at',
    risk: 'risk',
    chance: 'chance',
    state: 'state',
    bench: 'bench',
    reason: 'reason',
  },
  time: span,
  nothingOpen: 'Every order is packed.',
  asideTitle: 'Set aside',
};

const es: DayWords = {
  title: 'El día',
  wall: 'Pantalla grande',
  leaveWall: 'Volver a la oficina',
  live: 'en vivo',
  lost: 'sin conexión: así estaba',
  doneToday: (count) => (count === 1 ? '1 hecho hoy' : `${String(count)} hechos hoy`),
  waiting: (count) => `${String(count)} por hacer`,
  pace: (seconds, benches, orders) =>
    `${minutesAndSeconds(seconds)} por pedido, ${benches === 1 ? '1 mesa' : `${String(benches)} mesas`}${orders === 0 ? ' (estimado: nada empacado aún)' : ''}`,
  overdue: (count) =>
    count === 1 ? '1 paquete debería haber salido' : `${String(count)} paquetes deberían haber salido`,
  collections: 'Recogidas',
  collection: (when, carriers) => `${when} · ${carriers}`,
  noCarrier: 'sin recogida',
  left: (time) => `en ${time}`,
  gone: 'ya pasó',
  needs: (time) => `requiere ${time}`,
  allOrders: 'Todos los pedidos',
  itsOrders: 'Sus pedidos',
  risks: { missed: 'sin salir', late: 'no llega', tight: 'justo', safe: 'a tiempo' },
  riskCounts: {
    missed: (count) => `${String(count)} sin salir`,
    late: (count) => (count === 1 ? '1 no llega' : `${String(count)} no llegan`),
    tight: (count) => `${String(count)} ${count === 1 ? 'justo' : 'justos'}`,
    safe: (count) => `${String(count)} a tiempo`,
  },
  states: { open: 'en espera', packing: 'en mesa', 'set-aside': 'apartado' },
  packing: (count) => `${String(count)} en mesa`,
  setAside: (count) => `${String(count)} ${count === 1 ? 'apartado' : 'apartados'}`,
  benches: 'Mesas',
  nobody: 'nadie registrado',
  free: 'sin pedido en mano',
  at: (order, step, time) => `${order}: ${step}, ${time}`,
  release: 'Liberar pedido',
  reallyRelease: (order) => `¿Quitar ${order} de esta mesa? Cualquier mesa podrá prepararlo.`,
  releasedBy: 'Quién lo libera',
  keep: 'Dejarlo ahí',
  releaseFailures: {
    'not-packing': 'El pedido ya no está en esta mesa.',
    'parcel-finished': 'Ya hay un paquete suyo hecho: apártalo en la mesa.',
    other: 'El servidor no pudo hacerlo.',
  },
  devicesWell: 'los aparatos funcionan',
  orders: 'Pedidos sin empacar',
  columns: {
    id: 'pedido',
    buyer: 'comprador',
    pieces: 'prendas',
    leaves: 'sale a las',
    risk: 'riesgo',
    chance: 'probabilidad',
    state: 'estado',
    bench: 'mesa',
    reason: 'motivo',
  },
  time: span,
  nothingOpen: 'Todos los pedidos están empacados.',
  asideTitle: 'Apartados',
};

export const dayWords: Readonly<Record<Language, DayWords>> = { en, es };
