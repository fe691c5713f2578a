import { expect, it } from 'vitest';
import { DAY_ORDERS, FIELD_UNITS, IMPORT_FIELDS, NEEDED_FIELDS } from '#shared/imports/source.ts';
import { parseLength } from '#shared/units/length.ts';
import { parseMass } from '#shared/units/mass.ts';

it('what an import needs and what has a unit are fields of an import, and their units are read', () => {
  expect(IMPORT_FIELDS.pieces).toEqual(expect.arrayContaining([...NEEDED_FIELDS.pieces]));
  expect(IMPORT_FIELDS.orders).toEqual(expect.arrayContaining([...NEEDED_FIELDS.orders]));
  expect(NEEDED_FIELDS.orders).toContain('postcode');
  for (const [field, units] of Object.entries(FIELD_UNITS)) {
    expect(IMPORT_FIELDS.pieces).toContain(field);
    for (const unit of units) expect((field === 'mass' ? parseMass : parseLength)(`1 ${unit}`)).toBeGreaterThan(0);
  }
});

it('each way to write a day names its day, its month and its year once', () => {
  for (const order of DAY_ORDERS) expect(order.match(/DD|MM|YYYY/g)?.sort()).toEqual(['DD', 'MM', 'YYYY']);
});
