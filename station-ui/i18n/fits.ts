import type { ContainerType, Fit, FitVerdict } from '#shared/fitting/types.ts';
import type { Language } from '#shared/words/language.ts';
import { plural } from './plural.ts';

/** What the "What fits" page says. */
export interface FitsWords {
  readonly title: string;
  readonly how: string;
  readonly atHand: string;
  readonly skus: string;
  readonly skusHint: string;
  readonly byKind: string;
  readonly kind: string;
  readonly noKind: string;
  readonly size: string;
  readonly usual: (what: string) => string;
  readonly notKnown: string;
  readonly cloth: string;
  readonly mass: (unit: string) => string;
  readonly massHint: string;
  readonly postcode: string;
  readonly show: string;
  readonly working: string;
  readonly choose: string;
  readonly pieces: string;
  readonly weighed: string;
  readonly expected: string;
  readonly assumed: Readonly<Record<'size' | 'cloth' | 'both', string>>;
  readonly plan: string;
  readonly parcels: (count: number) => string;
  readonly noPlan: string;
  readonly notProven: (least: string) => string;
  readonly containers: (fitting: number, all: number) => string;
  readonly toScale: string;
  readonly legend: Readonly<Record<'inside' | 'room' | 'stack' | 'closing', string>>;
  readonly verdict: Readonly<Record<FitVerdict, string>>;
  readonly mustNotPress: string;
  readonly chance: (percent: string) => string;
  readonly chosen: string;
  readonly types: Readonly<Record<ContainerType, string>>;
  readonly inside: string;
  readonly folded: string;
  readonly twoPiles: string;
  readonly across: string;
  readonly spare: string;
  readonly short: string;
  readonly directions: Readonly<Record<keyof Fit['slack'], string>>;
  readonly cost: string;
  readonly parts: Readonly<Record<'postage' | 'materials' | 'labour' | 'risk', string>>;
  readonly service: string;
  readonly days: (least: number, most: number) => string;
  readonly fold: string;
  readonly steps: (count: number) => string;
  readonly otherServices: string;
  readonly above: string;
  readonly side: string;
  readonly leftOut: string;
  readonly failed: (message: string) => string;
  readonly noServer: string;
}

const en: FitsWords = {
  title: 'What fits',
  how: 'Every container with the folded pieces in it, drawn to one scale.',
  atHand: 'Pieces of the shop',
  skus: 'SKUs',
  skusHint: 'one or more, with a blank between',
  byKind: 'Or a piece that you do not have yet',
  kind: 'Kind',
  noKind: 'none',
  size: 'Size',
  usual: (what) => `not known (${what})`,
  notKnown: 'not known',
  cloth: 'Cloth',
  mass: (unit) => `Mass in ${unit}`,
  massHint: 'if it was weighed',
  postcode: 'Going to postcode',
  show: 'Show what fits',
  working: 'Working it out …',
  choose: 'Name a SKU or choose a kind.',
  pieces: 'Pieces',
  weighed: 'weighed',
  expected: 'expected',
  assumed: {
    size: 'Size not known: the usual one was taken, with a wider spread.',
    cloth: 'Cloth not known: the usual one was taken, with a wider spread.',
    both: 'Size and cloth not known: the usual ones were taken, with a wider spread.',
  },
  plan: 'Cheapest',
  parcels: (count) => (count === 1 ? 'one parcel' : `${String(count)} parcels`),
  noPlan: 'No container of this shop takes these pieces and can be sent there.',
  notProven: (least) => `Not proven the cheapest: no plan costs less than ${least}.`,
  containers: (fitting, all) =>
    `${String(fitting)} of ${plural(all, 'container')} ${fitting === 1 ? 'takes' : 'take'} them all`,
  toScale: 'All drawn to the same scale.',
  legend: {
    inside: 'inside of the container',
    room: 'room left when it is filled',
    stack: 'folded pieces',
    closing: 'closing',
  },
  verdict: { easy: 'Fits easily', snug: 'Fits when pressed', no: 'Does not fit' },
  mustNotPress: 'must not be pressed',
  chance: (percent) => `closes in ${percent} of 100`,
  chosen: 'Cheapest',
  types: { pouch: 'Pouch', card: 'Card envelope', carton: 'Carton' },
  inside: 'Inside',
  folded: 'Folded',
  twoPiles: 'two piles side by side',
  across: 'turned across',
  spare: 'to spare',
  short: 'short',
  directions: { width: 'width', length: 'length', thickness: 'thickness' },
  cost: 'Expected cost',
  parts: { postage: 'postage', materials: 'material', labour: 'work', risk: 'risk of packing anew' },
  service: 'Service',
  days: (least, most) => (least === most ? plural(least, 'day') : `${String(least)} to ${plural(most, 'day')}`),
  fold: 'Fold',
  steps: (count) => (count === 1 ? '1 step' : `${String(count)} steps`),
  otherServices: 'Why no other service',
  above: 'from above',
  side: 'from the side',
  leftOut: 'Not looked at',
  failed: (message) => `That did not work: ${message}`,
  noServer: 'the server does not answer',
};

const es: FitsWords = {
  title: 'Qué cabe',
  how: 'Cada embalaje con las prendas dobladas dentro, todo a la misma escala.',
  atHand: 'Prendas de la tienda',
  skus: 'SKU',
  skusHint: 'uno o varios, separados por espacios',
  byKind: 'O una prenda que aún no tiene',
  kind: 'Tipo',
  noKind: 'ninguno',
  size: 'Talla',
  usual: (what) => `no se sabe (${what})`,
  notKnown: 'no se sabe',
  cloth: 'Tejido',
  mass: (unit) => `Peso en ${unit}`,
  massHint: 'si se pesó',
  postcode: 'Va al código postal',
  show: 'Ver qué cabe',
  working: 'Calculando …',
  choose: 'Escriba un SKU o elija un tipo.',
  pieces: 'Prendas',
  weighed: 'pesada',
  expected: 'esperado',
  assumed: {
    size: 'No se sabe la talla: se tomó la habitual, con más margen.',
    cloth: 'No se sabe el tejido: se tomó el habitual, con más margen.',
    both: 'No se saben la talla ni el tejido: se tomaron los habituales, con más margen.',
  },
  plan: 'Lo más barato',
  parcels: (count) => (count === 1 ? 'un paquete' : `${String(count)} paquetes`),
  noPlan: 'Ningún embalaje de la tienda admite estas prendas y puede enviarse allí.',
  notProven: (least) => `No está demostrado que sea lo más barato: nada cuesta menos de ${least}.`,
  containers: (fitting, all) => `Caben todas en ${String(fitting)} de ${plural(all, 'embalaje')}`,
  toScale: 'Todo dibujado a la misma escala.',
  legend: {
    inside: 'interior del embalaje',
    room: 'hueco que queda al llenarlo',
    stack: 'prendas dobladas',
    closing: 'cierre',
  },
  verdict: { easy: 'Cabe bien', snug: 'Cabe con presión', no: 'No cabe' },
  mustNotPress: 'no se debe aplastar',
  chance: (percent) => `cierra ${percent} de cada 100 veces`,
  chosen: 'Lo más barato',
  types: { pouch: 'Sobre flexible', card: 'Sobre de cartón', carton: 'Caja' },
  inside: 'Interior',
  folded: 'Doblado',
  twoPiles: 'dos pilas, una junto a otra',
  across: 'girado',
  spare: 'de sobra',
  short: 'de menos',
  directions: { width: 'ancho', length: 'largo', thickness: 'grosor' },
  cost: 'Coste esperado',
  parts: { postage: 'franqueo', materials: 'material', labour: 'trabajo', risk: 'riesgo de volver a empacar' },
  service: 'Servicio',
  days: (least, most) => (least === most ? plural(least, 'día') : `de ${String(least)} a ${plural(most, 'día')}`),
  fold: 'Doblez',
  steps: (count) => (count === 1 ? '1 paso' : `${String(count)} pasos`),
  otherServices: 'Por qué no otro servicio',
  above: 'desde arriba',
  side: 'de lado',
  leftOut: 'No se miraron',
  failed: (message) => `No se pudo: ${message}`,
  noServer: 'el servidor no responde',
};

export const fitsWords: Readonly<Record<Language, FitsWords>> = { en, es };
