import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { rateCardSchema, toRateBook } from '#config/schema/rate-card.ts';
import { tableRows } from '#server/office/price-lists/table-rows.ts';
import type { GridOptions } from '#shared/rating/import/price-grid.ts';
import { readPriceGrid } from '#shared/rating/import/price-grid.ts';
import { writeCard } from '#shared/rating/import/write-card.ts';
import { quote } from '#shared/rating/quote.ts';
import { parseMass } from '#shared/units/mass.ts';
import { box } from '#tests/support/rate-book.ts';

const read = (text: string, options: Partial<GridOptions> = {}) =>
  readPriceGrid(tableRows(text), { currency: 'USD', ...options });
const rowsOf = (text: string, options: Partial<GridOptions> = {}) =>
  read(text, options).rows.map((row) => [row.upTo, ...row.prices]);
const problemsOf = (text: string, options: Partial<GridOptions> = {}) =>
  read(text, options).problems.map(({ cell, code, found }) => `${cell} ${code} ${found}`);

const HEAD = {
  carrier: 'merrow-post',
  name: { en: 'Merrow Post', es: 'Correos Merrow' },
  service: 'light-parcel',
  serviceName: { en: 'Light parcel', es: 'Paquete ligero' },
  units: { mass: 'oz', length: 'in' },
  from: '2027-01-17',
} as const;

describe('a price list as people keep it', () => {
  test('with a merged title, zones, ounces then pounds, currency signs and thousands', () => {
    const text = [
      'Light things by zone,,,',
      '"Weight, not over",Zone 1,Zone 2,Zones 3 & 4',
      'Ounces,,,',
      'up to 8 oz,$3.55,$3.60,$4.00',
      '16,$4.10,4.15,USD 5.00',
      ',,,',
      'Pounds (lbs),,,',
      'Not over 2,$7.00,$8.00,"$1,009.00"',
      'over 2 to 5 lb,8,9.5,"1,010.00"',
      'Prices may change,,,',
    ].join('\n');
    const grid = read(text);
    expect(grid.problems).toEqual([]);
    expect(grid.zones.map(({ zone }) => zone)).toEqual(['1', '2', '3', '4']);
    expect(rowsOf(text)).toEqual([
      [parseMass('8 oz'), 355, 360, 400, 400],
      [parseMass('16 oz'), 410, 415, 500, 500],
      [parseMass('2 lb'), 700, 800, 100_900, 100_900],
      [parseMass('5 lb'), 800, 950, 101_000, 101_000],
    ]);
    expect(grid.cells.find((cell) => cell.cell === 'D8')).toEqual({ cell: 'D8', text: '$1,009.00', as: 'price' });
    expect(grid.cells.find((cell) => cell.cell === 'A7')).toMatchObject({ as: 'unit' });
    expect(grid.cells.find((cell) => cell.cell === 'A10')).toMatchObject({ as: 'heading' });
  });

  test('pasted with tabs, kilograms, decimal commas and one price for everywhere', () => {
    expect(rowsOf('Gewicht\tPreis\n0,5 kg\t4,10 €\nhasta 1 kg\t1.005,90 €', { currency: 'EUR', decimal: ',' })).toEqual(
      [
        [parseMass('500 g'), 410],
        [parseMass('1 kg'), 100_590],
      ],
    );
  });

  test('with the unit in a column of its own, or in the heading', () => {
    const expected = [
      [parseMass('8 oz'), 100, 200],
      [parseMass('1 lb'), 300, 400],
    ];
    expect(rowsOf('Weight,Unit,1,2\n8,oz,1.00,2.00\n1,lb,3.00,4.00')).toEqual(expected);
    expect(rowsOf('Weight (oz),1,2\n8,1.00,2.00\n16,3.00,4.00')).toEqual(expected);
    expect(rowsOf('Weight,1,2\n8,1.00,2.00\n16,3.00,4.00', { unit: 'oz' })).toEqual(expected);
  });

  test.each([
    ['8 oz', '8 oz'],
    ['1 lb 8 oz', '24 oz'],
    ['1 lb. 8 oz.', '24 oz'],
    ['≤ 250 g', '250 g'],
    ['8.1-12 oz', '12 oz'],
    ['8 – 12 oz', '12 oz'],
    ['more than 1 up to 2 kg', '2 kg'],
    ['Weight not over 15.999 ounces', '15.999 oz'],
    ['1,000 g', '1 kg'],
    ['no más de 2 libras', '2 lb'],
  ])('a row label of %j is %s', (label, mass) => {
    expect(rowsOf(`x\t1\t2\n${label}\t1.00\t2.00`)).toEqual([[parseMass(mass), 100, 200]]);
  });
});

describe('what is wrong is named by its cell', () => {
  test.each([
    ['a gap', 'w,1,2\n8 oz,1.00,\n1 lb,2.00,-', ['C2 gap ', 'C3 gap -']],
    ['a repeated row', 'w,1,2\n16 oz,1.00,1.20\n1 lb,2.00,2.10', ['A3 repeated-row 1 lb']],
    ['rows out of order', 'w,1,2\n2 lb,1.00,1.20\n1 lb,2.00,2.10', ['A3 not-rising 1 lb']],
    ['a falling price', 'w,1,2\n1 lb,1.00,3.00\n2 lb,2.00,2.10', ['C3 falling-price 2.10']],
    ['a zone twice', 'w,1,1\n1 lb,1.00,3.00', ['C1 repeated-zone 1']],
    [
      'decimal commas between commas',
      'w,1,2\n8 oz,4,10,4,20\n1 lb,5,10,5,20',
      ['D2 beyond-headings 4', 'D3 beyond-headings 5'],
    ],
    ['decimal commas where points are expected', 'w;1;2\n1 lb;1,00;3.00', ['B2 bad-price 1,00']],
    ['a third decimal', 'w,1,2\n1 lb,1.005,3.00', ['B2 bad-price 1.005']],
    ['another currency', 'w,1,2\n1 lb,€1.00,3.00', ['B2 bad-price €1.00']],
    ['a negative price', 'w,1,2\n1 lb,-1.00,3.00', ['B2 bad-price -1.00']],
    ['words for a price', 'w,1,2\n1 lb,1.00,3.00\n2 lb,call us,3.00', ['B3 bad-price call us']],
    ['no unit anywhere', 'w,1,2\n8,1.00,3.00', ['A2 no-unit 8']],
    ['a unit that is none', 'w,1,2\n1 lb,1.00,3.00\n2 stone,1.00,3.00', ['A3 bad-mass 2 stone']],
    ['nothing that looks like a price list', 'SKU,Title\nOT-1,Coat', ['A1 no-grid SKU Title']],
  ])('%s', (_, text, problems) => {
    expect(problemsOf(text)).toEqual(problems);
  });

  test('an empty text and an open quote are no table', () => {
    expect(() => tableRows(' \n')).toThrow(/there is nothing/);
    expect(() => tableRows('w,1\n"8 oz,1.00')).toThrow(/expected a table of cells/);
  });
});

describe('the card that comes of it', () => {
  const TEXT = 'Weight,1,2\n8 oz,3.55,3.60\n15.999 oz,4.10,4.20\n2 lb,7.00,7.50';
  test('reads back and gives the prices of the list', () => {
    const yaml = writeCard(read(TEXT), HEAD, false);
    const book = toRateBook([rateCardSchema.parse(parse(yaml))]);
    const price = (mass: string, zone: string) =>
      quote(book, box('10 x 8 x 2 in'), parseMass(mass), { zone }, '2027-02-01').offers[0]?.price.minor;
    expect(price('8 oz', '1')).toBe(355);
    expect(price('8.0001 oz', '2')).toBe(420);
    expect(price('15.999 oz', '2')).toBe(420);
    expect(price('16 oz', '2')).toBe(750);
    expect(yaml).toMatch(/^# Prices of Merrow Post/);
  });
  test('is not written over an error, nor over falling prices that nobody accepted', () => {
    expect(() => writeCard(read('w,1,2\n8 oz,1.00,'), HEAD, true)).toThrow(/C2: expected a price/);
    const falls = read('w,1,2\n1 lb,1.00,3.00\n2 lb,2.00,2.10');
    expect(() => writeCard(falls, HEAD, false)).toThrow(/C3: expected at least 3.00/);
    expect(rateCardSchema.safeParse(parse(writeCard(falls, HEAD, true))).success).toBe(true);
  });
  test('a name with a line break or a quote stays inside its own line', () => {
    const yaml = writeCard(read(TEXT), { ...HEAD, name: { en: 'A "b"\ncarrier: x', es: 'c' } }, false);
    expect(rateCardSchema.parse(parse(yaml))).toMatchObject({
      carrier: 'merrow-post',
      name: { en: 'A "b"\ncarrier: x' },
    });
  });
});
