import type { FirstStep, Measures, NewContainer, NewPerson, ShopFacts, StepState } from '#shared/wire/first-run.ts';
import type { Language } from '#shared/words/language.ts';
import { plural } from './plural.ts';

export interface FirstRunWords {
  readonly title: string;
  readonly intro: (folder: string) => string;
  /** of a shop that was not begun with the guide */
  readonly own: string;
  readonly ownHow: string;
  readonly steps: Readonly<Record<FirstStep, string>>;
  readonly states: Readonly<Record<StepState, string>>;
  readonly skip: string;
  readonly done: string;
  readonly save: string;
  readonly saved: string;
  readonly finish: string;
  readonly finished: string;
  readonly shop: {
    readonly name: string;
    readonly measures: string;
    readonly measure: Readonly<Record<Measures, string>>;
    readonly currency: string;
    readonly timeZone: string;
    readonly language: string;
    readonly country: string;
    readonly postcode: string;
    readonly address: string;
    readonly untouched: string;
    readonly days: string;
    readonly decimals: string;
    readonly written: Readonly<Record<ShopFacts['days'] | ShopFacts['decimals'], string>>;
  };
  readonly containers: {
    readonly how: string;
    readonly keep: string;
    readonly columns: { readonly name: string; readonly size: string; readonly mass: string; readonly cost: string };
    readonly another: string;
    readonly types: Readonly<Record<NewContainer['type'], string>>;
    readonly type: string;
    readonly width: string;
    readonly length: string;
    readonly depth: string;
    readonly remove: (name: string) => string;
  };
  readonly prices: {
    readonly how: string;
    readonly standIn: string;
    readonly drop: string;
    readonly none: string;
  };
  readonly devices: {
    readonly how: string;
    readonly open: string;
    readonly simulated: (devices: string) => string;
    readonly real: string;
  };
  readonly people: {
    readonly how: string;
    readonly name: string;
    readonly role: string;
    readonly roles: Readonly<Record<NewPerson['role'], string>>;
    readonly speaks: string;
    readonly another: string;
    readonly badge: (badge: string) => string;
  };
  readonly import: {
    readonly how: string;
    readonly counts: (pieces: number, orders: number) => string;
  };
}

const en: FirstRunWords = {
  title: 'The first hour',
  intro: (folder) =>
    `Six things make a shop. Skip any of them and come back whenever you like: what you say is kept, in the files of ${folder}.`,
  own: 'This shop is set up. To begin one of your own, beside it:',
  ownHow: 'Then start the server on it, and this guide asks for what it needs.',
  steps: {
    shop: 'Name and measures',
    containers: 'The cupboard',
    prices: 'Prices',
    devices: 'Scale, scanner, printer',
    people: 'People',
    import: 'First pieces and orders',
  },
  states: { open: 'to do', done: 'done', skipped: 'skipped' },
  skip: 'Skip for now',
  done: 'This is done',
  save: 'Save',
  saved: 'Saved.',
  finish: 'Put the guide away',
  finished: 'The office opens on its orders now. The guide stays here.',
  shop: {
    name: 'Name of the shop',
    measures: 'Measures',
    measure: { inches: 'inches and ounces', centimetres: 'centimetres and grams' },
    currency: 'Currency (three letters)',
    timeZone: 'Time zone',
    language: 'Language of the benches',
    country: 'Country (two letters)',
    postcode: 'Postcode',
    address: 'Address, as on the slip',
    days: 'Days in your spreadsheets',
    decimals: 'Decimals in your spreadsheets',
    written: { 'day-first': '25/11/2026', 'month-first': '11/25/2026', point: '4.10', comma: '4,10' },
    untouched: 'With other measures, files that nobody has changed yet go over to them.',
  },
  containers: {
    how: 'Leave the tick at what you have, and add what is missing. Empty mass: weigh ten and divide.',
    keep: 'We have it',
    columns: { name: 'Container', size: 'Inside', mass: 'Empty mass', cost: 'Cost' },
    another: 'Add a container',
    types: { pouch: 'pouch', card: 'card envelope', carton: 'carton' },
    type: 'Kind',
    width: 'Width',
    length: 'Length',
    depth: 'Depth',
    remove: (name) => `Leave ${name} out`,
  },
  prices: {
    how: 'Paste your carrier’s list from a spreadsheet: every cell shows how it was understood before it is used.',
    standIn: 'a stand-in: no carrier asks these prices',
    drop: 'Take the stand-in away',
    none: 'The stand-in goes as soon as there is a list of your own.',
  },
  devices: {
    how: 'Find out how your scale is set: the station listens to a port. Then give the bench its scale, scanner and printer below: each is opened as soon as the bench packs no order. Until then everything is simulated.',
    open: 'Try devices',
    simulated: (devices) => `simulated: ${devices}`,
    real: 'real devices',
  },
  people: {
    how: 'Each person has a badge to scan: the bench then speaks their language and guides as they need it.',
    name: 'Name',
    role: 'Role',
    roles: { packer: 'packer', supervisor: 'supervisor', owner: 'owner' },
    speaks: 'Language',
    another: 'Add somebody else',
    badge: (badge) => `badge ${badge}`,
  },
  import: {
    how: 'Choose the files of your pieces and of your orders, as your spreadsheet saves them.',
    counts: (pieces, orders) => `Here: ${plural(pieces, 'piece')}, ${plural(orders, 'order')}.`,
  },
};

const es: FirstRunWords = {
  title: 'La primera hora',
  intro: (folder) =>
    `Seis cosas hacen una tienda. Deje para luego la que quiera y vuelva cuando quiera: lo que diga se guarda, en los archivos de ${folder}.`,
  own: 'Esta tienda ya está preparada. Para empezar una suya, aparte:',
  ownHow: 'Después inicie el servidor con ella, y esta guía le preguntará lo que hace falta.',
  steps: {
    shop: 'Nombre y medidas',
    containers: 'El armario',
    prices: 'Precios',
    devices: 'Balanza, lector, impresora',
    people: 'Personas',
    import: 'Primeras prendas y pedidos',
  },
  states: { open: 'por hacer', done: 'hecho', skipped: 'para luego' },
  skip: 'Dejarlo para luego',
  done: 'Esto ya está',
  save: 'Guardar',
  saved: 'Guardado.',
  finish: 'Cerrar la guía',
  finished: 'La oficina se abre ahora por sus pedidos. La guía sigue aquí.',
  shop: {
    name: 'Nombre de la tienda',
    measures: 'Medidas',
    measure: { inches: 'pulgadas y onzas', centimetres: 'centímetros y gramos' },
    currency: 'Moneda (tres letras)',
    timeZone: 'Zona horaria',
    language: 'Idioma de las mesas',
    country: 'País (dos letras)',
    postcode: 'Código postal',
    address: 'Dirección, como en el albarán',
    days: 'Los días en sus hojas de cálculo',
    decimals: 'Los decimales en sus hojas de cálculo',
    written: { 'day-first': '25/11/2026', 'month-first': '11/25/2026', point: '4.10', comma: '4,10' },
    untouched: 'Con otras medidas, los archivos que nadie ha cambiado pasan a ellas.',
  },
  containers: {
    how: 'Deje la marca en lo que tiene y añada lo que falta. Masa en vacío: pese diez y divida.',
    keep: 'Lo tenemos',
    columns: { name: 'Embalaje', size: 'Por dentro', mass: 'Masa en vacío', cost: 'Coste' },
    another: 'Añadir un embalaje',
    types: { pouch: 'sobre', card: 'sobre de cartón', carton: 'caja' },
    type: 'Tipo',
    width: 'Ancho',
    length: 'Largo',
    depth: 'Fondo',
    remove: (name) => `Quitar ${name}`,
  },
  prices: {
    how: 'Pegue la lista de su transportista desde una hoja de cálculo: cada celda muestra cómo se entendió antes de usarse.',
    standIn: 'provisional: ningún transportista cobra estos precios',
    drop: 'Quitar los provisionales',
    none: 'Los provisionales se quitan en cuanto haya una lista propia.',
  },
  devices: {
    how: 'Averigüe cómo está ajustada su balanza: la estación escucha un puerto. Dé después a la mesa su balanza, lector e impresora, aquí abajo: se abren en cuanto la mesa no tiene pedido. Hasta entonces todo es simulado.',
    open: 'Probar aparatos',
    simulated: (devices) => `simulado: ${devices}`,
    real: 'aparatos reales',
  },
  people: {
    how: 'Cada persona tiene una tarjeta que se escanea: la mesa habla entonces su idioma y la guía como le hace falta.',
    name: 'Nombre',
    role: 'Función',
    roles: { packer: 'prepara pedidos', supervisor: 'supervisa', owner: 'es dueña o dueño' },
    speaks: 'Idioma',
    another: 'Añadir a alguien más',
    badge: (badge) => `tarjeta ${badge}`,
  },
  import: {
    how: 'Elija los archivos de sus prendas y de sus pedidos, como los guarda su hoja de cálculo.',
    counts: (pieces, orders) => `Aquí: ${plural(pieces, 'prenda')}, ${plural(orders, 'pedido')}.`,
  },
};

export const firstRunWords: Readonly<Record<Language, FirstRunWords>> = { en, es };
