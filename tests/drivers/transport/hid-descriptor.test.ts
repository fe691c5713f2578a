import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { featureControl, withControl } from '#drivers/transport/hid-descriptor.ts';

/*
 * Items by the Device Class Definition for HID 1.11 (2001), 6.2.2: a short item's first byte holds its tag, its type (0 main,
 * 1 global, 2 local) and how many bytes of data follow.
 */
const from = (...parts: readonly (readonly number[])[]): Uint8Array => Uint8Array.from(parts.flat());
const PAGE = [0x05, 0x8d];
const NUMBER_2 = [0x85, 0x02];
const ONE_BIT = [0x15, 0x00, 0x25, 0x01, 0x75, 0x01];
const USAGES = [0x09, 0x81, 0x09, 0x80];
const FEATURE_VARIABLE = [0xb1, 0x02];
const FEATURE_CONSTANT = [0xb1, 0x03];
const FEATURE_ARRAY = [0xb1, 0x00];
const count = (fields: number): readonly number[] => [0x95, fields];
const ZERO = 0x8d0080;

describe('a control in a feature report', () => {
  test('is found at its bit', () => {
    const descriptor = from(PAGE, NUMBER_2, ONE_BIT, count(2), USAGES, FEATURE_VARIABLE, count(6), FEATURE_CONSTANT);
    expect(featureControl(descriptor, ZERO)).toEqual({ reportNumber: 2, bytes: 1, bit: 1, bits: 1, value: 1 });
    expect(featureControl(descriptor, 0x8d0081)).toMatchObject({ bit: 0 });
    expect(featureControl(descriptor, 0x8d0070)).toBeNull();
  });
  test('lies behind what came before it in the same report, and not behind other reports', () => {
    const eightBits = [0x75, 0x08, 0x95, 0x02, 0x09, 0x30, ...FEATURE_VARIABLE];
    const other = [0x85, 0x07, ...eightBits];
    const descriptor = from(PAGE, other, NUMBER_2, eightBits, ONE_BIT, count(2), USAGES, FEATURE_VARIABLE);
    expect(featureControl(descriptor, ZERO)).toEqual({ reportNumber: 2, bytes: 3, bit: 17, bits: 1, value: 1 });
  });
  test('has its own page where the usage is told with it, and keeps pushed and popped settings', () => {
    const wide = [0x0b, 0x80, 0x00, 0x8d, 0x00];
    const pushed = [0xa4, 0x05, 0x01, 0x75, 0x10, 0x85, 0x09, 0xb4];
    const descriptor = from([0x05, 0x01], NUMBER_2, ONE_BIT, count(1), pushed, wide, FEATURE_VARIABLE);
    expect(featureControl(descriptor, ZERO)).toMatchObject({ reportNumber: 2, bit: 0, bits: 1 });
  });
  test('one of several is set by its number', () => {
    const choice = [0x15, 0x01, 0x25, 0x02, 0x75, 0x08];
    const descriptor = from(PAGE, choice, count(1), [0x19, 0x80, 0x29, 0x81], FEATURE_ARRAY);
    expect(featureControl(descriptor, 0x8d0081)).toEqual({ reportNumber: 0, bytes: 1, bit: 0, bits: 8, value: 2 });
  });
  test('is none where it is constant, an input, or no field is left for it', () => {
    for (const main of [FEATURE_CONSTANT, [0x81, 0x02], [0x91, 0x02]]) {
      expect(featureControl(from(PAGE, NUMBER_2, ONE_BIT, count(2), USAGES, main), ZERO)).toBeNull();
    }
    expect(featureControl(from(PAGE, NUMBER_2, ONE_BIT, count(1), USAGES, FEATURE_VARIABLE), ZERO)).toBeNull();
  });
  test('long items are passed over', () => {
    const long = [0xfe, 0x03, 0x10, 0x09, 0x80, 0xb1];
    const descriptor = from(PAGE, long, NUMBER_2, ONE_BIT, count(2), USAGES, FEATURE_VARIABLE);
    expect(featureControl(descriptor, ZERO)).toMatchObject({ bit: 1 });
  });
});

test('the control is set and every other bit stays', () => {
  const field = { reportNumber: 2, bytes: 3, bit: 17, bits: 1, value: 1 };
  expect(withControl(field, Uint8Array.of(2, 0xaa, 0x55, 0x81))).toEqual(Uint8Array.of(2, 0xaa, 0x55, 0x83));
  expect(withControl({ ...field, bit: 4, bits: 8, value: 2 }, Uint8Array.of(2, 0xff, 0xff, 0))).toEqual(
    Uint8Array.of(2, 0x2f, 0xf0, 0),
  );
});

test('whatever a device says of itself, nothing throws, and what is found lies in its report', () => {
  fc.assert(
    fc.property(fc.uint8Array({ maxLength: 200 }), (noise) => {
      for (const descriptor of [noise, from(PAGE, NUMBER_2, ONE_BIT, count(2), USAGES, [...noise], FEATURE_VARIABLE)]) {
        const field = featureControl(descriptor, ZERO);
        if (field === null) continue;
        expect(field.bit + field.bits).toBeLessThanOrEqual(field.bytes * 8);
        expect(withControl(field, new Uint8Array(field.bytes + 1)).length).toBe(field.bytes + 1);
      }
    }),
    { numRuns: 3000 },
  );
});
