import { describe, expect, test } from 'vitest';
import { reasonWords, REASON_CODES } from '#shared/rating/explain.ts';
import { priceSteps } from '#shared/rating/price-steps.ts';
import { quote } from '#shared/rating/quote.ts';
import type { Quote } from '#shared/rating/types.ts';
import { lengthFromBase } from '#shared/units/length.ts';
import { massFromBase, parseMass } from '#shared/units/mass.ts';
import { bookOf, box, demoBook, soft } from '#tests/support/rate-book.ts';

const DAY = '2026-11-25';
const book = demoBook();
const DULUTH = { postcode: '55802', country: 'US' };
const to = (postcode: string) => ({ from: DULUTH, to: { postcode, country: 'US' } });
const refusalOf = (quoted: Quote, service: string) =>
  quoted.refused.find((refusal) => refusal.service === service)?.why;
const pound = parseMass('1 lb');

test('offers come cheapest first and every service of the book is answered', () => {
  const { offers, refused } = quote(book, soft('12 x 9 x 1 in'), pound, to('90001'), DAY);
  const prices = offers.map((offer) => offer.price.minor);
  expect(prices).toEqual([...prices].sort((a, b) => a - b));
  expect(offers.length + refused.length).toBe(8);
});

test('every reason and refusal of the demo shop has a sentence in both languages', () => {
  const parcels = [box('12 x 12 x 10 in'), soft('12 x 9 x 1 in'), box('61 x 50 x 40 in'), box('5 x 3 x 0.2 in')];
  for (const parcel of parcels) {
    for (const postcode of ['90001', '96813', '00000', '99501']) {
      const { offers, refused } = quote(book, parcel, pound, to(postcode), '2026-12-10');
      const reasons = [...offers.flatMap((offer) => offer.reasons), ...refused.map((refusal) => refusal.why)];
      for (const reason of reasons) {
        expect(REASON_CODES).toContain(reason.code);
        for (const language of ['en', 'es'] as const) expect(reasonWords(reason, language)).not.toMatch(/[{}…]/);
      }
    }
  }
});

describe('postcodes', () => {
  test('one that is not known refuses by name and has no zone', () => {
    const { offers, refused } = quote(book, box('10 x 8 x 2 in'), pound, to('00000'), DAY);
    expect(offers).toEqual([]);
    expect(refused.map((refusal) => reasonWords(refusal.why, 'en'))).toContain(
      'Postcode 00000 (US) is not known, so it has no zone',
    );
  });

  test('the four digits after the hyphen do not change the zone', () => {
    expect(quote(book, box('10 x 8 x 2 in'), pound, to('90001-1234'), DAY)).toEqual(
      quote(book, box('10 x 8 x 2 in'), pound, to(' 90001'), DAY),
    );
  });

  test('a service that refuses a destination says so, and others go there', () => {
    const quoted = quote(book, box('10 x 8 x 2 in'), pound, to('96813'), DAY);
    expect(refusalOf(quoted, 'ground')).toEqual({
      code: 'destination-refused',
      values: { postcode: '96813', country: 'US' },
    });
    expect(quoted.offers.map((offer) => offer.service)).toContain('cubic-carton');
  });

  test('another country has no zone on a domestic card', () => {
    const quoted = quote(
      book,
      box('10 x 8 x 2 in'),
      pound,
      { from: DULUTH, to: { postcode: '1', country: 'XB' } },
      DAY,
    );
    expect(refusalOf(quoted, 'light-parcel')?.code).toBe('destination-not-served');
  });

  test('a zone that a card does not have is refused', () => {
    expect(refusalOf(quote(book, box('10 x 8 x 2 in'), pound, { zone: '1' }, DAY), 'ground')).toEqual({
      code: 'zone-not-on-card',
      values: { zone: '1' },
    });
  });
});

describe('packaging of a carrier', () => {
  const flat = { container: 'merrow-card-flat', containerOwner: 'merrow-post', containerType: 'card' } as const;
  test('goes only by its own flat fee', () => {
    const { offers } = quote(book, soft('12 x 9 x 0.5 in', flat), parseMass('3 lb'), to('90001'), DAY);
    expect(offers.map((offer) => offer.service)).toEqual(['flat-card']);
    expect(offers[0]).toMatchObject({ bracketCeiling: null, nextPrice: null, rule: 'flat-fee' });
  });
  test('and its flat fee is for no other container', () => {
    expect(refusalOf(quote(book, soft('12 x 9 x 0.5 in'), pound, to('90001'), DAY), 'flat-card')?.code).toBe(
      'only-in-container',
    );
  });
});

describe('surcharges', () => {
  const surcharges = (sides: string, day = DAY, postcode = '90001') =>
    quote(book, box(sides), pound, to(postcode), day)
      .offers.find((offer) => offer.service === 'ground')
      ?.surcharges.map(({ name }) => name);
  test('of one group only the largest counts', () => {
    expect(surcharges('31 x 8 x 2 in')).toEqual(['fuel', 'long-side']);
    expect(surcharges('31 x 25 x 2 in')).toEqual(['fuel', 'second-long-side']);
  });
  test('apply between their days and in their area', () => {
    expect(surcharges('10 x 8 x 2 in', '2026-11-29')).toEqual(['fuel']);
    expect(surcharges('10 x 8 x 2 in', '2026-11-30')).toEqual(['fuel', 'winter-peak']);
    expect(surcharges('10 x 8 x 2 in', '2027-01-11', '99501')).toEqual(['fuel', 'far-area']);
  });
  test('one that begins at a mass is a step of its own', () => {
    const card = bookOf(`
carrier: c
name: { en: C, es: C }
currency: USD
units: { mass: lb, length: in }
from: 2026-01-01
zones: [{ by: flat, zone: a }]
services:
  - id: s
    name: { en: S, es: S }
    limits: [{ limit: largest-mass, most: 10 lb }]
    prices: [{ rule: weight-bracket, brackets: [{ upTo: 5 lb, prices: 1.00 }, { upTo: 10 lb, prices: 2.00 }] }]
    discounts: [{ id: half, name: { en: H, es: H }, amount: { kind: per-cent, perCent: 50 } }]
    surcharges: [{ id: heavy, name: { en: H, es: H }, when: [{ when: mass, over: 7 lb }], amount: { kind: amount, price: 3.00 } }]
`);
    const { steps } = priceSteps(card, box('10 x 8 x 2 in'), { zone: 'a' }, DAY);
    expect(steps[0]?.steps.map(({ ceiling, price }) => [ceiling, price.minor])).toEqual([
      [parseMass('5 lb'), 50],
      [parseMass('7 lb'), 100],
      [parseMass('10 lb'), 400],
    ]);
  });
});

describe('what cannot be priced', () => {
  test.each([0, -1, Number.NaN, 0.5])('a mass of %f base units', (heavy) => {
    expect(() => quote(book, box('10 x 8 x 2 in'), heavy as never, { zone: '5' }, DAY)).toThrow(
      /mass: expected more than nothing/,
    );
  });
  test.each([0, -5, Number.NaN, 1e15])('a side of %f base units', (side) => {
    const shape = {
      form: 'box',
      sides: [side as never, lengthFromBase(1_016_000), lengthFromBase(1_016_000)],
    } as const;
    expect(() => quote(book, { shape }, massFromBase(1), { zone: '5' }, DAY)).toThrow(/first side: expected/);
  });
  test('a day that is none', () => {
    expect(() => quote(book, box('10 x 8 x 2 in'), pound, { zone: '5' }, 'today')).toThrow(/day: expected a date/);
  });
  test('a service before its card begins is refused with the dates', () => {
    const why = refusalOf(quote(book, box('10 x 8 x 2 in'), pound, { zone: '5' }, '2026-01-17'), 'light-parcel');
    expect(reasonWords(why!, 'en')).toBe('Not on sale on 2026-01-17 (from 2026-01-18, until …)');
  });
  test('a flat pack whose thickness nobody measured is not priced by volume', () => {
    expect(refusalOf(quote(book, soft('12 x 9 in'), pound, { zone: '5' }, DAY), 'ground')?.code).toBe(
      'thickness-unknown',
    );
  });
});
