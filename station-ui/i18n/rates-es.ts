import { configText, placeIn } from './config-problems.ts';
import { plural } from './plural.ts';
import type { RatesWords } from './rates-words.ts';

const quoted = (text: string): string => (text === '' ? 'nada' : `«${text}»`);

export const ratesEs: RatesWords = {
  title: 'Tarifas',
  day: 'Precios para el día',
  today: 'hoy',
  readFiles: 'Volver a leer los archivos',
  filesRead: (services) => `Leído: ${plural(services, 'servicio')}.`,
  cards: 'Tarifas',
  carrier: 'transportista',
  file: 'archivo',
  from: 'desde',
  until: 'hasta',
  open: 'sin fin',
  services: 'servicios',
  standing: { 'in-force': 'vigente', 'to-come': 'por venir', ended: 'terminada' },
  standingToday: 'ese día',
  rules: {
    'weight-bracket': 'por peso',
    'flat-fee': 'tarifa plana',
    'cubic-box': 'cúbica, cajas',
    'cubic-soft': 'cúbica, paquetes blandos',
    dimensional: 'por volumen',
  },
  noRule: 'sin precio',
  showPrices: (service) => `Ver los precios de ${service}`,

  prices: 'Tabla de precios',
  service: 'Servicio',
  rows: {
    'weight-bracket': 'hasta',
    'flat-fee': 'embalaje',
    'cubic-box': 'volumen hasta',
    'cubic-soft': 'largo + ancho hasta',
    dimensional: 'hasta',
  },
  zone: (zone) => `zona ${zone}`,
  everyZone: 'todas las zonas',
  none: 'no hay',
  compareDay: 'Comparar con el día',
  notOnDay: (service, day) => `Ninguna tarifa vende ${service} el ${day}.`,
  volumeCounts: 'El volumen cuenta como peso cuando da más.',
  surcharges: (names) => `Recargos aparte: ${names}.`,
  discounts: (names) => `Descuentos: ${names}.`,

  whatIf: '¿Cuánto costaría?',
  parcel: 'Paquete',
  byContainer: 'embalaje',
  bySize: 'caja por medidas',
  bySoft: 'paquete blando por medidas',
  byRoll: 'rollo por medidas',
  sizeHint: 'por ejemplo 10 x 8 x 2 in',
  rollHint: 'largo y diámetro, por ejemplo 30 x 3 in',
  softHint: 'por ejemplo 15 x 12 in, o 15 x 12 x 1 in',
  thickness: 'Grosor lleno, si se sabe',
  mass: 'Peso',
  massHint: 'por ejemplo 15.9 oz o 451 g',
  destination: 'Destino',
  toPostcode: 'código postal',
  toZone: 'zona',
  postcode: 'Código postal',
  country: 'País',
  residential: 'una vivienda',
  ask: 'Ver ofertas',
  offers: (count) => (count === 1 ? '1 oferta' : `${String(count)} ofertas`),
  cheapest: 'la más barata',
  price: 'precio',
  billed: 'se cobra como',
  upTo: 'mismo precio hasta',
  delivery: (least, most) => (least === most ? plural(least, 'día') : `de ${String(least)} a ${plural(most, 'día')}`),
  why: 'Por qué',
  nextEdges: 'Dónde cambia el precio',
  leads: { cheaper: 'más barato', dearer: 'más caro', refused: 'no lo acepta', 'too-light': 'no lo acepta' },
  refusedBy: (count) => (count === 1 ? '1 servicio no lo acepta' : `${String(count)} servicios no lo aceptan`),
  noOffers: 'Ningún servicio acepta este paquete.',

  curve: 'Precio según el peso',
  curveOf: (service) => `Precio de ${service} según el peso`,
  curveServices: 'Servicios que se comparan',
  curveNone: 'Elija un servicio.',
  refusedThere: 'no lo acepta',
  fromMass: (mass) => `desde ${mass}:`,
  curveHint: 'Cada poste es un tope: hasta él, incluido, vale el precio de su izquierda. El rombo es el paquete.',
  wholeList: 'hasta el peso máximo',
  thisParcel: (mass) => `este paquete, ${mass}`,
  axisMass: (unit) => `peso, ${unit}`,
  axisPrice: (currency) => `precio, ${currency}`,
  massUpTo: 'peso hasta',

  importTitle: 'Nueva lista de precios',
  importHint:
    'Pegue la tabla de su hoja de cálculo: una fila por cada peso máximo, una columna por cada zona. Verá cómo se entendió cada celda antes de guardar nada.',
  paste: 'Tabla de precios',
  orFile: 'o elija un archivo CSV',
  fileChosen: (name) => `Archivo: ${name}`,
  carrierId: 'Transportista',
  serviceId: 'Servicio',
  idHint: 'minúsculas, cifras y guiones',
  cardName: 'Nombre de una tarifa nueva',
  serviceName: 'Nombre de un servicio nuevo',
  firstDay: 'Primer día de estos precios',
  massUnit: 'Unidad de las filas que no la dicen',
  massUnitFound: 'la de los encabezados',
  massUnits: { oz: 'onzas', lb: 'libras', g: 'gramos', kg: 'kilogramos' },
  decimal: 'Los decimales se escriben',
  decimalFound: 'como en la tabla',
  decimals: { '.': '4.10', ',': '4,10' },
  zonesBy: 'Cómo se halla la zona de un código postal',
  zoneChoices: {
    'as-before': 'como en la tarifa anterior',
    flat: 'una sola zona para todo lugar',
    distance: 'por distancia desde la tienda, en tramos',
    chart: 'por la tabla de zonas del transportista',
    'given-only': 'todavía no: solo tiene precio una zona indicada',
  },
  flatZone: 'Zona',
  bands: 'Tramos, el más cercano primero',
  bandsHint: 'Uno por línea: distancia y zona, por ejemplo «150 2»; una última línea con solo la zona toma el resto.',
  chart: 'Tabla de zonas',
  chartHint: 'Pegada o CSV: origen, destino y zona; o destino y zona solos, con el origen abajo.',
  origin: 'Origen, si la tabla no tiene columna para él',
  carryOver: 'Tomar límites, recargos y lo demás del servicio de la tarifa anterior',
  look: 'Examinar',
  looking: 'leyendo …',
  understood: (rows, zones) =>
    `Se entendió: ${String(rows)} ${rows === 1 ? 'fila' : 'filas'}, ${String(zones)} ${zones === 1 ? 'zona' : 'zonas'}.`,
  nothingStored: 'Aún no se ha guardado nada.',
  wrongCell: 'mal',
  lookCell: 'revisar',
  wrongCount: (errors, warnings) =>
    [
      errors === 0 ? '' : errors === 1 ? '1 celda está mal' : `${String(errors)} celdas están mal`,
      warnings === 0 ? '' : warnings === 1 ? '1 celda por revisar' : `${String(warnings)} celdas por revisar`,
    ]
      .filter((part) => part !== '')
      .join(', '),
  problem: ({ code, found }) => {
    switch (code) {
      case 'no-grid':
        return `ninguna fila empieza con un peso y sigue con precios; hay ${quoted(found)}`;
      case 'no-unit':
        return `¿en qué unidad de peso? hay ${quoted(found)}`;
      case 'bad-mass':
        return `se esperaba un peso como «hasta 8 oz», hay ${quoted(found)}`;
      case 'bad-price':
        return `se esperaba un precio en la moneda y con los decimales elegidos, hay ${quoted(found)}`;
      case 'gap':
        return `un hueco: cada zona necesita precio en cada fila; hay ${quoted(found)}`;
      case 'zone-ends':
        return 'sin precio: ¿no se sirve la zona con este peso?';
      case 'repeated-row':
        return `este peso ya tiene una fila: ${quoted(found)}`;
      case 'not-rising':
        return `se esperaba más que en la fila anterior, hay ${quoted(found)}`;
      case 'falling-price':
        return `baja respecto a la fila anterior: ${quoted(found)}`;
      case 'beyond-headings':
        return `ningún encabezado está sobre esta celda (hay ${quoted(found)}): ¿se tomaron comas decimales por separadores?`;
      case 'repeated-zone':
        return `se esperaba una zona propia para cada columna, hay ${quoted(found)}`;
    }
  },
  chartProblem: ({ code, found }) => {
    switch (code) {
      case 'bad-postcodes':
        return `se esperaba un comienzo como 558 o un rango como 550-567, hay ${quoted(found)}`;
      case 'no-zone':
        return 'se esperaba una zona, no hay nada';
      case 'two-zones':
        return `una fila de arriba da otra zona a algunos de estos códigos; hay ${quoted(found)}`;
      case 'lost-zeros':
        return `se esperaban al menos tres cifras (las hojas de cálculo quitan los ceros iniciales), hay ${quoted(found)}`;
      case 'no-rows':
        return 'se esperaban filas de origen, destino y zona';
    }
  },
  formProblem: (code, found) => {
    switch (code) {
      case 'bad-id':
        return `se esperaban minúsculas, cifras y guiones, hay ${quoted(found)}`;
      case 'bad-day':
        return `se esperaba un día como 2026-11-25, hay ${quoted(found)}`;
      case 'bad-zones':
        return `la regla de zonas no tiene sentido: hay ${quoted(found)}`;
      case 'no-card-before':
        return `ninguna tarifa vende ${quoted(found)} el día anterior: elija otra regla de zonas`;
      case 'exists':
        return `${found} ya existe`;
    }
  },
  acceptWarnings: 'La lista es así',
  replace: 'Deja su sitio a esta y se guarda al lado',
  ends: (service, file, day) => `${service} en ${file} termina el ${day}.`,
  wouldNotLoad: 'La tienda no podría cargarse con esta tarifa:',
  configProblem: ({ file, line, path, expected, found }) =>
    `${placeIn(file, line, path)} se esperaba ${configText(expected, 'es')}; hay ${configText(found, 'es')}`,
  cardText: 'La tarifa',
  use: (file) => `Usar estos precios: ${file}`,
  notReady: 'Se podrá usar cuando nada esté mal.',
  used: (file) => `En uso: ${file}.`,
  kept: (files) => `Guardado como estaba: ${files}.`,
  cell: 'celda',

  difference: (before, after) => `Qué cambia: ${before} frente a ${after}`,
  noCardBefore: 'Ninguna tarifa vende antes este servicio, así que no hay con qué comparar.',
  otherRule: 'El servicio se cobraba de otra manera, así que las filas no se pueden comparar.',
  sumUp: (up, down, same) =>
    `${plural(up, 'precio sube', 'precios suben')}, ${plural(down, 'baja', 'bajan')}, ${plural(same, 'sigue', 'siguen')} igual.`,
  added: 'nuevo',
  gone: 'ya no está',
  sent: (sent, amount) => {
    const by = sent.after - sent.before;
    const turn = by === 0 ? 'lo mismo' : by > 0 ? `${amount(by)} más` : `${amount(-by)} menos`;
    const left = sent.left === 0 ? '' : ` Otros ${String(sent.left)} no se aceptan antes o después.`;
    const best = `Cada uno por su servicio más barato: ${amount(sent.cheapestAfter)} en vez de ${amount(sent.cheapestBefore)}.`;
    return `${plural(sent.parcels, 'paquete')} de los últimos 30 días por este servicio: ${amount(sent.after)} en vez de ${amount(sent.before)}, ${turn}. ${best}${left}`;
  },
  noneSent: 'Ningún paquete fue por este servicio en los últimos 30 días.',

  wrong: {
    'bad-weight': 'Peso: se esperaba un número y su unidad, como 15.9 oz o 451 g.',
    'bad-mass': 'Peso: se esperaba más que nada.',
    'bad-size': 'Medidas: se esperaban tres lados mayores que nada y de 10 m como mucho, como 10 x 8 x 2 in.',
    'bad-soft': 'Paquete blando: se esperaban largo y ancho mayores que nada, como 15 x 12 in.',
    'bad-roll': 'Rollo: se esperaban largo y diámetro mayores que nada, como 30 x 3 in.',
    'bad-thickness': 'Grosor: se esperaba una longitud como 1 in.',
    'bad-container': 'Embalaje: elija uno de la tienda.',
    'bad-parcel': 'Paquete: indique un embalaje, unas medidas, un paquete blando o un rollo.',
    'bad-to': 'Destino: indique un código postal o una zona.',
    'bad-day': 'Día: se esperaba un día del calendario.',
    empty: 'No hay tabla: pegue una o elija un archivo.',
    'not-a-table': 'Esto no es una tabla de texto. Guarde antes la hoja como CSV.',
    'shop-would-not-load': 'La tienda no podría cargarse así; no se ha cambiado nada.',
    'not-ready': 'Algo de la lista sigue mal; no se ha cambiado nada.',
    'not-written': 'No se pudo escribir el archivo; no se ha cambiado nada.',
  },
  failed: (message) => `No se hizo: ${message}`,
  noServer: 'el servidor no responde',
  loading: 'leyendo …',
};
