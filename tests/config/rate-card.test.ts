import { expect, test } from 'vitest';
import { parse } from 'yaml';
import { rateCardSchema, toRateBook } from '#config/schema/rate-card.ts';
import { demoBook, metricBook } from '#tests/support/rate-book.ts';

const CARD = `
carrier: c
name: { en: C, es: C }
currency: USD
units: { mass: lb, length: in }
from: 2026-01-01
zones: [{ by: flat, zone: a }]
services:
  - id: s
    name: { en: S, es: S }
    prices:
      - rule: weight-bracket
        zones: [a]
        brackets: [{ upTo: 1 lb, prices: [4.10] }, { upTo: 2 lb, prices: [5.20] }]
`;

/** The problems of a card with one change, as "path: message". */
function problems(...changes: readonly (readonly [string, string])[]): string[] {
  let text = CARD;
  for (const [from, to] of changes) {
    expect(text).toContain(from);
    text = text.replace(from, to);
  }
  const result = rateCardSchema.safeParse(parse(text));
  return result.success ? [] : result.error.issues.map((issue) => `${issue.path.join('.')}: ${issue.message}`);
}

test('prices come out in whole minor units, as the file says them', () => {
  expect(rateCardSchema.parse(parse(CARD)).services[0]?.prices[0]).toMatchObject({
    brackets: [{ prices: [410] }, { prices: [520] }],
  });
  expect(problems()).toEqual([]);
});

test('both demo shops read', () => {
  expect(demoBook().cards.flatMap((card) => card.services)).toHaveLength(8);
  expect(metricBook().cards.flatMap((card) => card.services)).toHaveLength(3);
});

test.each([
  [['[4.10]', '[4.105]'], 'services.0.prices.0.brackets.0.prices.0: expected a price such as 4.10, found 4.105'],
  [['[4.10]', '["4,10"]'], 'services.0.prices.0.brackets.0.prices.0: expected a price such as 4.10, found "4,10"'],
  [['[4.10]', '[-1]'], 'services.0.prices.0.brackets.0.prices.0: expected a price such as 4.10, found -1'],
  [['[4.10]', '[.nan]'], 'brackets.0.prices.0: expected a price such as 4.10, found NaN'],
  [['[4.10]', '[]'], 'services.0.prices.0.brackets.0.prices'],
  [['[4.10]', '[4.10, 1]'], 'expected 1 prices, one per zone, found 2'],
  [['2 lb', '1 lb'], 'services.0.prices.0.brackets.1.upTo: expected more than in the row before'],
  [['2 lb', '16 oz'], 'services.0.prices.0.brackets.1.upTo: expected more than in the row before'],
  [['1 lb', '0 lb'], 'services.0.prices.0.brackets.0.upTo: expected a mass above nothing'],
  [['1 lb', '1 stone'], 'mass: expected oz, lb, g or kg, found "stone"'],
  [['[5.20]', '[4.00]'], 'services.0.prices.0.brackets.1.prices.0: the price falls below that of the row before'],
  [['rule: weight-bracket', 'rule: by-feel'], 'services.0.prices.0'],
  [['id: s', 'id: s\n    colour: red'], 'services.0: Unrecognized key: "colour"'],
  [['from: 2026-01-01', 'from: 2026-02-30'], 'from: '],
  [['currency: USD', 'currency: dollars'], 'currency: expected a currency code'],
] as const)('%j is refused with its place', (change, message) => {
  expect(problems(change).join('\n')).toContain(message);
});

test('prices may fall where the card says that they may', () => {
  expect(problems(['[5.20]', '[4.00]'], ['zones: [a]\n', 'zones: [a]\n        fallingPrices: true\n'])).toEqual([]);
});

const DIM = '{ divisor: 166, length: in, mass: lb, sides: { mode: up, step: 1 in }, roundUpTo: 1 lb }';
const book = (...texts: string[]) => toRateBook(texts.map((text) => rateCardSchema.parse(parse(text))));

test.each([
  [
    'one service on two cards at once',
    [CARD, CARD.replace('carrier: c', 'carrier: d')],
    /d \/ s: the service "s" of d is also on a card of c from 2026-01-01/,
  ],
  [
    'two currencies',
    [CARD, CARD.replace('currency: USD', 'currency: EUR').replace('id: s', 'id: t')],
    /currency: expected USD as on the card of c, found EUR/,
  ],
  [
    'a card that ends before it begins',
    [CARD.replace('from: 2026-01-01', 'from: 2026-01-01\nuntil: 2025-01-01')],
    /ends on 2025-01-01, before it begins/,
  ],
  [
    'two dimensional rules at once',
    [CARD.replace('zones: [a]\n', `zones: [a]\n        dimensional: [${DIM}, ${DIM}]\n`)],
    /two dimensional rules are in force on every day/,
  ],
  [
    'a discount for being large',
    [
      CARD.replace(
        '    prices:',
        '    discounts: [{ id: big, name: { en: B, es: B }, when: [{ when: longest-side, over: 9 in }], amount: { kind: amount, price: 1 } }]\n    prices:',
      ),
    ],
    /c \/ s: the discount "big" is for parcels over a size/,
  ],
  [
    'falling prices by volume',
    [CARD.replace('zones: [a]\n', `zones: [a]\n        fallingPrices: true\n        dimensional: [${DIM}]\n`)],
    /c \/ s: prices fall as the mass grows and volume counts as mass/,
  ],
])('%s makes no book', (_, texts, message) => {
  expect(() => book(...texts)).toThrow(message);
});

test('the next card of a carrier follows on the day after', () => {
  const next = CARD.replace('from: 2026-01-01', 'from: 2027-01-01');
  expect(() => book(CARD, next)).toThrow(/from 2027-01-01/);
  expect(book(CARD.replace('from: 2026-01-01', 'from: 2026-01-01\nuntil: 2026-12-31'), next).cards).toHaveLength(2);
});

test('a service without weight brackets must say its largest mass', () => {
  const flat = [
    'rule: weight-bracket\n        zones: [a]\n        brackets: [{ upTo: 1 lb, prices: [4.10] }, { upTo: 2 lb, prices: [5.20] }]',
    'rule: flat-fee\n        fees: [{ container: x, prices: 4.10 }]',
  ] as const;
  expect(problems(flat)).toEqual([expect.stringContaining('services.0.limits: expected a limit "largest-mass"')]);
});
