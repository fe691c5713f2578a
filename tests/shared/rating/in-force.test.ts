import { describe, expect, test } from 'vitest';
import { bookInForce } from '#shared/rating/in-force.ts';
import { quote } from '#shared/rating/quote.ts';
import { parseMass } from '#shared/units/mass.ts';
import { bookOf, box } from '#tests/support/rate-book.ts';

const BRACKETS =
  'prices: [{ rule: weight-bracket, brackets: [{ upTo: 5 lb, prices: 1.00 }, { upTo: 10 lb, prices: 2.00 }] }]';
const card = (dates: string, ...services: readonly string[]) => `
carrier: c
name: { en: C, es: C }
currency: USD
units: { mass: lb, length: in }
${dates}
zones: [{ by: flat, zone: a }]
services:
${services.map((each) => `  - { name: { en: S, es: S }, ${each} }`).join('\n')}
`;

describe('what is sold on a day', () => {
  const old = card('from: 2026-01-01\nuntil: 2026-06-30', `id: s, ${BRACKETS}`, `id: gone, ${BRACKETS}`);
  const next = card('from: 2026-07-01', `id: s, ${BRACKETS}`, `id: late, from: 2026-09-01, ${BRACKETS}`);
  const answers = (day: string) => {
    const { offers, refused } = quote(bookOf(old, next), box('9 x 8 x 7 in'), parseMass('1 lb'), { zone: 'a' }, day);
    return [
      ...offers.map(({ service }) => service),
      ...refused.map(
        ({ service, why: { code, values } }) => `${service} ${code} ${values['from'] ?? ''} ${values['until'] ?? ''}`,
      ),
    ];
  };

  test('is answered once by each service, whichever of two cards has it', () => {
    expect(answers('2026-10-01')).toEqual(['s', 'late', 'gone not-on-day 2026-01-01 2026-06-30']);
    expect(answers('2026-08-01')).toEqual([
      's',
      'gone not-on-day 2026-01-01 2026-06-30',
      'late not-on-day 2026-09-01 ',
    ]);
    // Neither card is in force: each service is told of with the dates of the card that names it first.
    expect(answers('2025-12-31')).toEqual([
      's not-on-day 2026-01-01 2026-06-30',
      'gone not-on-day 2026-01-01 2026-06-30',
      'late not-on-day 2026-09-01 ',
    ]);
  });

  test.each(['today', '2026-11-2', '2026-11-251', 'x2026-11-25', ''])('"%s" is no day, and is named', (day) => {
    const message = `day: expected a date such as 2026-11-25, found "${day}"`;
    for (const time of ['first', 'second']) {
      expect(() => bookInForce(bookOf(old), day), time).toThrow(expect.objectContaining({ code: 'bad-day', message }));
    }
  });
});

test('a service has an edge at every mass where its price may change, in order', () => {
  const extra = (when: string) =>
    `{ id: x-${when.replace(/\W/g, '')}, name: { en: X, es: X }, when: [{ ${when} }], amount: { kind: amount, price: 1 } }`;
  const surcharges = `surcharges: [${extra('when: mass, over: 7 lb')}, ${extra('when: mass, over: 3 lb')}, ${extra('when: longest-side, over: 9 in')}, ${extra('when: always')}]`;
  const edges = (rest: string) => {
    const [service] = bookInForce(
      bookOf(card('from: 2026-01-01', `id: s, ${BRACKETS}, ${rest}`)),
      '2026-11-25',
    ).services;
    return service?.massEdges;
  };
  const pounds = (...all: readonly number[]) => all.map((each) => parseMass(`${String(each)} lb`));
  expect(edges(surcharges)).toEqual(pounds(3, 5, 7, 10));
  expect(edges('limits: [{ limit: largest-mass, most: 8 lb }]')).toEqual(pounds(5, 8, 10));
  expect(
    edges(
      'discounts: [{ id: d, name: { en: D, es: D }, when: [{ when: mass, over: 5 lb }], amount: { kind: per-cent, perCent: 5 } }]',
    ),
  ).toEqual(pounds(5, 10));
});
