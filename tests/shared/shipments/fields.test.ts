import { expect, it } from 'vitest';
import { PLAIN_SHIPMENTS, SHIPMENT_FIELDS, TARIFF_NUMBER } from '#shared/shipments/fields.ts';

// Headings of four digits, subheadings of six, and what a country adds in pairs: Harmonized System, World Customs
// Organization (from memory). 6205.20: men's shirts of cotton.
it.each([
  ['6205', true],
  ['620520', true],
  ['6205.20', true],
  ['6205.20.20', true],
  ['6205202065', true],
  ['6205.20.20.65', true],
  ['62', false],
  ['6205.2', false],
  ['6205.20.20.65.10', false],
  ['6205-20', false],
  ['shirt 6205.20', false],
  ['6205.20 shirt', false],
])('%s is a tariff number: %s', (text, is) => {
  expect(TARIFF_NUMBER.test(text)).toBe(is);
});

it('a shop that says nothing has every field under its own name', () => {
  expect(Object.entries(PLAIN_SHIPMENTS.columns)).toEqual(SHIPMENT_FIELDS.map((field) => [field, field]));
});
