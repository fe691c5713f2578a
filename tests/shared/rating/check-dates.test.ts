import { expect, test } from 'vitest';
import { parse } from 'yaml';
import { rateCardSchema, toRateCard } from '#config/schema/rate-card.ts';
import { checkBook } from '#shared/rating/check-book.ts';

const BRACKETS = 'brackets: [{ upTo: 1 lb, prices: 5.00 }]';
const card = (service: string, more = '', head = 'from: 2026-01-01') => `
carrier: c
name: { en: C, es: C }
currency: USD
units: { mass: lb, length: in }
${head}
${more === '' ? 'zones: [{ by: flat, zone: a }]' : more}
services:
  - id: s
    name: { en: S, es: S }
${service.replace(/^/gm, '    ')}
`;
const PRICES = `prices: [{ rule: weight-bracket, ${BRACKETS} }]`;
const found = (...texts: string[]) =>
  checkBook(texts.map((text) => toRateCard(rateCardSchema.parse(parse(text))))).map(
    ({ severity, path, message }) => `${severity} ${path.join('.')}: ${message}`,
  );

const extra = (name: string, dates: readonly string[]) =>
  `${PRICES}\n${name}: [${dates.map((each) => `{ id: x, name: { en: X, es: X }, ${each}amount: { kind: amount, price: 1 } }`).join(', ')}]`;
const limits = (...each: string[]) => `${PRICES}\nlimits: [${each.map((one) => `{ ${one} }`).join(', ')}]`;
const dim = (dates: string) =>
  `{ ${dates}divisor: 166, length: in, mass: lb, sides: { mode: up, step: 1 in }, roundUpTo: 1 lb }`;
const dimensional = (...dates: string[]) =>
  `prices: [{ rule: weight-bracket, ${BRACKETS}, dimensional: [${dates.map(dim).join(', ')}] }]`;

test.each([
  ['a card in order', card(PRICES), []],
  [
    'a surcharge twice',
    card(extra('surcharges', ['until: 2026-06-30, ', 'from: 2026-06-30, '])),
    ['error services.0.surcharges.1: a surcharge "x" is in force twice from 2026-06-30 until 2026-06-30'],
  ],
  ['a surcharge and the one after it', card(extra('surcharges', ['until: 2026-06-30, ', 'from: 2026-07-01, '])), []],
  [
    'a discount with a gap',
    card(extra('discounts', ['until: 2026-06-30, ', 'from: 2026-07-03, '])),
    ['warning services.0.discounts: a discount "x" is not in force from 2026-07-01 until 2026-07-02'],
  ],
  [
    'a surcharge that ends before it begins',
    card(extra('surcharges', ['from: 2026-07-01, until: 2026-06-01, '])),
    ['error services.0.surcharges.0.until: a surcharge ends on 2026-06-01, before it begins on 2026-07-01'],
  ],
  [
    'a surcharge of last year',
    card(extra('surcharges', ['until: 2025-12-31, '])),
    ['warning services.0.surcharges.0: a surcharge is on no day in force: until 2025-12-31'],
  ],
  [
    'a service after its card',
    card(`from: 2027-01-01\n${PRICES}`, '', 'from: 2026-01-01\nuntil: 2026-12-31'),
    ['warning services.0: the service is on no day in force: from 2027-01-01'],
  ],
  [
    'a limit twice',
    card(limits('limit: longest-side, most: 20 in', 'limit: longest-side, most: 18 in, from: 2026-07-01')),
    ['warning services.0.limits.1: the limit "longest-side" is in force twice from 2026-07-01: the narrower counts'],
  ],
  [
    'a limit for rolls beside one for the rest',
    card(
      limits('limit: longest-side, most: 20 in, forms: [box, soft]', 'limit: longest-side, most: 30 in, forms: [roll]'),
    ),
    [],
  ],
  [
    'a limit with a gap',
    card(
      limits(
        'limit: longest-side, most: 20 in, until: 2026-06-30',
        'limit: longest-side, most: 18 in, from: 2026-08-01',
      ),
    ),
    ['warning services.0.limits: the limit "longest-side" is not in force from 2026-07-01 until 2026-07-31'],
  ],
  [
    'a smallest mass above the largest',
    card(limits('limit: smallest-mass, least: 1 lb', 'limit: largest-mass, most: 15.9 oz')),
    ['error services.0.limits.0: the smallest mass is above the largest: no mass is taken'],
  ],
  [
    'dimensional rules with a gap',
    card(dimensional('until: 2026-07-11, ', 'from: 2026-07-13, ')),
    ['warning services.0.prices.0.dimensional: no dimensional rule is in force from 2026-07-12 until 2026-07-12'],
  ],
  [
    'dimensional rules that overlap',
    card(dimensional('until: 2026-07-12, ', 'from: 2026-07-12, ')),
    ['error services.0.prices.0.dimensional: two dimensional rules are in force from 2026-07-12 until 2026-07-12'],
  ],
  [
    'days without a rule for zones',
    card(PRICES, 'zones: [{ by: flat, zone: a, from: 2026-02-01 }]'),
    ['warning zones: no rule for zones is in force from 2026-01-01 until 2026-01-31'],
  ],
  [
    'a largest mass that ends',
    card(
      'prices: [{ rule: flat-fee, fees: [{ container: x, prices: 1 }] }]\nlimits: [{ limit: largest-mass, most: 9 lb, until: 2026-06-30 }]',
    ),
    ['error services.0.limits: no limit "largest-mass" is in force from 2026-07-01'],
  ],
] as const)('%s', (_, text, expected) => {
  expect(found(text)).toEqual(expected);
});

test('days between two cards of a service on which nobody sells it', () => {
  const first = card(PRICES, '', 'from: 2026-01-01\nuntil: 2026-12-31');
  expect(found(first, card(PRICES, '', 'from: 2027-01-05'))).toEqual([
    'warning services.0: no card sells the service "s" from 2027-01-01 until 2027-01-04',
  ]);
  expect(found(first, card(PRICES, '', 'from: 2027-01-01'))).toEqual([]);
});
