import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { rateCardSchema } from '#config/schema/rate-card.ts';
import { readPriceGrid } from '#shared/rating/import/price-grid.ts';
import type { GridOptions } from '#shared/rating/import/price-grid.ts';
import type { CardHead } from '#shared/rating/import/write-card.ts';
import { writeCard } from '#shared/rating/import/write-card.ts';

const read = (lines: readonly string[], options: Partial<GridOptions> = {}) =>
  readPriceGrid(
    lines.map((line) => line.split('|')),
    { currency: 'USD', ...options },
  );
const zones = (...lines: readonly string[]) => read(lines).zones.map(({ zone, column }) => `${zone}@${String(column)}`);
const said = (...lines: readonly string[]) =>
  read(lines).problems.map(
    ({ cell, severity, code, expected, found }) => `${cell} ${severity} ${code}: ${expected}; ${found}`,
  );

test('every cell that says something is told as what it was understood', () => {
  const { cells } = read([
    'Light things',
    'Weight (oz)|Zone 1|2|',
    'up to 8|1.00|2.00|',
    '|||',
    'Pounds||',
    'note',
    '1|1.50|x',
  ]);
  expect(cells.map(({ cell, text, as }) => `${cell} ${as} ${text}`)).toEqual([
    'A1 heading Light things',
    'A2 unit Weight (oz)',
    'B2 zone Zone 1',
    'C2 zone 2',
    'A3 mass up to 8',
    'B3 price 1.00',
    'C3 price 2.00',
    'A5 unit Pounds',
    'A6 heading note',
    'A7 mass 1',
    'B7 price 1.50',
    'C7 wrong x',
  ]);
});

describe('the row of zones', () => {
  test('is the lowest above the prices that names every column', () => {
    expect(zones('w|9|8', 'w|1|2', '8 oz|1.00|2.00')).toEqual(['1@1', '2@2']);
    expect(zones('w|1|2', 'all zones|', '8 oz|1.00|2.00')).toEqual(['1@1', '2@2']);
    expect(zones('w|1|2|3', '8 oz|1.00|2.00')).toEqual(['1@1', '2@2', '3@3']);
    expect(zones('8 oz|1.00', '1 lb|2.00')).toEqual(['@1']);
    expect(zones('w|unit|1|2', '8|oz|1.00|2.00')).toEqual(['1@2', '2@3']);
  });
  test('may begin with a number: whole numbers that count up are zones', () => {
    expect(zones('500|1|2|3', '500|1.00|2.00|3.00')).toEqual(['1@1', '2@2', '3@3']);
    expect(zones('16|Zone 9|zona 10|11', '16 oz|1.00|2.00|3.00')).toEqual(['9@1', '10@2', '11@3']);
    // These are prices: they do not count up, have decimals, or stand behind a unit.
    expect(zones('w|1|2', '8 oz|1|3')).toEqual(['1@1', '2@2']);
    expect(read(['w|1|2', '8 oz|1|2']).rows.map(({ prices }) => prices)).toEqual([[100, 200]]);
    expect(read(['8|2', '16|3'], { unit: 'oz' }).rows.map(({ prices }) => prices)).toEqual([[200], [300]]);
    expect(read(['w|1|2', '8|12|11'], { unit: 'oz' }).rows.map(({ prices }) => prices)).toEqual([[1200, 1100]]);
  });
  test('says which cells stand under none of it', () => {
    expect(said('w|1', '8 oz|1.00|2.00 ')).toEqual([
      'C2 error beyond-headings: no cell without a heading; were decimal commas taken for what parts the cells?; 2.00',
    ]);
  });
});

test('what is no price list is told with what it begins with', () => {
  const long = 'a row of words that goes on and on, as a letter would, and says nothing of prices';
  expect(said(long)).toEqual([
    `A1 error no-grid: a row that begins with a mass such as "up to 8 oz" and goes on with prices; ${long.slice(0, 60)}`,
  ]);
  expect(read([long])).toMatchObject({ zones: [], rows: [], cells: [], currency: 'USD' });
  expect(said()).toEqual([expect.stringContaining('A1 error no-grid')]);
});

test('what is wrong with a row names its cell', () => {
  expect(said('w|1|2', '8 oz|1.00|2.00', 'heavy|3.00|4.00', '0 oz|3.00|4.00')).toEqual([
    'A3 error bad-mass: a mass such as "up to 8 oz"; heavy',
    'A4 error bad-mass: expected more than nothing, found "0 oz"; 0 oz',
  ]);
  expect(said('w|1|2', '8|1.00|3.00')).toEqual(['A2 error no-unit: a unit of mass, here or in a heading above; 8']);
  expect(said('w|1|2', '8 oz|1.00|', '1 lb|1.00|2.00')).toEqual([
    'C2 error gap: a price: every zone needs one in every row; ',
  ]);
  expect(said('w|1|2', '8 oz|1.00|two', '1 lb|1.00|2.00')).toEqual(['C2 error bad-price: a price such as 4.10; two']);
});

describe('the card that is written', () => {
  const HEAD: CardHead = {
    carrier: 'merrow-post',
    name: { en: 'Merrow\nPost', es: 'Correos' },
    service: 'light',
    serviceName: { en: 'Light', es: 'Ligero' },
    units: { mass: 'oz', length: 'in' },
    from: '2027-01-17',
  };
  const written = (lines: readonly string[], more: Partial<CardHead> = {}) =>
    writeCard(read(lines), { ...HEAD, ...more }, true);
  const masses = (...labels: readonly string[]) =>
    [
      ...written(['w|1|2', ...labels.map((label, index) => `${label}|${String(index + 1)}.00|9.00`)]).matchAll(
        /upTo: ([^,]+),/g,
      ),
    ].map(([, mass]) => mass);
  test('says what was read, from where, and has one price for every zone where the table has', () => {
    const lines = written(['8 oz|1.00', '1 lb|2.05'], { source: 'list\r\nof 2027' }).split('\n');
    expect(lines.slice(0, 2)).toEqual([
      '# Prices of Merrow Post, read from list of 2027.',
      '# 2 brackets, one price for every zone.',
    ]);
    expect(lines).toContain('zones: [{ by: flat, zone: all }]');
    expect(lines).toContain('          - { upTo: 1 lb, prices: 2.05 }');
    expect(lines.join()).not.toContain('fallingPrices');
    expect(rateCardSchema.safeParse(parse(lines.join('\n'))).success).toBe(true);
  });
  test('names its zones, whatever they are called', () => {
    const yaml = written(['w|near|null|True', '8 oz|1.00|2.00|3.00']);
    expect(yaml).toContain('# Prices of Merrow Post.\n# 1 brackets, 3 zones.');
    expect(yaml).toContain('zones: [near, "null", "True"]');
    expect(written(['w|true|false|a b', '8 oz|1.00|2.00|3.00'])).toContain('zones: ["true", "false", "a b"]');
  });
  test('writes each mass in the unit that says it briefly, and exactly', () => {
    expect(masses('8 oz', '16 oz', '2.5 lb', '5 lb')).toEqual(['8 oz', '1 lb', '40 oz', '5 lb']);
    expect(masses('250 g', '1 kg', '1.5 kg')).toEqual(['250 g', '1 kg', '1500 g']);
    expect(masses('0.5 oz', '8.25 oz')).toEqual(['0.5 oz', '8.25 oz']);
    expect(masses('0.25 g')).toEqual(['0.25 g']);
  });
  test('of falling prices says that somebody looked at them', () => {
    expect(written(['w|1|2', '8 oz|3.00|3.00', '1 lb|2.00|3.00'])).toContain('fallingPrices: true');
    expect(written(['w|1|2', '8 oz|3.00|3.00', '1 lb|4.00|'])).toContain('prices: [4.00, none]');
  });
  test('is refused over an error, or a warning that nobody accepted, with a code', () => {
    const refused = (lines: readonly string[], accept: boolean) => () => writeCard(read(lines), HEAD, accept);
    expect(refused(['w|1', '8 oz|x'], true)).toThrow(expect.objectContaining({ name: 'GridRefused', code: 'errors' }));
    expect(refused(['w|1', '8 oz|3.00', '1 lb|2.00'], false)).toThrow(
      expect.objectContaining({
        code: 'warnings-not-accepted',
        message: 'B3: expected at least 3.00, the price of the row before, found "2.00"',
      }),
    );
  });
});
