import { expect, test } from 'vitest';
import { parse } from 'yaml';
import { rateCardSchema, toRateCard } from '#config/schema/rate-card.ts';
import { checkBook } from '#shared/rating/check-book.ts';

/** Days that a card, its services and their parts have together, each with its own. */
const BRACKETS = 'rule: weight-bracket, brackets: [{ upTo: 1 lb, prices: 5.00 }]';
const card = (head: string, service: string, carrier = 'c') => `
carrier: ${carrier}
name: { en: C, es: C }
currency: USD
units: { mass: lb, length: in }
${head}
zones: [{ by: flat, zone: a }]
services:
  - id: s
    name: { en: S, es: S }
${service.replace(/^/gm, '    ')}
`;
const PRICES = `prices: [{ ${BRACKETS} }]`;
const NOWHERE = `prices: [{ zones: [z], rule: weight-bracket, brackets: [{ upTo: 1 lb, prices: [5.00] }] }]`;
const lost = 'warning services.0.prices.0.zones: zone "z" has prices, but no zone rule of the card gives it';
const found = (...texts: string[]) =>
  checkBook(texts.map((text) => toRateCard(rateCardSchema.parse(parse(text))))).map(
    ({ severity, card: index, path, message }) =>
      `${severity}${texts.length > 1 ? ` ${String(index)}` : ''} ${path.join('.')}: ${message}`,
  );
const masses = (smallest: string, largest: string) =>
  `${PRICES}\nlimits: [{ limit: smallest-mass, least: 2 lb${smallest} }, { limit: largest-mass, most: 1 lb${largest} }]`;
const NO_MASS = 'error services.0.limits.0: the smallest mass is above the largest: no mass is taken';
const FROM = 'from: 2026-01-01';

test.each([
  ['the parts of a service on a card that ends are looked at', [card(`${FROM}\nuntil: 2026-12-31`, NOWHERE)], [lost]],
  [
    'and of one that is sold on a single day',
    [card(`${FROM}\nuntil: 2026-06-01`, `from: 2026-06-01\n${NOWHERE}`)],
    [lost],
  ],
  [
    'a service begins with its card where that begins later',
    [card('from: 2026-06-01', `from: 2026-01-01\n${PRICES}`), card(`${FROM}\nuntil: 2026-05-31`, PRICES)],
    [],
  ],
  [
    'and with itself where that is later',
    [card(FROM, `from: 2026-06-01\n${PRICES}`), card(`${FROM}\nuntil: 2026-05-31`, PRICES)],
    [],
  ],
  [
    'a service ends with its card where that ends sooner',
    [card(`${FROM}\nuntil: 2026-05-31`, `until: 2026-12-31\n${PRICES}`), card('from: 2026-06-01', PRICES)],
    [],
  ],
  [
    'and by itself where that is sooner',
    [card(`${FROM}\nuntil: 2026-12-31`, `until: 2026-05-31\n${PRICES}`), card('from: 2026-06-01', PRICES)],
    [],
  ],
  [
    'days without a service are told of its last card',
    [
      card(`${FROM}\nuntil: 2026-03-31`, PRICES),
      card('from: 2026-04-01\nuntil: 2026-05-31', PRICES),
      card('from: 2026-06-03', PRICES),
    ],
    ['warning 2 services.0: no card sells the service "s" from 2026-06-01 until 2026-06-02'],
  ],
  [
    'a service twice names both carriers',
    [card(FROM, PRICES, 'one'), card('from: 2026-06-01', PRICES, 'two')],
    ['error 1 services.0: the service "s" of two is also on a card of one from 2026-06-01'],
  ],
  ['no mass is taken on any day', [card(FROM, masses('', ''))], [NO_MASS]],
  ['nor from a day on', [card(FROM, masses(', from: 2026-06-01', ''))], [NO_MASS]],
  ['nor until one', [card(FROM, masses('', ', until: 2026-06-01'))], [NO_MASS]],
  ['nor on one day', [card(FROM, masses(', from: 2026-06-01', ', until: 2026-06-01'))], [NO_MASS]],
  [
    'some mass is, where the one begins after the other',
    [card(FROM, masses(', from: 2026-06-02', ', until: 2026-06-01'))],
    [],
  ],
  [
    'a service without weight brackets has no largest mass, though it has a smallest',
    [
      card(
        FROM,
        'prices: [{ rule: cubic-soft, sides: { mode: down, step: 0.25 in }, tiers: [{ tier: a, upTo: 21 in, prices: 5.00 }] }]\nlimits: [{ limit: smallest-mass, least: 1 lb }, { limit: largest-mass, most: 2 lb, until: 2026-06-30 }]',
      ),
    ],
    ['error services.0.limits: no limit "largest-mass" is in force from 2026-07-01'],
  ],
])('%s', (_, cards, problems) => {
  expect(found(...cards)).toEqual(problems);
});
