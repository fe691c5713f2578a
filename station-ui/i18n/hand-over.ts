import type { SackVerdict } from '#shared/hand-over/sack.ts';
import type { Language } from '#shared/words/language.ts';
import { plural } from './plural.ts';

/** What the "Hand-over" page says. */
export interface HandOverWords {
  readonly title: string;
  readonly how: string;
  readonly sackOf: (carrier: string) => string;
  readonly collection: (when: string) => string;
  readonly neverComes: string;
  readonly today: string;
  readonly inSack: (count: number) => string;
  readonly missing: (count: number) => string;
  readonly allIn: string;
  readonly nothingYet: string;
  readonly load: string;
  readonly loading: string;
  readonly loadsAt: string;
  readonly noBench: string;
  readonly scan: string;
  readonly scanHint: string;
  readonly verdicts: Readonly<Record<SackVerdict, (order: string, goes: string, sack: string) => string>>;
  readonly columns: Readonly<
    Record<'order' | 'label' | 'buyer' | 'service' | 'mass' | 'finished' | 'bench' | 'carrier', string>
  >;
  readonly byEye: string;
  readonly put: string;
  readonly takeOut: string;
  readonly keep: string;
  readonly keepWhy: string;
  readonly keepSure: string;
  readonly missingTitle: string;
  readonly inTitle: string;
  readonly by: string;
  readonly nobody: string;
  readonly close: (count: number) => string;
  readonly closeLeaving: (count: number) => string;
  readonly overdue: (count: number) => string;
  readonly overdueHow: string;
  readonly look: string;
  readonly sheet: string;
  readonly sheets: string;
  readonly day: string;
  readonly closedAt: string;
  readonly count: string;
  readonly totalMass: string;
  readonly handedBy: string;
  readonly received: string;
  readonly printAt: (bench: string) => string;
  readonly printCards: (bench: string) => string;
  readonly queued: (title: string) => string;
  readonly shipments: string;
  readonly noSheets: string;
  readonly putAway: string;
  readonly parcelOf: (order: string, number: number, of: number) => string;
}

const en: HandOverWords = {
  title: 'Hand-over',
  how: 'Scan every parcel as it goes into its carrier’s sack: here, or at a bench between two orders. A parcel of another carrier is refused. What is labelled and not in the sack is named.',
  sackOf: (carrier) => `Sack of ${carrier}`,
  collection: (when) => `collection ${when}`,
  neverComes: 'no collection in the shop’s files',
  today: 'today',
  inSack: (count) => (count === 1 ? '1 parcel in' : `${String(count)} parcels in`),
  missing: (count) => (count === 1 ? '1 missing' : `${String(count)} missing`),
  allIn: 'nothing missing',
  nothingYet: 'nothing to load yet',
  load: 'Load this sack',
  loading: 'being loaded here',
  loadsAt: 'scanner that loads it',
  noBench: 'this page only',
  scan: 'Scan a label into the sack',
  scanHint: 'label or order code, then Enter',
  verdicts: {
    in: (order) => `In: ${order}`,
    'already-in': (order) => `In before, counted once: ${order}`,
    'wrong-carrier': (order, goes, sack) => `Take it out: ${order} goes with ${goes}, not with ${sack}`,
    'left-before': (order) => `${order} is on an earlier sheet: it should have left`,
    stays: (order) => `${order} stays here: it was kept back`,
    'not-known': (text) => `No parcel of ours: ${text}`,
  },
  columns: {
    order: 'order',
    label: 'label',
    buyer: 'buyer',
    service: 'service',
    mass: 'mass',
    finished: 'finished',
    bench: 'bench',
    carrier: 'carrier',
  },
  byEye: 'checked by eye',
  put: 'It is in',
  takeOut: 'Take out',
  keep: 'Never leaves',
  keepWhy: 'Why does it stay here?',
  keepSure: 'It stays',
  missingTitle: 'Labelled and not in the sack',
  inTitle: 'In the sack',
  by: 'Handed over by',
  nobody: 'not said',
  close: (count) => `Hand over ${plural(count, 'parcel')}`,
  closeLeaving: (count) => `Hand over all the same, leaving ${String(count)} behind`,
  overdue: (count) => (count === 1 ? '1 parcel should have left' : `${String(count)} parcels should have left`),
  overdueHow: 'Labelled on an earlier day, or before its carrier last came. Look for them now.',
  look: 'Show',
  sheet: 'Hand-over sheet',
  sheets: 'Sheets',
  day: 'collection',
  closedAt: 'handed over at',
  count: 'parcels',
  totalMass: 'total mass',
  handedBy: 'Handed over by',
  received: 'Received by (signature, time)',
  printAt: (bench) => `Print at ${bench}`,
  printCards: (bench) => `Sack cards at ${bench}`,
  queued: (title) => `${title}: in the print queue`,
  shipments: 'Shipments file (CSV)',
  noSheets: 'Nothing was handed over yet.',
  putAway: 'Put this away',
  parcelOf: (order, number, of) => (of > 1 ? `${order}, parcel ${String(number)} of ${String(of)}` : order),
};

const es: HandOverWords = {
  title: 'Entrega',
  how: 'Lea cada paquete al meterlo en el saco de su transportista: aquí, o en una mesa entre dos pedidos. Un paquete de otro transportista se rechaza. Lo que tiene etiqueta y no está en el saco se nombra.',
  sackOf: (carrier) => `Saco de ${carrier}`,
  collection: (when) => `recogida ${when}`,
  neverComes: 'sin recogida en los archivos de la tienda',
  today: 'hoy',
  inSack: (count) => (count === 1 ? '1 paquete dentro' : `${String(count)} paquetes dentro`),
  missing: (count) => (count === 1 ? 'falta 1' : `faltan ${String(count)}`),
  allIn: 'no falta nada',
  nothingYet: 'nada que cargar todavía',
  load: 'Cargar este saco',
  loading: 'se carga aquí',
  loadsAt: 'escáner que lo carga',
  noBench: 'solo esta página',
  scan: 'Leer una etiqueta al saco',
  scanHint: 'etiqueta o código del pedido, y Entrar',
  verdicts: {
    in: (order) => `Dentro: ${order}`,
    'already-in': (order) => `Ya estaba, cuenta una vez: ${order}`,
    'wrong-carrier': (order, goes, sack) => `Sáquelo: ${order} va con ${goes}, no con ${sack}`,
    'left-before': (order) => `${order} está en una hoja de entrega anterior: debería haber salido`,
    stays: (order) => `${order} se queda aquí: se retuvo`,
    'not-known': (text) => `No es un paquete nuestro: ${text}`,
  },
  columns: {
    order: 'pedido',
    label: 'etiqueta',
    buyer: 'comprador',
    service: 'servicio',
    mass: 'peso',
    finished: 'terminado',
    bench: 'mesa',
    carrier: 'transportista',
  },
  byEye: 'revisada a ojo',
  put: 'Está dentro',
  takeOut: 'Sacar',
  keep: 'No sale',
  keepWhy: '¿Por qué se queda aquí?',
  keepSure: 'Se queda',
  missingTitle: 'Con etiqueta y fuera del saco',
  inTitle: 'En el saco',
  by: 'Entregado por',
  nobody: 'sin decir',
  close: (count) => `Entregar ${plural(count, 'paquete')}`,
  closeLeaving: (count) => `Entregar de todos modos y dejar ${String(count)}`,
  overdue: (count) =>
    count === 1 ? '1 paquete debería haber salido' : `${String(count)} paquetes deberían haber salido`,
  overdueHow: 'Con etiqueta de un día anterior, o de antes de la última recogida. Búsquelos ahora.',
  look: 'Ver',
  sheet: 'Hoja de entrega',
  sheets: 'Hojas',
  day: 'recogida',
  closedAt: 'entregado a las',
  count: 'paquetes',
  totalMass: 'peso total',
  handedBy: 'Entregado por',
  received: 'Recibido por (firma y hora)',
  printAt: (bench) => `Imprimir en ${bench}`,
  printCards: (bench) => `Tarjetas de saco en ${bench}`,
  queued: (title) => `${title}: en la cola de impresión`,
  shipments: 'Archivo de envíos (CSV)',
  noSheets: 'Todavía no se entregó nada.',
  putAway: 'Cerrar esto',
  parcelOf: (order, number, of) => (of > 1 ? `${order}, paquete ${String(number)} de ${String(of)}` : order),
};

export const handOverWords: Readonly<Record<Language, HandOverWords>> = { en, es };
