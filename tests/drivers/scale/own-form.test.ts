import { describe, expect, test } from 'vitest';
import { DriverError } from '#drivers/driver-error.ts';
import { compileForm, ownDecoder, tryForm, type OwnForm } from '#drivers/scale/own-form.ts';
import { massFromDecimal } from '#shared/units/mass.ts';
import { ascii } from '../support/until.ts';

/** A made-up indicator: `S +0015.9 oz G`. */
const FORM: OwnForm = {
  kind: 'own',
  pattern: '(?<status>[SDE]) (?<sign>[+-])(?<number>\\d{4}\\.\\d) (?<unit>oz|lb|g) (?<weighed>[GN])',
  words: { still: ['S'], moving: ['D'], fault: ['E'], net: ['N'] },
};

describe('a form that the owner described', () => {
  test('a pasted sample shows what each line means', () => {
    const tried = tryForm(FORM, 'S +0015.9 oz G\r\nD -0000.1 oz N\r\nE +9999.9 oz G\r\n15.9\r\n');
    expect(tried.map(({ frame }) => frame)).toMatchObject([
      { kind: 'weight', mass: massFromDecimal('15.9', 'oz'), stability: 'still', net: false },
      { kind: 'weight', mass: massFromDecimal('-0.1', 'oz'), stability: 'moving', net: true },
      { kind: 'no-weight', condition: 'fault' },
      { kind: 'discarded', why: 'form', bytes: ascii('15.9') },
    ]);
  });
  test('the line must match from end to end, and its beginning must have been seen', () => {
    const decoder = ownDecoder(FORM);
    expect(decoder.push(ascii('S +0015.9 oz G\n'))).toMatchObject([{ kind: 'discarded', why: 'no-start' }]);
    expect(decoder.push(ascii('xS +0015.9 oz G\nS +0015.9 oz G\n'))).toMatchObject([
      { kind: 'discarded', why: 'form' },
      { kind: 'weight' },
    ]);
  });
  test('a line without a unit is a weight only when the form names one', () => {
    const bare: OwnForm = { kind: 'own', pattern: ' *(?<number>\\d+\\.\\d)' };
    expect(tryForm(bare, '  15.9')[0]?.frame).toMatchObject({ kind: 'discarded', why: 'unit' });
    expect(tryForm({ ...bare, unit: 'oz' }, '  15.9')[0]?.frame).toMatchObject({ mass: massFromDecimal('15.9', 'oz') });
  });
  test.each([
    ['no regular expression', '(?<number>\\d+'],
    ['no number', '(?<unit>kg)'],
    ['a group of another name', '(?<number>\\d+) (?<weight>x)'],
    ['repeats within repeats', '(?<number>\\d+)((a+)+)'],
    ['a back-reference', '(?<number>\\d+)(x)\\2'],
  ])('%s is refused with the pattern in the message', (_, pattern) => {
    expect(() => compileForm({ kind: 'own', pattern })).toThrow(DriverError);
    expect(() => compileForm({ kind: 'own', pattern })).toThrow(pattern);
  });
});
