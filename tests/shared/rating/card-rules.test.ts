import { describe, expect, test } from 'vitest';
import { reasonWords } from '#shared/rating/explain.ts';
import { nextEdges } from '#shared/rating/next-edges.ts';
import { priceSteps } from '#shared/rating/price-steps.ts';
import { quote } from '#shared/rating/quote.ts';
import type { RatedParcel, Route } from '#shared/rating/types.ts';
import { parseLength } from '#shared/units/length.ts';
import { parseMass } from '#shared/units/mass.ts';
import { bookWith, box, soft } from '#tests/support/rate-book.ts';

const DAY = '2026-11-25';
const BRACKETS =
  '{ rule: weight-bracket, brackets: [{ upTo: 1 lb, prices: 5.00 }, { upTo: 20 lb, prices: 10.00 }, { upTo: 70 lb, prices: 20.00 }] }';

/** A card of one service, as somebody writes it, with the rest of the service's lines. */
const card = (rest: string, prices = BRACKETS) =>
  bookWith(
    `  - id: s
    name: { en: S, es: S }
    prices: [${prices}]
${rest.replace(/^/gm, '    ')}`,
    '[{ by: flat, zone: home, countries: [XA] }, { by: flat, zone: far }]',
  );
const to = (postcode: string, country = 'XA', residential?: boolean): Route => ({
  from: { postcode: '1000', country: 'XA' },
  to: { postcode, country, ...(residential === undefined ? {} : { residential }) },
});
const HOME = to('2000');
const CARTON = box('10 x 8 x 4 in');
const roll = (length: string, diameter: string): RatedParcel => ({
  shape: { form: 'roll', length: parseLength(length), diameter: parseLength(diameter) },
});

interface Asked {
  readonly rest: string;
  readonly prices?: string;
  readonly parcel?: RatedParcel;
  readonly mass?: string;
  readonly route?: Route;
  readonly day?: string;
}
const asked = ({ rest, prices, parcel = CARTON, mass = '2 lb', route = HOME, day = DAY }: Asked) =>
  quote(card(rest, prices), parcel, parseMass(mass), route, day);

/** The refusal in both languages, or the price where it is taken. */
function answer(what: Asked): string | readonly [string, string] {
  const { offers, refused } = asked(what);
  const [offer] = offers;
  if (offer !== undefined) return String(offer.price.minor);
  return [reasonWords(refused[0]!.why, 'en'), reasonWords(refused[0]!.why, 'es')];
}

/** The price in minor units, and every change of it in words. */
function changes(what: Asked): readonly (number | string)[] {
  const [offer] = asked(what).offers;
  const words = (language: 'en' | 'es') =>
    offer!.reasons
      .filter(({ code }) => /^(surcharge|discount)/.test(code))
      .map((reason) => reasonWords(reason, language));
  return [offer!.price.minor, ...words('en'), ...words('es')];
}

const limit = (text: string): string => `limits: [{ ${text} }]`;

describe('limits', () => {
  test.each<[string, Asked, Asked, readonly [string, string]]>([
    [
      'largest mass',
      { rest: limit('limit: largest-mass, most: 15 lb'), mass: '15 lb' },
      { rest: limit('limit: largest-mass, most: 15 lb'), mass: '15.25 lb' },
      ['0.25 lb too heavy: 15.25 lb against at most 15 lb', 'Pesa 0.25 lb de más: 15.25 lb frente a 15 lb como máximo'],
    ],
    [
      'smallest mass',
      { rest: limit('limit: smallest-mass, least: 2 lb'), mass: '2 lb' },
      { rest: limit('limit: smallest-mass, least: 2 lb'), mass: '1.9 lb' },
      ['0.1 lb too light: 1.9 lb against at least 2 lb', 'Le faltan 0.1 lb de peso: 1.9 lb frente a 2 lb como mínimo'],
    ],
    [
      'smallest size',
      { rest: limit('limit: smallest-size, least: [6 in, 3 in, 0.25 in]'), parcel: box('6 x 3 x 0.25 in') },
      { rest: limit('limit: smallest-size, least: [6 in, 3 in, 0.25 in]'), parcel: box('6 x 2.5 x 1 in') },
      [
        '1/2 in too small: the second side is 2 1/2 in, at least 3 in',
        'Le faltan 1/2 in: el segundo lado mide 2 1/2 in, mínimo 3 in',
      ],
    ],
    [
      'longest side',
      { rest: limit('limit: longest-side, most: 18 in'), parcel: box('18 x 4 x 4 in') },
      { rest: limit('limit: longest-side, most: 18 in'), parcel: box('20.25 x 4 x 4 in') },
      [
        '2 1/4 in too long: the longest side is 20 1/4 in, at most 18 in',
        'Sobran 2 1/4 in de largo: el lado más largo mide 20 1/4 in, máximo 18 in',
      ],
    ],
    [
      'second side',
      { rest: limit('limit: second-side, most: 12 in'), parcel: box('18 x 12 x 4 in') },
      { rest: limit('limit: second-side, most: 12 in'), parcel: box('18 x 13 x 4 in') },
      [
        '1 in too wide: the second side is 13 in, at most 12 in',
        'Sobran 1 in de ancho: el segundo lado mide 13 in, máximo 12 in',
      ],
    ],
    [
      'shortest side',
      { rest: limit('limit: shortest-side, most: 1 in'), parcel: soft('12 x 9 x 1 in') },
      { rest: limit('limit: shortest-side, most: 1 in'), parcel: soft('12 x 9 x 1.5 in') },
      [
        '1/2 in too thick: 1 1/2 in against at most 1 in',
        'Sobran 1/2 in de grosor: 1 1/2 in frente a 1 in como máximo',
      ],
    ],
    [
      'length and girth',
      { rest: limit('limit: length-and-girth, most: 108 in'), parcel: box('60 x 12 x 12 in') },
      { rest: limit('limit: length-and-girth, most: 108 in'), parcel: box('60 x 12 x 13 in') },
      [
        'Length and girth 2 in too large: 110 in, at most 108 in',
        'Largo más contorno, 2 in de más: 110 in, máximo 108 in',
      ],
    ],
    [
      'sum of sides',
      { rest: limit('limit: sum-of-sides, most: 36 in'), parcel: box('20 x 10 x 6 in') },
      { rest: limit('limit: sum-of-sides, most: 36 in'), parcel: box('20 x 10 x 7 in') },
      [
        'The three sides together are 1 in too large: 37 in, at most 36 in',
        'Los tres lados juntos suman 1 in de más: 37 in, máximo 36 in',
      ],
    ],
    [
      'largest volume',
      { rest: limit('limit: largest-volume, most: 1 ft3'), parcel: box('12 x 12 x 12 in') },
      { rest: limit('limit: largest-volume, most: 1 ft3'), parcel: box('12 x 12 x 18 in') },
      [
        '0.5000 ft3 too large: 1.5000 ft3 against at most 1 ft3',
        'Sobran 0.5000 ft3: 1.5000 ft3 frente a 1 ft3 como máximo',
      ],
    ],
    // A roll: length and twice the diameter at most 1,040 mm: UPU Convention Regulations.
    [
      'length and two diameters of a roll',
      { rest: limit('limit: length-and-two-diameters, most: 104 cm'), parcel: roll('84 cm', '10 cm') },
      { rest: limit('limit: length-and-two-diameters, most: 1016 mm'), parcel: roll('34 in', '4 in') },
      [
        'Length and twice the diameter 2 in too large: 42 in, at most 40 in',
        'Largo más dos diámetros, 2 in de más: 42 in, máximo 40 in',
      ],
    ],
    [
      'a limit of rolls alone',
      { rest: limit('limit: longest-side, most: 9 in, forms: [roll]'), parcel: CARTON },
      { rest: limit('limit: longest-side, most: 9 in, forms: [roll]'), parcel: roll('10 in', '2 in') },
      [
        '1 in too long: the longest side is 10 in, at most 9 in',
        'Sobran 1 in de largo: el lado más largo mide 10 in, máximo 9 in',
      ],
    ],
    [
      'only the carrier’s own container',
      {
        rest: 'containers: [own-box]',
        parcel: { ...CARTON, container: 'own-box', containerOwner: 'c' },
      },
      { rest: 'containers: [own-box]', parcel: { ...CARTON, container: 'any-box' } },
      ['Valid only in own-box', 'Solo vale en own-box'],
    ],
    [
      'packaging of another carrier',
      { rest: '', parcel: { ...CARTON, container: 'plain' } },
      { rest: '', parcel: { ...CARTON, container: 'their-box', containerOwner: 'd' } },
      [
        'their-box is packaging of d and goes only by the services made for it',
        'their-box es embalaje de d y solo va con los servicios hechos para él',
      ],
    ],
    [
      'a kind of container',
      { rest: 'containerTypes: [carton]' },
      { rest: 'containerTypes: [carton]', parcel: soft('12 x 9 x 1 in') },
      ['Does not take a pouch', 'No admite este tipo de embalaje (bolsa)'],
    ],
    [
      'a destination that is refused',
      { rest: "refuses: [{ country: XA, postcodes: ['90-95', '7'] }]", route: to('9600') },
      { rest: "refuses: [{ country: XA, postcodes: ['90-95', '7'] }]", route: to('9500') },
      ['Does not serve 9500 XA', 'No llega a 9500 XA'],
    ],
  ])('%s', (_, taken, refused, words) => {
    expect(answer(taken)).toBe('1000');
    expect(answer(refused)).toEqual(words);
  });

  test('of rolls do not bound what is none, and the girth of a roll is that of the box around it', () => {
    const rest = limit('limit: length-and-two-diameters, most: 10 in');
    expect(answer({ rest, parcel: box('30 x 8 x 8 in') })).toBe('1000');
    expect(answer({ rest: limit('limit: length-and-girth, most: 30 in'), parcel: roll('20 in', '2.5 in') })).toBe(
      '1000',
    );
    expect(answer({ rest: limit('limit: length-and-girth, most: 30 in'), parcel: roll('20 in', '2.6 in') })[0]).toBe(
      'Length and girth 0.4 in too large: 30.4 in, at most 30 in',
    );
  });

  test('of rounded sides look at a roll as the rule rounds it', () => {
    const prices = `{ rule: weight-bracket, brackets: [{ upTo: 70 lb, prices: 10.00 }], dimensional: [{ divisor: 500, length: in, mass: lb, sides: { mode: up, step: 1 in }, roundUpTo: 1 lb }] }`;
    const rest = (measured: string) => limit(`limit: length-and-two-diameters, most: 40 in, measured: ${measured}`);
    // 30.5 + 2 x 4.5 = 39.5, and rounded up 31 + 2 x 5 = 41.
    const asIs = { prices, parcel: roll('30.5 in', '4.5 in') };
    expect(answer({ ...asIs, rest: rest('raw') })).toBe('1000');
    expect(answer({ ...asIs, rest: rest('rounded') })[0]).toBe(
      'Length and twice the diameter 1 in too large: 41 in, at most 40 in',
    );
  });

  test('do not call a flat pack too thin whose thickness nobody measured', () => {
    const rest = limit('limit: smallest-size, least: [6 in, 3 in, 0.25 in]');
    expect(answer({ rest, parcel: soft('12 x 9 in') })).toBe('1000');
    expect(answer({ rest, parcel: soft('12 x 9 x 0.125 in') })[0]).toContain('1/8 in too small: the shortest side');
  });

  test('a smallest mass is the lower end of the price over mass, and an edge that is told', () => {
    const book = card(limit('limit: smallest-mass, least: 2 lb'));
    const { steps } = priceSteps(book, CARTON, HOME, DAY);
    expect(steps[0]).toMatchObject({ least: parseMass('2 lb') });
    expect(steps[0]?.steps.map(({ ceiling }) => ceiling)).toEqual([parseMass('20 lb'), parseMass('70 lb')]);
    const words = (mass: string, language: 'en' | 'es') =>
      reasonWords(nextEdges(book, 's', CARTON, parseMass(mass), HOME, DAY)[0]!.reason, language);
    expect(words('3 lb', 'en')).toBe('More than 1 lb lighter and this service refuses it');
    expect(words('2 lb', 'en')).toBe('Any lighter and this service refuses it');
    expect(words('2 lb', 'es')).toBe('Con algo menos de peso, este servicio no lo acepta');
  });

  test('apply between their days', () => {
    const rest = limit('limit: longest-side, most: 9 in, from: 2026-07-01, until: 2026-12-31');
    expect(answer({ rest, day: '2026-06-30' })).toBe('1000');
    expect(answer({ rest, day: '2026-07-01' })[0]).toContain('1 in too long');
    expect(answer({ rest, day: '2027-01-01' })).toBe('1000');
  });
});

test('where a card lets prices fall, the edges say which side is the cheaper one', () => {
  const prices =
    '{ rule: weight-bracket, fallingPrices: true, brackets: [{ upTo: 1 lb, prices: 9.00 }, { upTo: 2 lb, prices: 8.00 }, { upTo: 3 lb, prices: 7.00 }] }';
  const edges = nextEdges(card('', prices), 's', CARTON, parseMass('1.5 lb'), HOME, DAY);
  expect(edges.map(({ leads, reason }) => `${leads}: ${reasonWords(reason, 'en')}`).slice(0, 2)).toEqual([
    'dearer: 0.5 lb lighter would cost $9.00',
    'cheaper: More than 0.5 lb heavier costs $7.00',
  ]);
});

const surcharge = (when: string, more = ''): string =>
  `surcharges: [{ id: x, name: { en: Extra, es: Recargo }, when: [{ ${when} }], amount: { kind: amount, price: 2.50 }${more} }]`;

describe('surcharges', () => {
  test.each<[string, Asked, Asked]>([
    [
      'length over',
      { rest: surcharge('when: longest-side, over: 9 in') },
      { rest: surcharge('when: longest-side, over: 10 in') },
    ],
    [
      'second length over',
      { rest: surcharge('when: second-side, over: 7.99 in') },
      { rest: surcharge('when: second-side, over: 8 in') },
    ],
    [
      'shortest side over',
      { rest: surcharge('when: shortest-side, over: 3 in') },
      { rest: surcharge('when: shortest-side, over: 4 in') },
    ],
    [
      'length and girth over',
      { rest: surcharge('when: length-and-girth, over: 33 in') },
      { rest: surcharge('when: length-and-girth, over: 34 in') },
    ],
    [
      'volume over',
      { rest: surcharge('when: volume, over: 319 in3') },
      { rest: surcharge('when: volume, over: 320 in3') },
    ],
    ['mass over', { rest: surcharge('when: mass, over: 1.99 lb') }, { rest: surcharge('when: mass, over: 2 lb') }],
    [
      'too small for the machines',
      { rest: surcharge('when: smaller-than, least: [6 in, 3 in, 5 in]') },
      { rest: surcharge('when: smaller-than, least: [6 in, 3 in, 4 in]') },
    ],
    [
      'a roll, which no machine sorts',
      { rest: surcharge('when: form, form: roll'), parcel: roll('20 in', '3 in') },
      { rest: surcharge('when: form, form: roll') },
    ],
    [
      'a home',
      { rest: surcharge('when: residential'), route: to('2000', 'XA', true) },
      { rest: surcharge('when: residential'), route: to('2000', 'XA', false) },
    ],
    [
      'a delivery area by a list of postcodes',
      { rest: surcharge("when: destination, to: [{ country: XA, postcodes: ['20-21', '3055'] }]"), route: to('3055') },
      { rest: surcharge("when: destination, to: [{ country: XA, postcodes: ['20-21', '3055'] }]"), route: to('3056') },
    ],
    [
      'a zone',
      { rest: surcharge('when: zone, zones: [far]'), route: to('1', 'XB') },
      { rest: surcharge('when: zone, zones: [far]') },
    ],
    [
      'a season',
      { rest: surcharge('when: always', ', from: 2026-11-01, until: 2026-11-25') },
      { rest: surcharge('when: always', ', from: 2026-11-26, until: 2027-01-10') },
    ],
  ])('%s', (_, over, within) => {
    expect(changes(over)).toEqual([1250, 'Extra: $2.50 more', 'Recargo: $2.50 más']);
    expect(changes(within)).toEqual([1000]);
  });

  const two = (group: string): string => `surcharges:
  - { id: long, name: { en: Long, es: Largo }, when: [{ when: longest-side, over: 9 in }], amount: { kind: amount, price: 3.00 }${group} }
  - { id: wide, name: { en: Wide, es: Ancho }, when: [{ when: second-side, over: 7 in }], amount: { kind: amount, price: 2.00 }${group} }`;

  test('stack, or count once where they share a group: then the largest', () => {
    expect(changes({ rest: two('') })).toEqual([
      1500,
      'Long: $3.00 more',
      'Wide: $2.00 more',
      'Largo: $3.00 más',
      'Ancho: $2.00 más',
    ]);
    expect(changes({ rest: two(', group: size') })).toEqual([1300, 'Long: $3.00 more', 'Largo: $3.00 más']);
  });

  test('of equals in a group the first on the card counts, wherever it stands', () => {
    const equals = two(', group: size').replace('3.00', '2.00');
    expect(changes({ rest: equals })).toEqual([1200, 'Long: $2.00 more', 'Largo: $2.00 más']);
    const three = `${equals}
  - { id: deep, name: { en: Deep, es: Hondo }, when: [{ when: shortest-side, over: 3 in }], amount: { kind: amount, price: 2.00 }, group: size }`;
    expect(changes({ rest: three })[0]).toBe(1200);
    // The first of them does not apply here.
    expect(changes({ rest: three, parcel: box('9 x 8 x 4 in') })).toEqual([
      1200,
      'Wide: $2.00 more',
      'Ancho: $2.00 más',
    ]);
  });

  test('for a home is not put on where only the zone is known', () => {
    expect(changes({ rest: surcharge('when: residential'), route: { zone: 'home' } })).toEqual([1000]);
    expect(changes({ rest: surcharge('when: residential'), route: to('2000') })).toEqual([1000]);
    const area = "when: destination, to: [{ postcodes: ['20'] }]";
    expect(changes({ rest: surcharge(area), route: { zone: 'home' } })).toEqual([1000]);
    // A set without a country is of every country.
    expect(changes({ rest: surcharge(area), route: to('2000', 'XB') })[0]).toBe(1250);
  });

  test('one with several conditions counts once however many of them hold', () => {
    const rest =
      'surcharges: [{ id: x, name: { en: X, es: X }, when: [{ when: longest-side, over: 9 in }, { when: second-side, over: 7 in }], amount: { kind: amount, price: 2.00 } }]';
    expect(changes({ rest })[0]).toBe(1200);
  });

  test('fuel in per cent of the price, or of that and the surcharges before it', () => {
    const fuel = (of: string): string =>
      `surcharges:
  - { id: home, name: { en: Home, es: Casa }, amount: { kind: amount, price: 5.00 } }
  - { id: fuel, name: { en: Fuel, es: Combustible }, amount: { kind: per-cent, perCent: 7.25, of: ${of}, mode: up } }`;
    expect(changes({ rest: fuel('price') })[0]).toBe(1000 + 500 + 73);
    expect(changes({ rest: fuel('total') })[0]).toBe(1000 + 500 + 109);
    expect(changes({ rest: fuel('total') })).toContain('Fuel: 7.25 % of $15.00, up to a whole $0.01: $1.09 more');
  });
});

test('discounts come first, in an amount or in per cent with their rounding', () => {
  const rest = (mode: string): string => `discounts:
  - { id: flat, name: { en: Contract, es: Contrato }, amount: { kind: amount, price: 1.00 } }
  - { id: cent, name: { en: Loyal, es: Fiel }, amount: { kind: per-cent, perCent: 3.3, step: 0.05, mode: ${mode} } }
surcharges: [{ id: x, name: { en: X, es: X }, amount: { kind: per-cent, perCent: 10 } }]`;
  // 3.3 per cent of 9.00 is 0.297: down to 0.25, or up to 0.30; then a tenth on top.
  expect(changes({ rest: rest('down') })).toEqual([
    875 + 88,
    'Contract: −$1.00',
    'Loyal: 3.3 % of $9.00, down to a whole $0.05: −$0.25',
    'X: 10 % of $8.75, to the nearest $0.01: $0.88 more',
    'Contrato: −$1.00',
    'Fiel: 3.3 % de $9.00, hacia abajo a múltiplos de $0.05: −$0.25',
    'X: 10 % de $8.75, al múltiplo más próximo de $0.01: $0.88 más',
  ]);
  expect(changes({ rest: rest('up') })[0]).toBe(870 + 87);
});

test('the estimate of delivery days is that of the zone, or of the service', () => {
  const days = (rest: string, route = HOME) => asked({ rest, route }).offers[0]?.days;
  expect(days('days: [2, 5]')).toEqual([2, 5]);
  expect(days('days: [2, 5]\ndaysByZone: { home: [1, 2] }')).toEqual([1, 2]);
  expect(days('days: [2, 5]\ndaysByZone: { home: [1, 2] }', to('1', 'XB'))).toEqual([2, 5]);
  expect(days('')).toBeUndefined();
});

describe('cubic', () => {
  const tiers = `{ rule: cubic-box, sides: { mode: down, step: 0.25 in }, tiers: [{ tier: half, upTo: 0.5 ft3, prices: 8.00 }, { tier: two, upTo: 2 ft3, prices: 12.00 }, { tier: huge, upTo: 250.125 ft3, prices: 300.00 }] }`;
  const rest = limit('limit: largest-mass, most: 70 lb');
  test('tiers go up to any volume', () => {
    expect(answer({ rest, prices: tiers, parcel: box('24 x 12 x 12 in') })).toBe('1200');
    expect(answer({ rest, prices: tiers, parcel: box('24 x 12 x 12.25 in') })).toBe('30000');
    // 250.125 ft3 is 432,216 in3: 72 x 72 x 83.375.
    expect(answer({ rest, prices: tiers, parcel: box('72 x 72 x 83.25 in') })).toBe('30000');
    expect(answer({ rest, prices: tiers, parcel: box('72 x 72 x 83.5 in') })).toEqual([
      '0.3750 ft3 too large for cubic: 250.5000 ft3, the last tier ends at 250.125 ft3',
      '0.3750 ft3 de más para la tarifa cúbica: 250.5000 ft3 y el último nivel acaba en 250.125 ft3',
    ]);
  });
  test('a roll is no carton', () => {
    expect(answer({ rest, prices: tiers, parcel: roll('20 in', '3 in') })).toEqual([
      'Priced for cartons only, and this is not one',
      'Solo para cajas, y esto no lo es',
    ]);
  });
});

// A non-rectangular parcel counts 0.785 of its volume: Domestic Mail Manual Advisory, 2006-10-30 (from memory).
test('by volume a roll counts as non-rectangular', () => {
  const prices = `{ rule: weight-bracket, brackets: [{ upTo: 1 lb, prices: 5.00 }, { upTo: 70 lb, prices: 20.00 }], dimensional: [{ divisor: 194, length: in, mass: lb, sides: { mode: nearest, step: 1 in }, roundUpTo: 1 lb, nonRectangular: 785 }] }`;
  // 40 x 8 x 8 x 0.785 / 194 = 10.36
  expect(asked({ rest: '', prices, parcel: roll('40 in', '8 in') }).offers[0]?.billedMass).toBe(parseMass('11 lb'));
});
