import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { rateCardSchema, toRateBook } from '#config/schema/rate-card.ts';
import { compareCards } from '#shared/rating/compare-cards.ts';
import { readPriceGrid } from '#shared/rating/import/price-grid.ts';
import { writeCard } from '#shared/rating/import/write-card.ts';
import { nextEdges } from '#shared/rating/next-edges.ts';
import { priceSteps } from '#shared/rating/price-steps.ts';
import { pricer } from '#shared/rating/pricer.ts';
import { quote } from '#shared/rating/quote.ts';
import { lengthFromDecimal } from '#shared/units/length.ts';
import { parseMass } from '#shared/units/mass.ts';

/** Zone 2 is served up to 1 lb only. */
const LIST = [
  ['w', '1', '2'],
  ['8 oz', '3.00', '4.00'],
  ['1 lb', '3.50', '4.50'],
  ['2 lb', '4.00', ''],
  ['3 lb', '5.00', '-'],
];
const HEAD = {
  carrier: 'merrow-post',
  name: { en: 'Merrow Post', es: 'Correos Merrow' },
  service: 'slow-parcel',
  serviceName: { en: 'Slow parcel', es: 'Paquete lento' },
  units: { mass: 'oz', length: 'in' },
  from: '2026-01-01',
} as const;
const DAY = '2026-11-25';
const side = lengthFromDecimal('10', 'in');
const parcel = { shape: { form: 'box', sides: [side, side, side] } } as const;

const grid = readPriceGrid(LIST, { currency: 'USD' });
const book = (change = (yaml: string) => yaml) =>
  toRateBook([rateCardSchema.parse(parse(change(writeCard(grid, HEAD, true))))]);
const at = (mass: string, zone: string) => quote(book(), parcel, parseMass(mass), { zone }, DAY);

describe('a zone that ends at a lower mass', () => {
  test('is a warning in a list, a gap between prices an error', () => {
    expect(grid.problems.map(({ cell, severity, code }) => `${cell} ${severity} ${code}`)).toEqual([
      'C4 warning zone-ends',
      'C5 warning zone-ends',
    ]);
    const holes = LIST.map((row, index) =>
      index === 2 ? ['1 lb', '3.50', ''] : index === 4 ? ['3 lb', '5.00', '6.00'] : row,
    );
    expect(readPriceGrid(holes, { currency: 'USD' }).problems.map(({ severity }) => severity)).toEqual([
      'error',
      'error',
    ]);
    expect(() => writeCard(grid, HEAD, false)).toThrow(/C4: expected a price/);
    expect(writeCard(grid, HEAD, true)).not.toContain('fallingPrices');
  });

  test('is served to its last ceiling and refused one unit above, with by how much', () => {
    expect(at('1 lb', '2').offers.map(({ price }) => price.minor)).toEqual([450]);
    const { offers, refused } = at('17 oz', '2');
    expect(offers).toEqual([]);
    expect(refused).toMatchObject([
      { why: { code: 'too-heavy', values: { mass: '17 oz', most: '16 oz', by: '1 oz' } } },
    ]);
    expect(at('17 oz', '1').offers.map(({ price }) => price.minor)).toEqual([400]);
  });

  test('ends its steps, its bare prices and its edges there', () => {
    const { steps } = priceSteps(book(), parcel, { zone: '2' }, DAY);
    expect(steps[0]?.steps.map(({ ceiling, price }) => [ceiling, price.minor])).toEqual([
      [parseMass('8 oz'), 400],
      [parseMass('1 lb'), 450],
    ]);
    const bare = pricer(book(), { zone: '2' }, DAY).parcel(parcel);
    expect([bare.at(0, parseMass('16 oz')), bare.at(0, parseMass('16.0001 oz'))]).toEqual([450, -1]);
    const edges = nextEdges(book(), 'slow-parcel', parcel, parseMass('15 oz'), { zone: '2' }, DAY);
    expect(edges.find(({ leads }) => leads === 'refused')).toMatchObject({ along: 'mass', by: parseMass('1 oz') });
  });

  test('refuses a parcel whose volume counts as more', () => {
    const dimensional = (yaml: string) =>
      yaml.replace(
        '        zones: ["1", "2"]\n',
        '$&        dimensional: [{ divisor: 500, length: in, mass: lb, sides: { mode: up, step: 1 in }, roundUpTo: 1 lb }]\n',
      );
    const { refused } = quote(book(dimensional), parcel, parseMass('4 oz'), { zone: '2' }, DAY);
    expect(refused).toMatchObject([{ why: { code: 'billed-too-heavy', values: { billed: '2 lb', most: '16 oz' } } }]);
    expect(quote(book(dimensional), parcel, parseMass('4 oz'), { zone: '1' }, DAY).offers[0]?.price.minor).toBe(400);
  });

  test('is gone, not cheaper, when cards are compared', () => {
    const [after] = book().cards;
    const [before] = book((yaml) => yaml.replaceAll('none', '9.00')).cards;
    expect(compareCards(before!, DAY, after!, DAY).changes).toEqual([
      { service: 'slow-parcel', row: '2 lb', zone: '2', before: 900, after: null },
      { service: 'slow-parcel', row: '3 lb', zone: '2', before: 900, after: null },
    ]);
  });

  test('neither begins without a price nor goes on after it ended', () => {
    const wrong = (change: (yaml: string) => string) =>
      rateCardSchema
        .safeParse(parse(change(writeCard(grid, HEAD, true))))
        .error?.issues.map(({ path }) => path.join('.'));
    expect(wrong((yaml) => yaml.replace('4.00', 'none'))?.[0]).toBe('services.0.prices.0.brackets.0.prices.1');
    expect(wrong((yaml) => yaml.replace('[5.00, none]', '[5.00, 9.00]'))).toEqual([
      'services.0.prices.0.brackets.3.prices.1',
    ]);
  });
});
