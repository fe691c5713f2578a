import { describe, expect, it } from 'vitest';
import { bandsOf } from '#shared/rating/import/bands.ts';
import { readPriceGrid, type GridOptions } from '#shared/rating/import/price-grid.ts';
import { writeCard } from '#shared/rating/import/write-card.ts';
import { massFromDecimal } from '#shared/units/mass.ts';

/** A table of lines between slashes and cells between bars, as it was understood. */
function read(text: string, options: Partial<GridOptions> = {}) {
  const table = text.split(' / ').map((line) => line.split('|'));
  const { zones, rows, problems, cells } = readPriceGrid(table, { currency: 'USD', ...options });
  return {
    zones: zones.map(({ zone, column }) => `${zone}@${String(column)}`).join(' '),
    rows: rows.map(({ label, prices }) => `${label}: ${prices.map((price) => price ?? '?').join(' ')}`),
    problems: problems.map(({ cell, severity, code, found }) => `${cell} ${severity} ${code} ${found}`.trim()),
    cells: cells.map(({ cell, as }) => `${cell} ${as}`).join(', '),
  };
}

describe('which rows have prices', () => {
  it.each<[string, string, readonly string[]]>([
    ['after a title with a second cell', 'Light|Prices| / w|1|2 / 8 oz|1.00|2.00', ['8 oz: 100 200']],
    ['with a blank cell in the first', 'w|1|2 / 8 oz||2.00 / 12 oz|1.00|3.00', ['8 oz: ? 200', '12 oz: 100 300']],
    [
      'with no price at all in one between',
      'w|1|2 / 8 oz|1.00|2.00 / 12 oz|| / 16 oz|3.00|4.00',
      ['8 oz: 100 200', '12 oz: ? ?', '16 oz: 300 400'],
    ],
    [
      'with none in the first, and a sign that says so',
      'w|1|2 / 8 oz|n/a|- / 12 oz|1.00|2.00',
      ['8 oz: ? ?', '12 oz: 100 200'],
    ],
    ['with whole prices that do not count up', 'g|Zone 1|Zone 2 / 5|10|12', ['5: 1000 1200']],
    ['with one whole price', 'g|Price / 5|10 / 6|11', ['5: 1000', '6: 1100']],
    ['after zones that stand behind a number', '16|Zone 9|zona 10|11 / 8 oz|1.00|2.00|3.00', ['8 oz: 100 200 300']],
    ['with words for a price', 'x|1|2 / 8 oz|call|9 / 1 lb|9.50|10', ['8 oz: ? 900', '1 lb: 950 1000']],
    ['with blank cells at the end', 'w|1|2 / 8 oz|1.00|2.00||', ['8 oz: 100 200']],
    ['with the unit in a column of its own', 'w|unit|1 / 8|oz.|1.00 / 1|lb|2.00', ['8 oz.: 100', '1 lb: 200']],
  ])('%s', (_, text, rows) => {
    expect(read(text).rows).toEqual(rows);
  });

  it('in ounces where the heading of the masses says so, whatever the prices are in', () => {
    const { rows } = readPriceGrid(
      [
        ['Weight (oz)', 'Prices in pounds'],
        ['8', '1.00'],
      ],
      { currency: 'GBP' },
    );
    expect(rows.map(({ upTo }) => upTo)).toEqual([massFromDecimal('8', 'oz')]);
  });
});

describe('which row names the zones', () => {
  it.each<[string, string, string]>([
    ['one with a column between that says nothing', 'w||1|2 / 8 oz||1.00|2.00', '1@2 2@3'],
    ['one above a row of units that names the first again', 'w|1|2 / (oz)|Zone 1| / 8|1.00|2.00', '1@1 2@2'],
    ['none that leaves one out between: each column has none', 'w|1||3 / 8 oz|1.00|2.00|3.00', '@1 @2 @3'],
    ['none at all', '8 oz|1.00|2.00 / 1 lb|3.00|4.00', '@1 @2'],
    ['one of two zones of one price', 'w|1-2|3 / 8 oz|2.00|2.00', '1@1 2@1 3@2'],
    ['not the first row where it says "n/a"', 'w|Zone 1 / 8 oz|n/a / 12 oz|1.00', '1@1'],
  ])('%s', (_, text, zones) => {
    expect(read(text).zones).toBe(zones);
  });

  it('is told of each cell, and of other rows of headings that they are such', () => {
    expect(read('Light|Prices| / w|1|2 / 8 oz|1.00|2.00').cells).toBe(
      'A1 heading, B1 heading, A2 heading, B2 zone, C2 zone, A3 mass, B3 price, C3 price',
    );
    expect(read('w|1|2 / 8 oz|1.00|2.00 / junk|3.00|4.00').cells).toContain('A3 wrong');
  });
});

describe('what is wrong', () => {
  it.each<[string, string, readonly string[]]>([
    ['a first row without prices', 'w|Zone 1 / 8 oz|n/a / 12 oz|1.00', ['B2 error gap n/a']],
    [
      'a zone twice, told where it stands and not in the row of units',
      'w|1|1 / Ounces|| / 8|1.00|2.00',
      ['C1 error repeated-zone 1'],
    ],
    ['zones without a name', '8 oz|1.00|2.00 / 1 lb|3.00|4.00', ['B1 error repeated-zone', 'C1 error repeated-zone']],
    [
      'zones without a name below a title',
      'Light|| / 8 oz|1.00|2.00',
      ['B1 error repeated-zone', 'C1 error repeated-zone'],
    ],
    [
      'a price that falls in two zones at once, told once',
      'w|1-2|3 / 8 oz|2.00|2.00 / 1 lb|1.00|3.00',
      ['B3 warning falling-price 1.00'],
    ],
    [
      'a price that falls in each of two columns',
      'w|1|2 / 8 oz|2.00|3.00 / 1 lb|1.00|2.50',
      ['B3 warning falling-price 1.00', 'C3 warning falling-price 2.50'],
    ],
    ['a mass twice', 'w|1 / 1 lb|1.00 / 16 oz|2.00', ['A3 error repeated-row 16 oz']],
    [
      'a mass twice, then a lighter one',
      'w|1 / 1 lb|1.00 / 16 oz|2.00 / 8 oz|3.00',
      ['A3 error repeated-row 16 oz', 'A4 error not-rising 8 oz'],
    ],
    [
      'no price in a row between',
      'w|1|2 / 8 oz|1.00|2.00 / 12 oz|| / 16 oz|3.00|4.00',
      ['B3 error gap', 'C3 error gap'],
    ],
    ['a zone that ends', 'w|1|2 / 8 oz|1.00|2.00 / 1 lb|3.00|', ['C3 warning zone-ends']],
    ['a price that falls after one that is missing is none', 'w|1 / 8 oz|2.00 / 12 oz| / 1 lb|1.00', ['B3 error gap']],
  ])('%s', (_, text, problems) => {
    expect(read(text).problems).toEqual(problems);
  });

  it('a decimal comma where points were said to be, though the table has only commas', () => {
    expect(read('w|1 / 1 kg|4,50', { decimal: '.', currency: 'EUR' })).toMatchObject({
      rows: ['1 kg: ?'],
      problems: ['B2 error bad-price 4,50'],
    });
    expect(read('w|1 / 1 kg|4,50', { currency: 'EUR' }).rows).toEqual(['1 kg: 450']);
  });
});

it('a card of one zone names it where the table does, and no zone where it does not', () => {
  const head = {
    carrier: 'merrow-post',
    name: { en: 'M', es: 'M' },
    service: 's',
    serviceName: { en: 'S', es: 'S' },
    units: { mass: 'oz', length: 'in' },
    from: '2027-01-17',
  } as const;
  const card = (...table: readonly (readonly string[])[]) =>
    writeCard(readPriceGrid(table, { currency: 'USD' }), head, false);
  expect(card(['w', 'Zone 1'], ['8 oz', '1.00'])).toMatch(/prices: \[1\.00\]/);
  expect(card(['8 oz', '1.00'])).toMatch(/prices: 1\.00/);
  expect(card(['w', 'Zone 1'], ['8 oz', '1.00'])).toMatch(/zones: \["1"\]/);
});

it('bands are lines of a distance and a zone, and a zone alone takes the rest', () => {
  expect(bandsOf('50 1\n150,5: near by \n\n300;3\nx50 1\nfar')).toEqual([
    { upTo: 50, zone: '1' },
    { upTo: 150.5, zone: 'near by' },
    { upTo: 300, zone: '3' },
    { upTo: null, zone: 'x50 1' },
    { upTo: null, zone: 'far' },
  ]);
});
