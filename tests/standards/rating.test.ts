import { expect, test } from 'vitest';
import { quote } from '#shared/rating/quote.ts';
import { reasonWords } from '#shared/rating/explain.ts';
import type { Quote } from '#shared/rating/types.ts';
import { massFromBase, parseMass } from '#shared/units/mass.ts';
import { bookOf, box, demoBook, metricBook, soft } from '#tests/support/rate-book.ts';

const ZONE = { zone: '8' };
const DAY = '2026-11-25';
const offerOf = (quoted: Quote, service: string) => quoted.offers.find((offer) => offer.service === service);
const refusalOf = (quoted: Quote, service: string) => quoted.refused.find((refusal) => refusal.service === service);

// Sides down to the nearest 0.25 in: Domestic Mail Manual Advisory, 2010-12-03. Tiers of a tenth of a cubic foot, volume =
// product / 1728: Postal Bulletin 22326. Cases computed.
test.each([
  ['10 x 8 x 2 in', '0.10'],
  ['12 x 9 x 1.6 in', '0.10'],
  ['12 x 14.4 x 1 in', '0.10'],
  ['12 x 14.5 x 1 in', '0.20'],
  ['6.125 x 6.125 x 6.125 in', '0.20'],
  ['12.2 x 9.3 x 3.1 in', '0.20'],
  ['12 x 12 x 6.2 in', '0.50'],
])('cubic tier of a carton of %s is %s', (sides, tier) => {
  expect(offerOf(quote(demoBook(), box(sides), parseMass('2 lb'), ZONE, DAY), 'cubic-carton')?.cubicTier).toBe(tier);
});

test('a carton of 12 x 12 x 6.25 in is beyond half a cubic foot', () => {
  const refusal = refusalOf(quote(demoBook(), box('12 x 12 x 6.25 in'), parseMass('2 lb'), ZONE, DAY), 'cubic-carton');
  expect(refusal?.why.code).toBe('beyond-box-tiers');
});

// Soft packs by length + width, each down to 0.25 in: Domestic Mail Manual 223.1.4 (tiers from memory). Cases computed.
test.each([
  ['12.24 x 9.24 in', '0.10'],
  ['12.25 x 9 in', '0.20'],
  ['15 x 12 in', '0.20'], // common practice, no source: a 15 x 12 in soft pack goes in the .20 tier
  ['15 x 12.25 in', '0.30'],
  ['18 x 18.24 in', '0.50'],
])('cubic tier of a soft pack of %s is %s', (sides, tier) => {
  const book = bookOf(SOFT_ONLY);
  expect(offerOf(quote(book, soft(sides), parseMass('2 lb'), ZONE, DAY), 'soft')?.cubicTier).toBe(tier);
});

test('a soft pack of 18 + 18.25 in is a quarter of an inch too large', () => {
  const refusal = refusalOf(quote(bookOf(SOFT_ONLY), soft('18 x 18.25 in'), parseMass('2 lb'), ZONE, DAY), 'soft');
  expect(refusal?.why).toMatchObject({ code: 'beyond-soft-tiers', values: { by: '1/4 in', sum: '36 1/4 in' } });
});

// Whether the 18 in limit looks at the raw or the rounded side is a setting: 18.24 in rounds down to 18.
test.each([
  ['raw', false],
  ['rounded', true],
])('an 18 in limit on the %s side takes an 18.24 in side: %s', (measured, takes) => {
  const limits = `limits: [{ limit: longest-side, most: 18 in, measured: ${measured} }, { limit: largest-mass, most: 20 lb }]`;
  const book = bookOf(SOFT_ONLY.replace('limits: [{ limit: largest-mass, most: 20 lb }]', limits));
  const quoted = quote(book, soft('18.24 x 9 in'), parseMass('2 lb'), ZONE, DAY);
  expect(offerOf(quoted, 'soft') !== undefined).toBe(takes);
});

// At most 20 lb: Quick Service Guide 420, 2010-06-07.
test('cubic takes twenty pounds and not one unit more', () => {
  const twenty = parseMass('20 lb');
  const carton = box('12 x 9 x 6 in');
  expect(offerOf(quote(demoBook(), carton, twenty, ZONE, DAY), 'cubic-carton')).toBeDefined();
  const over = quote(demoBook(), carton, massFromBase(twenty + 1), ZONE, DAY);
  expect(refusalOf(over, 'cubic-carton')?.why.code).toBe('too-heavy');
});

// Over 1,728 cubic inches; sides to the nearest inch: Domestic Mail Manual Advisory, 2006-10-30 (20 1/4 -> 20, 20 3/4 -> 21,
// divisor 194); divisor 166 from memory; sides up and divisor 139 from 2026-07-12: 91 FR 27837.
test.each([
  ['12 x 12 x 12 in', 194, 'nearest', null],
  ['12 x 12 x 12 in', 166, 'nearest', null],
  ['12.5 x 12 x 12 in', 166, 'nearest', '12 lb'],
  ['20.25 x 14 x 10 in', 194, 'nearest', '15 lb'],
  ['20.25 x 14 x 10 in', 166, 'nearest', '17 lb'],
  ['20.75 x 14 x 10 in', 166, 'nearest', '18 lb'],
  ['20.25 x 14 x 10 in', 139, 'up', '22 lb'],
])('%s by divisor %i, sides %s, is billed as %s', (sides, divisor, mode, billed) => {
  const book = bookOf(dimensionalCard(divisor, mode));
  const offer = offerOf(quote(book, box(sides), parseMass('1 lb'), ZONE, DAY), 'ground');
  expect(offer?.billedMass).toBe(parseMass(billed ?? '1 lb'));
  expect(offer?.rule).toBe(billed === null ? 'weight-bracket' : 'dimensional');
});

// Non-rectangular parcels count 0.785 of their volume: Domestic Mail Manual Advisory, 2006-10-30 (from memory).
test('a soft pack counts 0.785 of its volume where the card says so', () => {
  // 20 x 14 x 10 x 0.785 / 194 = 11.33
  const book = bookOf(dimensionalCard(194, 'nearest').replace('roundUpTo', 'nonRectangular: 785, roundUpTo'));
  const offer = offerOf(quote(book, soft('20 x 14 x 10 in'), parseMass('1 lb'), ZONE, DAY), 'ground');
  expect(offer?.billedMass).toBe(parseMass('12 lb'));
});

test('one card changes its divisor and rounding on the day that it says', () => {
  const on = (day: string) =>
    offerOf(quote(demoBook(), box('20.25 x 14 x 10 in'), parseMass('1 lb'), ZONE, day), 'ground');
  expect(on('2026-07-11')?.billedMass).toBe(parseMass('17 lb'));
  expect(on('2026-07-12')?.billedMass).toBe(parseMass('22 lb'));
  expect(on('2026-07-12')?.price.minor).toBeGreaterThan(on('2026-07-11')?.price.minor ?? 0);
});

// Any fraction of a pound pays the next pound, 1.2 -> 2 and 5.2 -> 6: Domestic Mail Manual 423.1.1 (2008); Postal Bulletin 22218.
test.each([
  ['1.2 lb', '2 lb'],
  ['5.2 lb', '6 lb'],
  ['6 lb', '6 lb'],
])('%s pays the bracket up to %s', (mass, ceiling) => {
  const offer = offerOf(quote(demoBook(), box('10 x 8 x 2 in'), parseMass(mass), ZONE, DAY), 'ground');
  expect(offer?.bracketCeiling).toBe(parseMass(ceiling));
});

// "Round up" and "round off": Domestic Mail Manual P013 (2003): 3.3701 -> 3.38; 3.376 -> 3.38, 3.374 -> 3.37.
test.each([
  ['up', '10.01', '33.6664', 338],
  ['nearest', '10.01', '33.72', 338],
  ['nearest', '10.01', '33.70', 337],
])('a percentage is rounded %s', (mode, price, perCent, minor) => {
  const book = bookOf(percentCard(price, perCent, mode));
  const offer = offerOf(quote(book, box('10 x 8 x 2 in'), parseMass('1 lb'), ZONE, DAY), 'ground');
  expect(offer?.surcharges[0]?.price.minor).toBe(minor);
});

// Machinable minimum 6 x 3 x 1/4 in; length + girth at most 108 in: Domestic Mail Manual 401.1.3-1.5 (2012).
test.each([
  ['6 x 3 x 0.25 in', true],
  ['5.99 x 3 x 0.25 in', false],
  ['6 x 2.99 x 0.25 in', false],
  ['6 x 3 x 0.249 in', false],
  ['60 x 12 x 12 in', true], // 60 + 48 = 108
  ['60.001 x 12 x 12 in', false],
])('%s is within the size limits: %s', (sides, takes) => {
  expect(offerOf(quote(demoBook(), box(sides), parseMass('1 lb'), ZONE, DAY), 'parcel-by-weight') !== undefined).toBe(
    takes,
  );
});

// Small packet: three sides together at most 900 mm, none over 600 mm, a face of 90 x 140 mm, 2 kg: UPU Convention Regulations.
test.each([
  ['600 x 200 x 100 mm', '2 kg', true],
  ['600.001 x 199 x 100 mm', '2 kg', false],
  ['500 x 300 x 100 mm', '2 kg', true],
  ['500 x 300 x 100.001 mm', '2 kg', false],
  ['140 x 90 x 5 mm', '100 g', true],
  ['139.999 x 90 x 5 mm', '100 g', false],
  ['140 x 89.999 x 5 mm', '100 g', false],
  ['500 x 300 x 100 mm', '2000.0001 g', false],
])('a small packet of %s and %s is taken: %s', (sides, mass, takes) => {
  const quoted = quote(metricBook(), box(sides), parseMass(mass), { zone: 'world' }, DAY);
  expect(offerOf(quoted, 'small-packet') !== undefined).toBe(takes);
});

test('a refusal says in words by how much', () => {
  const quoted = quote(demoBook(), box('20.25 x 5 x 4 in'), parseMass('2 lb'), ZONE, DAY);
  const why = refusalOf(quoted, 'cubic-carton')?.why;
  expect(reasonWords(why!, 'en')).toBe('2 1/4 in too long: the longest side is 20 1/4 in, at most 18 in');
});

const HEAD = `
carrier: test-carrier
name: { en: Test, es: Prueba }
currency: USD
units: { mass: lb, length: in }
from: 2006-01-01
zones: [{ by: flat, zone: '8' }]
`;
const SOFT_ONLY = `${HEAD}
services:
  - id: soft
    name: { en: Soft, es: Blando }
    limits: [{ limit: largest-mass, most: 20 lb }]
    prices:
      - rule: cubic-soft
        sides: { mode: down, step: 0.25 in }
        tiers:
          - { tier: '0.10', upTo: 21 in, prices: 1 }
          - { tier: '0.20', upTo: 27 in, prices: 2 }
          - { tier: '0.30', upTo: 31 in, prices: 3 }
          - { tier: '0.40', upTo: 34 in, prices: 4 }
          - { tier: '0.50', upTo: 36 in, prices: 5 }
`;
const dimensionalCard = (divisor: number, mode: string): string => `${HEAD}
services:
  - id: ground
    name: { en: Ground, es: Terrestre }
    prices:
      - rule: weight-bracket
        dimensional:
          - { divisor: ${String(divisor)}, length: in, mass: lb, sides: { mode: ${mode}, step: 1 in }, above: { volume: 1728 in3 }, roundUpTo: 1 lb }
        brackets:
          - { upTo: 1 lb, prices: 5 }
          - { upTo: 70 lb, prices: 9 }
`;
const percentCard = (price: string, perCent: string, mode: string): string => `${HEAD}
services:
  - id: ground
    name: { en: Ground, es: Terrestre }
    prices: [{ rule: weight-bracket, brackets: [{ upTo: 1 lb, prices: ${price} }] }]
    surcharges:
      - { id: fuel, name: { en: Fuel, es: Combustible }, amount: { kind: per-cent, perCent: ${perCent}, mode: ${mode} } }
`;
