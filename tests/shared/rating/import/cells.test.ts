import { describe, expect, test } from 'vitest';
import { bandsOf } from '#shared/rating/import/bands.ts';
import { cellName, tidy } from '#shared/rating/import/cell.ts';
import { readMassLabel, unitNamed } from '#shared/rating/import/mass-label.ts';
import { decimalIn, readPriceCell } from '#shared/rating/import/price-cell.ts';
import { readPriceGrid } from '#shared/rating/import/price-grid.ts';
import { zonesNamed } from '#shared/rating/import/zone-heading.ts';
import { parseMass } from '#shared/units/mass.ts';

// Columns as spreadsheets count them: after Z comes AA (common practice, no source).
test.each([
  [0, 0, 'A1'],
  [6, 2, 'C7'],
  [0, 25, 'Z1'],
  [0, 26, 'AA1'],
  [9, 51, 'AZ10'],
  [0, 52, 'BA1'],
  [0, 701, 'ZZ1'],
  [0, 702, 'AAA1'],
])('row %i and column %i, from nought, are %s', (row, column, name) => {
  expect(cellName(row, column)).toBe(name);
});

test('blanks around and inside a cell are one', () => {
  expect(tidy('\u00a0 1\u202f000 \t oz\u2007')).toBe('1 000 oz');
});

test.each<[string, readonly string[]]>([
  ['', []],
  ['Zone', []],
  ['Zone 3', ['3']],
  [' zona: 4', ['4']],
  ['Zonas. 4', ['4']],
  ['Zones 1 & 2', ['1', '2']],
  ['1-3', ['1', '2', '3']],
  ['9 – 11', ['9', '10', '11']],
  ['zones 9 to 10', ['9', '10']],
  ['3-3', ['3-3']],
  ['3-1', ['3-1']],
  ['1, 12 and 13', ['1', '12', '13']],
  ['10 y 2', ['10', '2']],
  ['1+2/3', ['1', '2', '3']],
  ['1-2 east', ['1-2 east']],
  ['A1-2', ['A1-2']],
  ['1 & 2 east', ['1 & 2 east']],
  ['Local', ['Local']],
  ['Ozone 3', ['Ozone 3']],
])('a heading of %j names %j', (text, zones) => {
  expect(zonesNamed(text)).toEqual(zones);
});

test('bands are lines of a distance and a zone; a line of a zone alone takes the rest', () => {
  expect(bandsOf('50 1\r\n 150,5 :  2 \n\n300;Zone three\n12.25\t4\nbeyond\n5')).toEqual([
    { upTo: 50, zone: '1' },
    { upTo: 150.5, zone: '2' },
    { upTo: 300, zone: 'Zone three' },
    { upTo: 12.25, zone: '4' },
    { upTo: null, zone: 'beyond' },
    { upTo: null, zone: '5' },
  ]);
});

test.each([
  ['Weight not over (lb)', 'lb'],
  ['Ounces', 'oz'],
  ['onza', 'oz'],
  ['libra', 'lb'],
  ['kilos', 'kg'],
  ['gramos', 'g'],
  ['oz or lb', null],
  ['Weight', null],
  ['gown', null],
])('%s names the unit %s', (text, unit) => {
  expect(unitNamed(text)).toBe(unit);
});

describe('the label of a row', () => {
  test.each([
    ['up to 8 oz', '.', '8 oz'],
    ['1 onza', '.', '1 oz'],
    ['2 onzas', '.', '2 oz'],
    ['1 libra', '.', '1 lb'],
    ['hasta 3 kilos', '.', '3 kg'],
    ['1 kilo', '.', '1 kg'],
    ['1 kilogramo', '.', '1 kg'],
    ['2 kilogramos', '.', '2 kg'],
    ['2 kgs', '.', '2 kg'],
    ['1 gramo', '.', '1 g'],
    ['20 gramos', '.', '20 g'],
    ['20 gr', '.', '20 g'],
    ['1.000 g', ',', '1000 g'],
    ['1.250,5 g', ',', '1250.5 g'],
    ['0,5 kg', ',', '0.5 kg'],
    ['1,000 g', '.', '1000 g'],
    ['1.5kg', '.', '1.5 kg'],
    ['1lb8oz', '.', '24 oz'],
    ['8 oz to 12 oz', '.', '12 oz'],
    ['8 through 12 oz', '.', '12 oz'],
    ['8oz - 12oz', '.', '12 oz'],
    ['8-12 oz', '.', '12 oz'],
    ['8 a 12 oz', '.', '12 oz'],
    ['de 8 hasta 12 oz', '.', '12 oz'],
    ['over 8 up to 12 oz', '.', '12 oz'],
  ] as const)('%s with a decimal %s is %s', (text, mark, mass) => {
    expect(readMassLabel(text, null, mark)).toEqual({ is: 'mass', mass: parseMass(mass) });
  });
  test('without a unit is of the one above, else it asks for one', () => {
    expect(readMassLabel('Not over 2', 'lb', '.')).toEqual({ is: 'mass', mass: parseMass('2 lb') });
    expect(readMassLabel('2', null, '.')).toEqual({ is: 'no-unit' });
  });
  test.each(['', 'Ounces', 'Prices of 2026 may change', 'see page 12 oz', '8 oz (each)'])('%j is no mass', (text) => {
    expect(readMassLabel(text, 'oz', '.')).toEqual({ is: 'other' });
  });
  test('that is wrong says what was expected', () => {
    expect(readMassLabel('0 oz', null, '.')).toEqual({
      is: 'wrong',
      message: 'expected more than nothing, found "0 oz"',
    });
    expect(readMassLabel('2 stone', null, '.')).toEqual({
      is: 'wrong',
      message: 'mass: expected oz, lb, g or kg, found "stone" in "2 stone"',
    });
    expect(readMassLabel('1.2.3', 'oz', '.')).toMatchObject({ is: 'wrong' });
  });
});

describe('the cell of a price', () => {
  test.each([
    ['4.10', 'USD', '.', 410],
    ['4', 'USD', '.', 400],
    ['12', 'USD', '.', 1200],
    ['4.1', 'USD', '.', 410],
    ['$ 4.10', 'USD', '.', 410],
    ['USD 4.10', 'USD', '.', 410],
    ['4.10 USD', 'USD', '.', 410],
    ['4.10$', 'USD', '.', 410],
    ['$4.10', 'CAD', '.', 410],
    ['1,234,567.89', 'USD', '.', 123_456_789],
    ["12'345.00", 'USD', '.', 1_234_500],
    ['12 345.00', 'USD', '.', 1_234_500],
    ['4,10 €', 'EUR', ',', 410],
    ['12', 'EUR', ',', 1200],
    ['12.345,60', 'EUR', ',', 1_234_560],
    ['1.234.567,89', 'EUR', ',', 123_456_789],
    ['£3', 'GBP', '.', 300],
  ] as const)('%s in %s with a decimal %s is %i', (text, currency, mark, minor) => {
    expect(readPriceCell(text, currency, mark)).toEqual({ is: 'price', minor });
  });
  test.each(['', ' ', '-', '–', '—', '--', 'N/A', 'na', '*'])('%j is blank', (text) => {
    expect(readPriceCell(text, 'USD', '.')).toEqual({ is: 'blank' });
  });
  test.each([
    ['call us', 'USD', '.', 'a price such as 4.10'],
    ['call us', 'EUR', ',', 'a price such as 4,10'],
    ['-4.10', 'USD', '.', 'a price such as 4.10'],
    ['4.105', 'USD', '.', 'a price such as 4.10; this one is written with a decimal ","'],
    ['4.1055', 'USD', '.', 'a price such as 4.10'],
    ['12,34,56', 'USD', '.', 'a price such as 4.10'],
    ['99999999999999999', 'USD', '.', 'a price such as 4.10'],
    ['4,10', 'USD', '.', 'a price such as 4.10; this one is written with a decimal ","'],
    ['4.10', 'EUR', ',', 'a price such as 4,10; this one is written with a decimal "."'],
    ['€4.10', 'USD', '.', 'a price in USD'],
    ['EUR 4.10', 'CAD', '.', 'a price in CAD'],
    ['4.10 CAD', 'USD', '.', 'a price in USD'],
    ['USD 4.10', 'CAD', '.', 'a price in CAD'],
    ['$4.10', 'EUR', '.', 'a price in EUR'],
    ['$4.10 EUR', 'USD', '.', 'a price in USD'],
  ] as const)('%s in %s with a decimal %s is refused: %s', (text, currency, mark, expected) => {
    expect(readPriceCell(text, currency, mark)).toEqual({ is: 'wrong', expected });
  });
});

test('a table has decimal commas where some amounts can be read only so, and none only with a point', () => {
  const mark = (...rows: readonly (readonly string[])[]) => decimalIn(rows, 'EUR');
  expect(mark(['x', '4,10'], ['y', '5'])).toBe(',');
  expect(mark(['x', '4.10'], ['y', '5'])).toBe('.');
  expect(mark(['x', '4,10'], ['y', '5.20'])).toBe('.');
  expect(mark(['4', '5'])).toBe('.');
  expect(mark(['1.000,00'])).toBe(',');
  expect(mark(['1,000'])).toBe('.');
  expect(mark()).toBe('.');
});

test('problems of a whole table name their cell, what was expected there and what was there', () => {
  const said = (...lines: readonly string[]) =>
    readPriceGrid(
      lines.map((line) => line.split('|')),
      { currency: 'USD' },
    ).problems.map(({ cell, severity, code, expected, found }) => `${cell} ${severity} ${code}: ${expected}; ${found}`);
  expect(said('w|1|1', '8 oz|1.00|2.00')).toEqual([
    'C1 error repeated-zone: a heading that names a zone of its own for every column of prices; 1',
  ]);
  expect(said('w|', '8 oz|1.00')).toEqual([]);
  expect(said('w|1|2', '8 oz|1.00|2.00', '0.5 lb|1.00|2.00', '4 oz|1.00|2.00')).toEqual([
    'A3 error repeated-row: every mass once; A2 has it too; 0.5 lb',
    'A4 error not-rising: more than "0.5 lb" in the row before; 4 oz',
  ]);
  expect(said('w|1', '8 oz|12.05', '1 lb|12.04')).toEqual([
    'B3 warning falling-price: at least 12.05, the price of the row before; 12.04',
  ]);
  expect(said('w|1|2', '8 oz|1.00|2.00', '1 lb|1.50|', '2 lb|2.00|-')).toEqual([
    'C3 warning zone-ends: a price, unless the zone is not served at this mass; ',
    'C4 warning zone-ends: a price, unless the zone is not served at this mass; -',
  ]);
});
