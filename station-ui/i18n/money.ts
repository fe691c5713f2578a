import type { Decision, ReportBy } from '#shared/reports/report.ts';
import type { Language } from '#shared/words/language.ts';
import { plural } from './plural.ts';

/** What the "Money" page says. */
export interface MoneyWords {
  readonly title: string;
  readonly how: string;
  readonly from: string;
  readonly to: string;
  readonly by: string;
  readonly sides: Readonly<Record<ReportBy, string>>;
  readonly ask: string;
  readonly nothing: string;
  readonly facts: Readonly<
    Record<
      | 'parcels'
      | 'postage'
      | 'paid'
      | 'difference'
      | 'ladder'
      | 'carton'
      | 'close'
      | 'corrections'
      | 'material'
      | 'time',
      string
    >
  >;
  readonly ofParcels: (count: number, all: number) => string;
  readonly ofOrders: (count: number) => string;
  readonly charts: Readonly<Record<'postage' | 'saved' | 'close' | 'material' | 'time' | 'corrections', string>>;
  readonly series: Readonly<Record<'postage' | 'paid' | 'ladder' | 'carton' | 'close' | 'material' | 'time', string>>;
  readonly decisions: Readonly<Record<Decision, string>>;
  readonly decided: string;
  readonly table: string;
  readonly correctedTable: string;
  readonly noCorrections: string;
  readonly corrected: Readonly<
    Record<'order' | 'day' | 'bench' | 'service' | 'ours' | 'carriers' | 'differs' | 'within' | 'ceiling', string>
  >;
  readonly yes: string;
  readonly no: string;
  readonly dearer: (count: number) => string;
  readonly minutes: (minutes: string) => string;
}

const en: MoneyWords = {
  title: 'Money and quality',
  how: 'All of it from the finished parcels and runs as they are stored; material at today’s prices of the shop’s files. “Saved” compares what each order was expected to cost in all with two simpler ways of packing the same pieces.',
  from: 'from',
  to: 'up to',
  by: 'by',
  sides: { day: 'day', kind: 'kind', container: 'container', service: 'service', person: 'person' },
  ask: 'Show',
  nothing: 'No parcel was finished in this time.',
  facts: {
    parcels: 'parcels',
    postage: 'postage',
    paid: 'buyers paid for it',
    difference: 'paid less postage',
    ladder: 'saved against the rule of thumb',
    carton: 'saved against all in cartons',
    close: 'close calls',
    corrections: 'corrected by the carrier',
    material: 'material a parcel',
    time: 'time a parcel',
  },
  ofParcels: (count, all) => `of ${String(count)} of ${plural(all, 'parcel')}`,
  ofOrders: (count) => (count === 1 ? '1 order' : `${String(count)} orders`),
  charts: {
    postage: 'Postage, and what buyers paid for it',
    saved: 'Saved against simpler ways of packing',
    close: 'Close calls and how they were decided',
    material: 'Material for each parcel',
    time: 'Time for each parcel',
    corrections: 'The carrier’s mass less ours',
  },
  series: {
    postage: 'postage',
    paid: 'buyers paid',
    ladder: 'against the rule of thumb',
    carton: 'against all in cartons',
    close: 'close calls',
    material: 'material a parcel',
    time: 'minutes a parcel',
  },
  decisions: {
    'next-bracket': 'paid the next bracket',
    'as-is': 'kept as it was',
    lightened: 'made lighter',
    'weighed-again': 'weighed again',
  },
  decided: 'decided',
  table: 'All figures',
  correctedTable: 'What the carrier weighed again',
  noCorrections: 'No correction of the carrier came in for this time. They are read in on the Devices page.',
  corrected: {
    order: 'order',
    day: 'day',
    bench: 'bench',
    service: 'service',
    ours: 'ours',
    carriers: 'carrier’s',
    differs: 'differs by',
    within: 'within our margin',
    ceiling: 'bracket up to',
  },
  yes: 'yes',
  no: 'no',
  dearer: (count) => `${String(count)} above the bracket paid`,
  minutes: (minutes) => `${minutes} min`,
};

const es: MoneyWords = {
  title: 'Dinero y calidad',
  how: 'Todo sale de los paquetes terminados y de las tareas guardadas; el material, a los precios de hoy de los archivos de la tienda. «Ahorrado» compara lo que se esperaba que costara cada pedido con dos maneras más simples de empacar lo mismo.',
  from: 'desde',
  to: 'hasta',
  by: 'por',
  sides: { day: 'día', kind: 'tipo', container: 'embalaje', service: 'servicio', person: 'persona' },
  ask: 'Mostrar',
  nothing: 'En este tiempo no se terminó ningún paquete.',
  facts: {
    parcels: 'paquetes',
    postage: 'franqueo',
    paid: 'pagado por los compradores',
    difference: 'pagado menos franqueo',
    ladder: 'ahorrado frente a la regla práctica',
    carton: 'ahorrado frente a todo en cajas',
    close: 'casos justos',
    corrections: 'corregidos por el transportista',
    material: 'material por paquete',
    time: 'tiempo por paquete',
  },
  ofParcels: (count, all) => `de ${String(count)} de ${plural(all, 'paquete')}`,
  ofOrders: (count) => (count === 1 ? '1 pedido' : `${String(count)} pedidos`),
  charts: {
    postage: 'Franqueo y lo que pagaron los compradores',
    saved: 'Ahorrado frente a maneras más simples de empacar',
    close: 'Casos justos y cómo se decidieron',
    material: 'Material de cada paquete',
    time: 'Tiempo de cada paquete',
    corrections: 'El peso del transportista menos el nuestro',
  },
  series: {
    postage: 'franqueo',
    paid: 'pagaron los compradores',
    ladder: 'frente a la regla práctica',
    carton: 'frente a todo en cajas',
    close: 'casos justos',
    material: 'material por paquete',
    time: 'minutos por paquete',
  },
  decisions: {
    'next-bracket': 'se pagó el tramo siguiente',
    'as-is': 'se dejó como estaba',
    lightened: 'se aligeró',
    'weighed-again': 'se pesó otra vez',
  },
  decided: 'decisión',
  table: 'Todas las cifras',
  correctedTable: 'Lo que el transportista volvió a pesar',
  noCorrections: 'No llegó ninguna corrección del transportista para este tiempo. Se leen en la página Aparatos.',
  corrected: {
    order: 'pedido',
    day: 'día',
    bench: 'mesa',
    service: 'servicio',
    ours: 'nuestro',
    carriers: 'del transportista',
    differs: 'diferencia',
    within: 'dentro de nuestro margen',
    ceiling: 'tramo hasta',
  },
  yes: 'sí',
  no: 'no',
  dearer: (count) => `${String(count)} por encima del tramo pagado`,
  minutes: (minutes) => `${minutes} min`,
};

export const moneyWords: Readonly<Record<Language, MoneyWords>> = { en, es };
