import { expect, test } from 'vitest';
import { parse } from 'yaml';
import { rateCardSchema } from '#config/schema/rate-card.ts';
import { importPriceList } from '#server/office/price-lists/import-price-list.ts';
import { tableRows } from '#server/office/price-lists/table-rows.ts';

const HEAD = {
  carrier: 'merrow-post',
  name: { en: 'Merrow Post', es: 'Correos Merrow' },
  service: 'light-parcel',
  serviceName: { en: 'Light parcel', es: 'Paquete ligero' },
  units: { mass: 'oz', length: 'in' },
  from: '2027-01-17',
} as const;
const USD = { currency: 'USD' };

test('a sound list comes back as a card', () => {
  const { grid, yaml } = importPriceList('w\t1\t2\n1 lb\t$4.00\t$4.50\n2 lb\t$5.00\t$5.50', USD, HEAD);
  expect(grid.problems).toEqual([]);
  expect(rateCardSchema.parse(parse(yaml!)).services[0]?.prices[0]).toMatchObject({
    zones: ['1', '2'],
    brackets: [{ prices: [400, 450] }, { prices: [500, 550] }],
  });
});

test('a list with an error gives no card, and one with a warning only when it is accepted', () => {
  expect(importPriceList('w,1,2\n1 lb,4.00,', USD, HEAD, true).yaml).toBeNull();
  const falling = 'w,1,2\n1 lb,4.00,4.50\n2 lb,3.00,5.50';
  expect(importPriceList(falling, USD, HEAD).yaml).toBeNull();
  expect(importPriceList(falling, USD, HEAD, true).yaml).toContain('fallingPrices: true');
});

test('cells keep the names of the spreadsheet: blank lines, quotes, a byte order mark and line ends do not move them', () => {
  expect(tableRows('\ufeffa;"b;""c"\r\n\r\n1,5;2\r\n')).toEqual([['a', 'b;"c'], [''], ['1,5', '2']]);
  const { grid } = importPriceList('Prices\n\nw,1,2\n\n1 lb,4.00,oops', USD, HEAD);
  expect(grid.problems.map((problem) => problem.cell)).toEqual(['C5']);
});
