import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { rateCardSchema, toRateCard } from '#config/schema/rate-card.ts';
import { checkBook } from '#shared/rating/check-book.ts';
import { innerGaps } from '#shared/rating/coverage.ts';

const BRACKETS = 'brackets: [{ upTo: 1 lb, prices: 5.00 }]';
const PRICES = `prices: [{ rule: weight-bracket, ${BRACKETS} }]`;
interface Written {
  readonly carrier?: string;
  readonly currency?: string;
  readonly dates?: string;
  readonly zones?: string;
  readonly service?: string;
}
const card = ({
  carrier = 'c',
  currency = 'USD',
  dates = 'from: 2026-01-01',
  zones = '[{ by: flat, zone: a }]',
  service = PRICES,
}: Written = {}) =>
  toRateCard(
    rateCardSchema.parse(
      parse(`
carrier: ${carrier}
name: { en: C, es: C }
currency: ${currency}
units: { mass: lb, length: in }
${dates}
zones: ${zones}
services:
  - id: s
    name: { en: S, es: S }
${service.replace(/^/gm, '    ')}
`),
    ),
  );
/** Everything that is said of cards, in one line each. */
const found = (...cards: readonly ReturnType<typeof card>[]) =>
  checkBook(cards).map(
    ({ severity, card: which, path, carrier, service, code, message }) =>
      `${severity} ${code} at ${[which, ...path].join('.')} of ${carrier}/${service ?? '-'}: ${message}`,
  );
const adjustment = (more: string) => `{ id: x, name: { en: X, es: X }, ${more}amount: { kind: amount, price: 1 } }`;
const dimensional = (dates: string) =>
  `{ ${dates}divisor: 166, length: in, mass: lb, sides: { mode: up, step: 1 in }, roundUpTo: 1 lb }`;

describe('cards together', () => {
  test('have one currency', () => {
    expect(
      found(
        card(),
        card({ carrier: 'd', currency: 'EUR', dates: 'from: 2027-01-01', service: `from: 2027-01-01\n${PRICES}` }),
      ),
    ).toContain('error currency-mix at 1.currency of d/-: currency: expected USD as on the card of c, found EUR');
    expect(found(card(), card({ dates: 'from: 2020-01-01\nuntil: 2025-12-31' }))).toEqual([]);
  });
  test('sell a service once a day, and on every day between', () => {
    const until = (day: string) => card({ dates: `from: 2026-01-01\nuntil: ${day}` });
    const from = (day: string) => card({ carrier: 'd', dates: `from: ${day}` });
    expect(found(until('2026-12-31'), from('2026-12-01'))).toEqual([
      'error service-twice at 1.services.0 of d/s: the service "s" of d is also on a card of c from 2026-12-01 until 2026-12-31',
    ]);
    expect(found(card(), from('2026-12-01'))).toEqual([
      'error service-twice at 1.services.0 of d/s: the service "s" of d is also on a card of c from 2026-12-01',
    ]);
    expect(found(until('2026-12-31'), from('2027-01-02'))).toEqual([
      'warning service-gap at 1.services.0 of d/s: no card sells the service "s" from 2027-01-01 until 2027-01-01',
    ]);
    expect(found(until('2026-12-31'), from('2027-01-01'))).toEqual([]);
  });
});

describe('one card', () => {
  test.each<[string, Written, readonly string[]]>([
    [
      'that ends before it begins',
      { dates: 'from: 2026-01-02\nuntil: 2026-01-01' },
      ['error dates-reversed at 0.until of c/-: the card ends on 2026-01-01, before it begins on 2026-01-02'],
    ],
    [
      'whose service begins before it and goes on after it: its own days count',
      {
        dates: 'from: 2026-01-01\nuntil: 2026-12-31',
        service: `from: 2025-06-01\nuntil: 2027-06-30\nprices: [{ rule: weight-bracket, from: 2026-01-01, until: 2026-12-31, ${BRACKETS} }]`,
      },
      [],
    ],
    [
      'whose service is sold in spring alone',
      {
        dates: 'from: 2026-01-01\nuntil: 2026-12-31',
        service: `from: 2026-03-01\nuntil: 2026-05-31\nprices: [{ rule: weight-bracket, from: 2026-03-01, until: 2026-05-31, ${BRACKETS} }]`,
      },
      [],
    ],
    ['of one day', { dates: 'from: 2026-01-01\nuntil: 2026-01-01' }, []],
    [
      'whose rule for zones was over before it began',
      { zones: '[{ by: flat, zone: a }, { by: flat, zone: b, until: 2025-12-31 }]' },
      ['warning never-in-force at 0.zones.1 of c/-: a rule for zones is on no day in force: until 2025-12-31'],
    ],
    [
      'without a rule for zones on some days',
      { zones: '[{ by: flat, zone: a, until: 2026-06-30 }]' },
      ['warning zones-gap at 0.zones of c/-: no rule for zones is in force from 2026-07-01'],
    ],
    ['that leaves zones to who asks', { zones: '[]' }, []],
    [
      'whose service is over before the card begins: nothing more is said of it',
      { service: `until: 2025-06-30\nprices: [{ rule: weight-bracket, from: 2026-01-01, ${BRACKETS} }]` },
      ['warning never-in-force at 0.services.0 of c/s: the service is on no day in force: until 2025-06-30'],
    ],
    [
      'with a price that was over before the service began',
      {
        service: `prices: [{ rule: weight-bracket, ${BRACKETS} }, { rule: weight-bracket, until: 2025-12-31, ${BRACKETS} }]`,
      },
      [
        'error prices-overlap at 0.services.0.prices.1 of c/s: prices 1 and 2 are both in force until 2025-12-31',
        'warning never-in-force at 0.services.0.prices.1 of c/s: a price is on no day in force: until 2025-12-31',
      ],
    ],
    [
      'with a gap between prices',
      {
        service: `prices: [{ rule: weight-bracket, until: 2026-03-31, ${BRACKETS} }, { rule: weight-bracket, from: 2026-04-02, ${BRACKETS} }]`,
      },
      ['warning prices-gap at 0.services.0.prices of c/s: no price is in force from 2026-04-01 until 2026-04-01'],
    ],
    [
      'with prices for a zone that no rule gives',
      {
        service:
          'prices: [{ rule: weight-bracket, zones: [a, b, d, e, f], brackets: [{ upTo: 1 lb, prices: [1, 2, 3, 4, 5] }] }]',
        zones:
          "[{ by: flat, zone: a }, { by: chart, country: XA, rows: [{ from: '1', to: '2', zone: b }] }, { by: distance, unit: km, country: XB, bands: [{ upTo: 5, zone: d }, { zone: e }] }]",
      },
      [
        'warning zone-unreachable at 0.services.0.prices.0.zones of c/s: zone "f" has prices, but no zone rule of the card gives it',
      ],
    ],
    [
      'whose dimensional rule belongs to no day of its price',
      {
        service: `prices: [{ rule: weight-bracket, dimensional: [${dimensional('until: 2025-12-31, ')}], ${BRACKETS} }]`,
      },
      [
        'warning never-in-force at 0.services.0.prices.0.dimensional.0 of c/s: a dimensional rule is on no day in force: until 2025-12-31',
      ],
    ],
    [
      'whose dimensional rules overlap, or leave days out',
      {
        service: `prices: [{ rule: weight-bracket, dimensional: [${['until: 2026-03-31, ', 'from: 2026-03-31, until: 2026-04-30, ', 'from: 2026-05-02, '].map(dimensional).join(', ')}], ${BRACKETS} }]`,
      },
      [
        'error dimensional-overlap at 0.services.0.prices.0.dimensional of c/s: two dimensional rules are in force from 2026-03-31 until 2026-03-31',
        'warning dimensional-gap at 0.services.0.prices.0.dimensional of c/s: no dimensional rule is in force from 2026-05-01 until 2026-05-01',
      ],
    ],
    [
      'whose flat fee has no largest mass on some days',
      {
        service:
          'prices: [{ rule: flat-fee, fees: [{ container: x, prices: 1 }] }]\nlimits: [{ limit: largest-mass, most: 9 lb, until: 2026-01-31 }, { limit: largest-mass, most: 9 lb, from: 2026-02-02 }]',
      },
      [
        'warning limit-gap at 0.services.0.limits of c/s: the limit "largest-mass" is not in force from 2026-02-01 until 2026-02-01',
        'error largest-mass-gap at 0.services.0.limits of c/s: no limit "largest-mass" is in force from 2026-02-01 until 2026-02-01',
      ],
    ],
    [
      'with a surcharge and a discount twice, each told at the later one',
      {
        service: `${PRICES}\nsurcharges: [${adjustment('')}, ${adjustment('until: 2026-06-30, ')}]\ndiscounts: [${adjustment('from: 2026-06-01, ')}, ${adjustment('from: 2026-06-30, ')}]`,
      },
      [
        'error adjustment-twice at 0.services.0.discounts.1 of c/s: a discount "x" is in force twice from 2026-06-30',
        'error adjustment-twice at 0.services.0.surcharges.1 of c/s: a surcharge "x" is in force twice until 2026-06-30',
      ],
    ],
    [
      'with a surcharge that is interrupted',
      { service: `${PRICES}\nsurcharges: [${adjustment('until: 2026-06-30, ')}, ${adjustment('from: 2026-07-02, ')}]` },
      [
        'warning adjustment-gap at 0.services.0.surcharges of c/s: a surcharge "x" is not in force from 2026-07-01 until 2026-07-01',
      ],
    ],
    [
      'with a limit twice, one that is interrupted and one that was over',
      {
        service: `${PRICES}\nlimits: [{ limit: second-side, most: 9 in }, { limit: second-side, most: 8 in }, { limit: second-side, most: 8 in, measured: rounded }, { limit: longest-side, most: 9 in, until: 2026-02-01 }, { limit: longest-side, most: 9 in, from: 2026-02-03 }, { limit: sum-of-sides, most: 9 in, until: 2025-02-01 }]`,
      },
      [
        'warning never-in-force at 0.services.0.limits.5 of c/s: a limit is on no day in force: until 2025-02-01',
        'warning limit-twice at 0.services.0.limits.1 of c/s: the limit "second-side" is in force twice on every day: the narrower counts',
        'warning limit-gap at 0.services.0.limits of c/s: the limit "longest-side" is not in force from 2026-02-02 until 2026-02-02',
      ],
    ],
    [
      'whose smallest mass is above its largest on a day',
      {
        service: `${PRICES}\nlimits: [{ limit: largest-mass, most: 8 oz, until: 2026-06-30 }, { limit: smallest-mass, least: 9 oz, from: 2026-06-30 }, { limit: largest-mass, most: 1 lb, from: 2026-07-01 }]`,
      },
      ['error no-mass-taken at 0.services.0.limits.1 of c/s: the smallest mass is above the largest: no mass is taken'],
    ],
    [
      'whose smallest mass is above a largest that was over by then, or just as large',
      {
        service: `${PRICES}\nlimits: [{ limit: largest-mass, most: 8 oz, until: 2026-06-30 }, { limit: smallest-mass, least: 9 oz, from: 2026-07-01 }, { limit: largest-mass, most: 9 oz, from: 2026-07-01 }]`,
      },
      [],
    ],
    [
      'on which a parcel could become cheaper by growing',
      {
        service: `prices: [{ rule: weight-bracket, fallingPrices: true, dimensional: [${dimensional('')}], brackets: [{ upTo: 1 lb, prices: 5.00 }, { upTo: 2 lb, prices: 4.00 }] }]\ndiscounts: [{ id: big, name: { en: B, es: B }, when: [{ when: mass, over: 1 lb }, { when: volume, over: 1 l }], amount: { kind: amount, price: 1 } }]`,
      },
      [
        'error cheaper-when-larger at 0.services.0 of c/s: the discount "big" is for parcels over a size: a larger parcel would be cheaper',
        'error cheaper-when-larger at 0.services.0 of c/s: prices fall as the mass grows and volume counts as mass: a larger parcel would be cheaper',
      ],
    ],
    [
      'on which only mass or place makes a parcel cheaper',
      {
        service: `prices: [{ rule: weight-bracket, fallingPrices: true, brackets: [{ upTo: 1 lb, prices: 5.00 }, { upTo: 2 lb, prices: 4.00 }] }]\ndiscounts: [{ id: near, name: { en: B, es: B }, when: [{ when: mass, over: 1 lb }, { when: zone, zones: [a] }], amount: { kind: amount, price: 1 } }]`,
      },
      [],
    ],
  ])('%s', (_, written, said) => {
    expect(found(card(written))).toEqual(said);
  });

  test.each(['longest-side', 'second-side', 'shortest-side', 'length-and-girth'])(
    'gives no discount for a larger %s',
    (when) => {
      const discounts = `discounts: [${adjustment(`when: [{ when: ${when}, over: 9 in }], `)}]`;
      expect(checkBook([card({ service: `${PRICES}\n${discounts}` })]).map(({ code }) => code)).toEqual([
        'cheaper-when-larger',
      ]);
    },
  );
});

test('gaps between ranges are those that lie within them', () => {
  expect(innerGaps([])).toEqual([]);
  expect(innerGaps([{ from: '2026-01-01', until: '2026-01-31' }])).toEqual([]);
  const spring = { from: '2026-03-01', until: '2026-05-31' };
  const autumn = { from: '2026-09-01', until: '2026-11-30' };
  const gap = { from: '2026-06-01', until: '2026-08-31' };
  expect(innerGaps([autumn, spring])).toEqual([gap]);
  expect(innerGaps([{ until: '2026-05-31' }, { from: '2026-09-01' }])).toEqual([gap]);
  expect(innerGaps([spring, autumn, { from: '2026-04-01', until: '2026-04-30' }])).toEqual([gap]);
  expect(innerGaps([spring, autumn, {}])).toEqual([]);
});
