import { describe, expect, test } from 'vitest';
import { decodeReport } from '#drivers/scale/hid-report.ts';
import { continuousDecoder } from '#drivers/scale/continuous.ts';
import { smaDecoder } from '#drivers/scale/sma.ts';
import { massFromDecimal } from '#shared/units/mass.ts';
import { ascii } from '../drivers/support/until.ts';

describe('SMA SCP-0499 (first edition, 1999-04-24), standard scale response', () => {
  test('a gross weight, still', () => {
    expect(smaDecoder().push(ascii('\n 1G       1.250kg_\r'))).toEqual([
      { kind: 'weight', mass: massFromDecimal('1.250', 'kg'), unit: 'kg', places: 3, stability: 'still', net: false },
    ]);
  });
  test('a leading space pads the unit as the underscore does', () => {
    expect(smaDecoder().push(ascii('\n 1G       1.250 kg\r'))).toMatchObject([
      { kind: 'weight', mass: massFromDecimal('1.250', 'kg') },
    ]);
  });
  test('a zero error in motion has ten dashes and no weight', () => {
    expect(smaDecoder().push(ascii('\nE1GM ----------kg_\r'))).toMatchObject([
      { kind: 'no-weight', condition: 'fault' },
    ]);
  });
  test('unknown command and communication error', () => {
    expect(smaDecoder().push(ascii('\n?\r\n!\r'))).toEqual([
      { kind: 'refused', why: 'unknown-command' },
      { kind: 'refused', why: 'communication-error' },
    ]);
  });
  test.each([
    ['O', 'over'],
    ['U', 'under'],
    ['I', 'fault'],
    ['T', 'fault'],
  ])('status %s is %s, whatever number stands there', (status, condition) => {
    expect(smaDecoder().push(ascii(`\n${status}1G       1.250kg_\r`))).toMatchObject([
      { kind: 'no-weight', condition },
    ]);
  });
  test('M is motion, N is net, Z is the centre of zero', () => {
    expect(smaDecoder().push(ascii('\n 1NM      -0.05lb_\r\nZ1G        0.00lb_\r'))).toMatchObject([
      { mass: massFromDecimal('-0.05', 'lb'), stability: 'moving', net: true },
      { mass: 0, stability: 'still', net: false },
    ]);
  });
});

// The continuous forms are common practice among indicators, no source.
describe('continuous ASCII', () => {
  test('the common form', () => {
    expect(continuousDecoder().push(ascii('ST,GS,+  4.876kg\r\n'))).toEqual([
      { kind: 'weight', mass: massFromDecimal('4.876', 'kg'), unit: 'kg', places: 3, stability: 'still', net: false },
    ]);
  });
  test('the short form without a unit is a weight only when the config names the unit', () => {
    const line = ascii('\r\n   -0.02  GS\r\n');
    expect(continuousDecoder('lb').push(line)).toMatchObject([
      { kind: 'weight', mass: massFromDecimal('-0.02', 'lb'), stability: 'unknown' },
    ]);
    expect(continuousDecoder().push(line)).toMatchObject([{ kind: 'discarded', why: 'unit' }]);
  });
  test('overload is no weight', () => {
    expect(continuousDecoder().push(ascii('OL,GS,+ 99.999kg\r\nOL,GS,-------kg\r\n'))).toMatchObject([
      { kind: 'no-weight', condition: 'over' },
      { kind: 'no-weight', condition: 'over' },
    ]);
  });
});

describe('USB HID Point of Sale Usage Tables v1.02 (2001), section 4, scale data report', () => {
  test.each([
    ['03 04 02 00 14 00', '20', 'g', 0],
    ['03 04 0B FF 34 19', '645.2', 'oz', 1],
    ['03 05 0B FF 05 00', '-0.5', 'oz', 1],
    // Exponents other than -1, computed from the table.
    ['03 04 0C FE E8 03', '10.00', 'lb', 2],
    ['03 04 03 FD 39 30', '12.345', 'kg', 3],
    ['03 04 02 01 14 00', '200', 'g', 0],
    ['03 04 01 00 D0 07', '2.000', 'g', 3],
  ] as const)('%s is %s %s', (hex, digits, unit, places) => {
    expect(decodeReport(Buffer.from(hex.replaceAll(' ', ''), 'hex'))).toMatchObject({
      kind: 'weight',
      mass: massFromDecimal(digits, unit),
      unit,
      places,
    });
  });
  test.each([
    ['03 01 0B FF 34 19', 'fault'],
    ['03 06 0B FF 34 19', 'over'],
    ['03 07 0B FF 34 19', 'fault'],
    ['03 08 0B FF 34 19', 'fault'],
  ])('%s has no weight: %s', (hex, condition) => {
    expect(decodeReport(Buffer.from(hex.replaceAll(' ', ''), 'hex'))).toMatchObject({ kind: 'no-weight', condition });
  });
  test('motion, stable, zero', () => {
    const stability = (status: number, low: number): unknown => decodeReport(Uint8Array.of(3, status, 2, 0, low, 0));
    expect(stability(3, 20)).toMatchObject({ stability: 'moving' });
    expect(stability(4, 20)).toMatchObject({ stability: 'still' });
    expect(stability(2, 0)).toMatchObject({ stability: 'still', mass: 0 });
  });
});
