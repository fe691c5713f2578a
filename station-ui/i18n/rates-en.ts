import { configText, placeIn } from './config-problems.ts';
import { plural } from './plural.ts';
import type { RatesWords } from './rates-words.ts';

const quoted = (text: string): string => (text === '' ? 'nothing' : `“${text}”`);

export const ratesEn: RatesWords = {
  title: 'Rates',
  day: 'Prices for the day',
  today: 'today',
  readFiles: 'Read the card files again',
  filesRead: (services) => `Read: ${plural(services, 'service')}.`,
  cards: 'Rate cards',
  carrier: 'carrier',
  file: 'file',
  from: 'from',
  until: 'until',
  open: 'open',
  services: 'services',
  standing: { 'in-force': 'in force', 'to-come': 'to come', ended: 'ended' },
  standingToday: 'on that day',
  rules: {
    'weight-bracket': 'by weight',
    'flat-fee': 'flat fee',
    'cubic-box': 'cubic, cartons',
    'cubic-soft': 'cubic, soft packs',
    dimensional: 'by volume',
  },
  noRule: 'no price',
  showPrices: (service) => `Show the prices of ${service}`,

  prices: 'Price grid',
  service: 'Service',
  rows: {
    'weight-bracket': 'not over',
    'flat-fee': 'container',
    'cubic-box': 'volume up to',
    'cubic-soft': 'length + width up to',
    dimensional: 'not over',
  },
  zone: (zone) => `zone ${zone}`,
  everyZone: 'every zone',
  none: 'none',
  compareDay: 'Compare with the day',
  notOnDay: (service, day) => `No card sells ${service} on ${day}.`,
  volumeCounts: 'Volume counts as mass where that is more.',
  surcharges: (names) => `Surcharges on top: ${names}.`,
  discounts: (names) => `Discounts: ${names}.`,

  whatIf: 'What would it cost?',
  parcel: 'Parcel',
  byContainer: 'container',
  bySize: 'carton by size',
  bySoft: 'soft pack by size',
  byRoll: 'roll by size',
  sizeHint: 'such as 10 x 8 x 2 in',
  rollHint: 'length and diameter, such as 30 x 3 in',
  softHint: 'such as 15 x 12 in, or 15 x 12 x 1 in',
  thickness: 'Thickness when filled, if known',
  mass: 'Mass',
  massHint: 'such as 15.9 oz or 451 g',
  destination: 'Destination',
  toPostcode: 'postcode',
  toZone: 'zone',
  postcode: 'Postcode',
  country: 'Country',
  residential: 'a home',
  ask: 'Show offers',
  offers: (count) => (count === 1 ? '1 offer' : `${String(count)} offers`),
  cheapest: 'cheapest',
  price: 'price',
  billed: 'billed as',
  upTo: 'same price up to',
  delivery: (least, most) => (least === most ? plural(least, 'day') : `${String(least)} to ${plural(most, 'day')}`),
  why: 'Why',
  nextEdges: 'Where the price changes',
  leads: { cheaper: 'cheaper', dearer: 'dearer', refused: 'refused', 'too-light': 'refused' },
  refusedBy: (count) => (count === 1 ? '1 service refuses it' : `${String(count)} services refuse it`),
  noOffers: 'No service takes this parcel.',

  curve: 'Price over mass',
  curveOf: (service) => `Price of ${service} over mass`,
  curveServices: 'Services to compare',
  curveNone: 'Choose a service.',
  refusedThere: 'refused',
  fromMass: (mass) => `from ${mass}:`,
  curveHint: 'Each post is a ceiling: up to and including it the price on its left holds. The diamond is the parcel.',
  wholeList: 'up to the largest mass',
  thisParcel: (mass) => `this parcel, ${mass}`,
  axisMass: (unit) => `mass, ${unit}`,
  axisPrice: (currency) => `price, ${currency}`,
  massUpTo: 'mass up to',

  importTitle: 'New price list',
  importHint:
    'Paste the table from your spreadsheet: one row for each highest mass, one column for each zone. You see how every cell was understood before anything is kept.',
  paste: 'Price table',
  orFile: 'or choose a CSV file',
  fileChosen: (name) => `File: ${name}`,
  carrierId: 'Carrier',
  serviceId: 'Service',
  idHint: 'lower-case letters, digits and hyphens',
  cardName: 'Name of a new card',
  serviceName: 'Name of a new service',
  firstDay: 'First day of these prices',
  massUnit: 'Unit of rows that name none',
  massUnitFound: 'as the headings say',
  massUnits: { oz: 'ounces', lb: 'pounds', g: 'grams', kg: 'kilograms' },
  decimal: 'Decimals are written',
  decimalFound: 'as the table shows',
  decimals: { '.': '4.10', ',': '4,10' },
  zonesBy: 'How a postcode gets its zone',
  zoneChoices: {
    'as-before': 'as on the card before',
    flat: 'one zone for every place',
    distance: 'by distance from the shop, in bands',
    chart: 'by the carrier’s zone chart',
    'given-only': 'not yet: only a zone that is given has a price',
  },
  flatZone: 'Zone',
  bands: 'Bands, nearest first',
  bandsHint: 'One line each: distance and zone, such as “150 2”; a last line with the zone alone takes the rest.',
  chart: 'Zone chart',
  chartHint: 'Pasted or CSV: origin, destination and zone; or destination and zone alone with the origin below.',
  origin: 'Origin, where the chart has no column for it',
  carryOver: 'Take limits, surcharges and the rest of the service from the card before',
  look: 'Look at it',
  looking: 'reading …',
  understood: (rows, zones) =>
    `Understood: ${String(rows)} ${rows === 1 ? 'row' : 'rows'}, ${String(zones)} ${zones === 1 ? 'zone' : 'zones'}.`,
  nothingStored: 'Nothing is kept yet.',
  wrongCell: 'wrong',
  lookCell: 'look',
  wrongCount: (errors, warnings) =>
    [
      errors === 0 ? '' : errors === 1 ? '1 cell is wrong' : `${String(errors)} cells are wrong`,
      warnings === 0 ? '' : warnings === 1 ? '1 cell to look at' : `${String(warnings)} cells to look at`,
    ]
      .filter((part) => part !== '')
      .join(', '),
  problem: ({ code, expected, found }) => {
    switch (code) {
      case 'no-grid':
        return `no row begins with a mass and goes on with prices; found ${quoted(found)}`;
      case 'no-unit':
        return `which unit of mass? found ${quoted(found)}`;
      case 'bad-mass':
        return `expected a mass such as “up to 8 oz”, found ${quoted(found)}`;
      case 'bad-price':
        return `expected ${expected}, found ${quoted(found)}`;
      case 'gap':
        return `a gap: every zone needs a price in every row; found ${quoted(found)}`;
      case 'zone-ends':
        return 'no price: is the zone not served at this mass?';
      case 'repeated-row':
        return `this mass has a row already: ${quoted(found)}`;
      case 'not-rising':
        return `expected more than in the row before, found ${quoted(found)}`;
      case 'falling-price':
        return `falls below the row before: ${quoted(found)}`;
      case 'beyond-headings':
        return `no heading stands over this cell (found ${quoted(found)}): were decimal commas taken for what parts the cells?`;
      case 'repeated-zone':
        return `expected a zone of its own for every column, found ${quoted(found)}`;
    }
  },
  chartProblem: ({ code, found }) => {
    switch (code) {
      case 'bad-postcodes':
        return `expected a beginning such as 558 or a range such as 550-567, found ${quoted(found)}`;
      case 'no-zone':
        return 'expected a zone, found nothing';
      case 'two-zones':
        return `a row above gives some of these postcodes another zone; found ${quoted(found)}`;
      case 'lost-zeros':
        return `expected at least three digits (spreadsheets drop leading zeros), found ${quoted(found)}`;
      case 'no-rows':
        return 'expected rows of origin, destination and zone';
    }
  },
  formProblem: (code, found) => {
    switch (code) {
      case 'bad-id':
        return `expected lower-case letters, digits and hyphens, found ${quoted(found)}`;
      case 'bad-day':
        return `expected a day such as 2026-11-25, found ${quoted(found)}`;
      case 'bad-zones':
        return `the rule for zones makes no sense: found ${quoted(found)}`;
      case 'no-card-before':
        return `no card sells ${quoted(found)} on the day before: choose another rule for zones`;
      case 'exists':
        return `${found} is there already`;
    }
  },
  acceptWarnings: 'The list is meant like this',
  replace: 'It gives way to this one and is kept beside it',
  ends: (service, file, day) => `${service} on ${file} ends on ${day}.`,
  wouldNotLoad: 'The shop could not be loaded with this card:',
  configProblem: ({ file, line, path, expected, found }) =>
    `${placeIn(file, line, path)} expected ${configText(expected, 'en')}; found ${configText(found, 'en')}`,
  cardText: 'The rate card',
  use: (file) => `Use these prices: ${file}`,
  notReady: 'It can be used once nothing is wrong.',
  used: (file) => `In use: ${file}.`,
  kept: (files) => `Kept as it was: ${files}.`,
  cell: 'cell',

  difference: (before, after) => `What changes: ${before} against ${after}`,
  noCardBefore: 'No card sells this service before, so there is nothing to compare with.',
  otherRule: 'The service was priced in another way, so rows cannot be held side by side.',
  sumUp: (up, down, same) =>
    `${plural(up, 'price rises', 'prices rise')}, ${plural(down, 'falls', 'fall')}, ${plural(same, 'stays', 'stay')}.`,
  added: 'new',
  gone: 'gone',
  sent: (sent, amount) => {
    const by = sent.after - sent.before;
    const turn = by === 0 ? 'the same' : by > 0 ? `${amount(by)} more` : `${amount(-by)} less`;
    const left = sent.left === 0 ? '' : ` ${String(sent.left)} more are not taken before or after.`;
    const best = `Each by its cheapest service: ${amount(sent.cheapestAfter)} instead of ${amount(sent.cheapestBefore)}.`;
    return `${plural(sent.parcels, 'parcel')} of the last 30 days by this service: ${amount(sent.after)} instead of ${amount(sent.before)}, ${turn}. ${best}${left}`;
  },
  noneSent: 'No parcel went by this service in the last 30 days.',

  wrong: {
    'bad-weight': 'Mass: expected a number and a unit such as 15.9 oz or 451 g.',
    'bad-mass': 'Mass: expected more than nothing.',
    'bad-size': 'Size: expected three sides above nothing and at most 10 m, such as 10 x 8 x 2 in.',
    'bad-soft': 'Soft pack: expected length and width above nothing, such as 15 x 12 in.',
    'bad-roll': 'Roll: expected length and diameter above nothing, such as 30 x 3 in.',
    'bad-thickness': 'Thickness: expected one length such as 1 in.',
    'bad-container': 'Container: choose one of the shop’s.',
    'bad-parcel': 'Parcel: give a container, a size, a soft pack or a roll.',
    'bad-to': 'Destination: give a postcode or a zone.',
    'bad-day': 'Day: expected a day of the calendar.',
    empty: 'There is no table: paste one or choose a file.',
    'not-a-table': 'This is no table of text. Save the sheet as CSV first.',
    'shop-would-not-load': 'The shop could not be loaded with this; nothing was changed.',
    'not-ready': 'Something in the list is still wrong; nothing was changed.',
    'not-written': 'The file could not be written; nothing was changed.',
  },
  failed: (message) => `Not done: ${message}`,
  noServer: 'the server does not answer',
  loading: 'reading …',
};
