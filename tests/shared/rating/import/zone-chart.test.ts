import { expect, test } from 'vitest';
import { parse } from 'yaml';
import { rateCardSchema, toRateBook } from '#config/schema/rate-card.ts';
import { tableRows } from '#server/office/price-lists/table-rows.ts';
import type { ChartOptions } from '#shared/rating/import/zone-chart.ts';
import { readZoneChart, writeZoneRule } from '#shared/rating/import/zone-chart.ts';
import { zoneOf } from '#shared/rating/zones.ts';

const read = (text: string, options: ChartOptions = { country: 'US' }) => readZoneChart(tableRows(text), options);
const problemsOf = (text: string) => read(text).problems.map(({ cell, code, found }) => `${cell} ${code} ${found}`);

const CHART = 'Origin,Destination,Zone\n558,550-567,Zone 2\n558,005,7\n558,900-961,8\n';

test('a chart becomes a rule that finds the zone by the beginning of both postcodes', () => {
  const { rows, problems } = read(CHART);
  expect(problems).toEqual([]);
  const yaml = `
carrier: c
name: { en: C, es: C }
currency: USD
units: { mass: lb, length: in }
from: 2026-01-01
zones:
${writeZoneRule(rows, 'US')}
services:
  - id: s
    name: { en: S, es: S }
    prices: [{ rule: weight-bracket, zones: ['2', '7', '8'], brackets: [{ upTo: 1 lb, prices: [1, 2, 3] }] }]
`;
  const book = toRateBook([rateCardSchema.parse(parse(yaml))]);
  const zone = (from: string, to: string) =>
    zoneOf(
      book.cards[0]!,
      { from: { postcode: from, country: 'US' }, to: { postcode: to, country: 'US' } },
      '2026-11-25',
      book.places,
    );
  expect(zone('55802', '55000')).toMatchObject({ zone: '2' });
  expect(zone('55802', '56799-1234')).toMatchObject({ zone: '2' });
  expect(zone('55802', '00501')).toMatchObject({ zone: '7' });
  expect(zone('55802', '90001')).toMatchObject({ zone: '8' });
  expect(zone('55802', '56800')).toEqual({
    zone: null,
    why: { code: 'unknown-postcode', values: { postcode: '56800', country: 'US' } },
  });
  expect(zone('10001', '90001')).toMatchObject({ zone: null, why: { values: { postcode: '10001' } } });
});

test('a chart of one origin has two columns', () => {
  expect(read('010-089\t7\n550–567\t2', { country: 'US', origin: '558' })).toMatchObject({
    rows: [{ zone: '7' }, { from: { first: '558' }, to: { first: '550', last: '567' }, zone: '2' }],
    problems: [],
  });
});

test.each([
  ['558,5-567,2', ['B1 bad-postcodes 5-567']],
  ['558,567-550,2', ['B1 bad-postcodes 567-550']],
  ['558,5,7', ['B1 lost-zeros 5']],
  ['558,550-567,', ['C1 no-zone ']],
  ['558,550-567,2\n558,560-570,3', ['C2 two-zones 3']],
  ['558,550-567,2\n55,55802,3', ['A2 lost-zeros 55']],
  ['558,550-567,2\n558,55802,3', ['C2 two-zones 3']],
  ['Origin,Destination,Zone', ['A1 no-rows ']],
])('%j has the problem %j', (text, problems) => {
  expect(problemsOf(text)).toEqual(problems);
});

test('each problem of a chart names its cell, what was expected there and what was there', () => {
  const said = (text: string, options?: ChartOptions) =>
    read(text, options).problems.map(({ cell, code, expected, found }) => `${cell} ${code}: ${expected}; ${found}`);
  expect(said('558,550-567,\n,,\n5,550,2\nx-y-z,550,2')).toEqual([
    'C1 no-zone: a zone; ',
    'A3 lost-zeros: at least three digits; spreadsheets drop leading zeros; 5',
    'A4 bad-postcodes: a beginning such as 558 or a range such as 550-567; x-y-z',
  ]);
  expect(said('558,550-567,2\n558,555-556,2\n558,55501,3\n559,55501,4')).toEqual([
    'C3 two-zones: zone 2, as row 1 says of some of the same postcodes; 3',
  ]);
  expect(said('550-567,2\n5670,3', { country: 'US', origin: '558' })).toEqual([
    'B2 two-zones: zone 2, as row 1 says of some of the same postcodes; 3',
  ]);
  expect(said('Origin,Destination,Zone')).toEqual(['A1 no-rows: rows of origin, destination and zone; ']);
  // Other countries have beginnings of any length, and zones may be called anything.
  const { rows, problems } = read('A,B-C,Zona  4\nA,D,Ozone 5\nOrigin,E,6', { country: 'GB' });
  expect(problems).toEqual([]);
  expect(rows.map(({ from, to, zone }) => [from.first, to.first, to.last, zone])).toEqual([
    ['A', 'B', 'C', '4'],
    ['A', 'D', 'D', 'Ozone 5'],
    ['ORIGIN', 'E', 'E', '6'],
  ]);
  expect(writeZoneRule(rows, 'GB')).toContain(
    '{ from: "A", to: "B-C", zone: "4" }\n      - { from: "A", to: "D", zone: "Ozone 5" }',
  );
});
