import { describe, expect, test } from 'vitest';
import { checkMass, measure } from '#shared/rating/measures.ts';
import { plainLength, plainMass, plainVolume } from '#shared/rating/plain.ts';
import type { RatedParcel } from '#shared/rating/types.ts';
import { compareVolumes, cubesWithin, formatVolume, parseVolume } from '#shared/rating/volume.ts';
import type { Length } from '#shared/units/length.ts';
import { lengthFromDecimal, parseLength } from '#shared/units/length.ts';
import { massFromBase, parseMass } from '#shared/units/mass.ts';
import { box, soft } from '#tests/support/rate-book.ts';

describe('a volume', () => {
  test.each([
    ['0.10 ft3', '0.10', 'ft3'],
    [' 1728 IN3 ', '1728', 'in3'],
    ['5l', '5', 'l'],
    ['.5 cm3', '.5', 'cm3'],
  ])('%s is %s %s', (text, amount, unit) => {
    expect(parseVolume(text)).toEqual({ amount, unit });
  });
  test.each(['', '5', 'ft3', '. ft3', '0 l', '0.00 in3', '5 gal', '-1 l', '1,5 l', '1 l of it'])(
    '"%s" is none, and is named',
    (text) => {
      const message = `volume: expected an amount such as 0.10 ft3, 1728 in3 or 5 l, found "${text}"`;
      expect(() => parseVolume(text)).toThrow(expect.objectContaining({ code: 'bad-volume', message }));
    },
  );
  test.each([
    ['1 ft3', '1728 in3', 0],
    ['0.1 ft3', '172.8 in3', 0],
    ['0.1 ft3', '172.81 in3', -1],
    ['0.1 ft3', '172.79 in3', 1],
    ['1 l', '1000 cm3', 0],
    // 1 in3 = 16.387064 cm3 (25.4 mm exactly).
    ['1 in3', '16.387064 cm3', 0],
    ['1 in3', '16.387063 cm3', 1],
    ['1 in3', '16.387065 cm3', -1],
    ['61 in3', '1 l', -1],
  ])('%s against %s: %i', (a, b, sign) => {
    expect(compareVolumes(parseVolume(a), parseVolume(b))).toBe(sign);
    expect(compareVolumes(parseVolume(b), parseVolume(a))).toBe(0 - sign);
  });
  test('holds so many whole cubes', () => {
    const inch = lengthFromDecimal('1', 'in');
    expect(cubesWithin(parseVolume('1 ft3'), inch)).toBe(1728n);
    expect(cubesWithin(parseVolume('0.1 ft3'), inch)).toBe(172n);
    expect(cubesWithin(parseVolume('0.10 ft3'), lengthFromDecimal('0.25', 'in'))).toBe(11_059n);
    expect(formatVolume(parseVolume('0.10ft3'))).toBe('0.10 ft3');
  });
});

describe('a quantity in an explanation', () => {
  test.each([
    ['2.25 in', 'in', '2 1/4 in'],
    ['0.125 in', 'in', '1/8 in'],
    ['12 in', 'in', '12 in'],
    ['0 in', 'in', '0 in'],
    ['12.01 in', 'in', '12.01 in'],
    ['2.25 in', 'cm', '5.715 cm'],
    ['12.7 mm', 'mm', '12.7 mm'],
    ['25.4 mm', 'cm', '2.54 cm'],
    ['30 cm', 'cm', '30 cm'],
    ['0.001 mm', 'cm', '<0.001 cm'],
    ['0 cm', 'cm', '0 cm'],
  ] as const)('%s in %s is %s', (text, unit, words) => {
    expect(plainLength(parseLength(text), unit)).toBe(words);
  });
  test('of mass is never shown as nothing', () => {
    expect(plainMass(parseMass('16 oz'), 'oz')).toBe('16 oz');
    expect(plainMass(massFromBase(1), 'oz')).toBe('<0.0001 oz');
    expect(plainMass(massFromBase(1), 'kg')).toBe('<0.0001 kg');
    expect(plainMass(massFromBase(0), 'oz')).toBe('0 oz');
    expect(plainMass(parseMass('0.0001 oz'), 'oz')).toBe('0.0001 oz');
  });
  test('of volume is cubic feet, or cubic centimetres for who measures in either metric unit', () => {
    const inch = lengthFromDecimal('1', 'in');
    const centimetre = lengthFromDecimal('1', 'cm');
    expect(plainVolume(1728, inch, 'in')).toBe('1.0000 ft3');
    expect(plainVolume(864, inch, 'in')).toBe('0.5000 ft3');
    expect(plainVolume(864, centimetre, 'cm')).toBe('864 cm3');
    expect(plainVolume(864, centimetre, 'mm')).toBe('864 cm3');
    expect(plainVolume(8000, lengthFromDecimal('1', 'mm'), 'mm')).toBe('8 cm3');
  });
});

describe('the sides of a parcel', () => {
  const sides = (parcel: RatedParcel) => {
    const { longest, middle, shortest } = measure(parcel);
    return [longest, middle, shortest].map((side) => side / 40_000);
  };
  test.each(['3 x 2 x 1 mm', '3 x 1 x 2 mm', '2 x 3 x 1 mm', '2 x 1 x 3 mm', '1 x 3 x 2 mm', '1 x 2 x 3 mm'])(
    'of %s in order of size',
    (text) => {
      expect(sides(box(text))).toEqual([3, 2, 1]);
    },
  );
  test('of a flat pack keep which is length and which is width', () => {
    expect(measure(soft('9 x 12 x 1 mm'))).toEqual({
      form: 'soft',
      longest: 480_000,
      middle: 360_000,
      shortest: 40_000,
      flatLength: 360_000,
      flatWidth: 480_000,
    });
  });

  const wrong = 0 as Length;
  const fine = parseLength('1 cm');
  test.each<[string, RatedParcel['shape']]>([
    ['length', { form: 'soft', length: wrong, width: fine, thickness: fine }],
    ['width', { form: 'soft', length: fine, width: wrong, thickness: fine }],
    ['thickness', { form: 'soft', length: fine, width: fine, thickness: -1 as Length }],
    ['length', { form: 'roll', length: wrong, diameter: fine }],
    ['diameter', { form: 'roll', length: fine, diameter: wrong }],
    ['first side', { form: 'box', sides: [wrong, fine, fine] }],
    ['second side', { form: 'box', sides: [fine, wrong, fine] }],
    ['third side', { form: 'box', sides: [fine, fine, wrong] }],
  ])('a wrong %s is named: %o', (name, shape) => {
    const message = expect.stringContaining(`${name}: expected more than nothing and at most 10 m, found `) as string;
    expect(() => measure({ shape })).toThrow(expect.objectContaining({ code: 'bad-size', message }));
  });
  test('go up to ten metres, and what is longer is shown in millimetres', () => {
    const ten = parseLength('1000 cm');
    expect(() => measure({ shape: { form: 'roll', length: ten, diameter: fine } })).not.toThrow();
    expect(() => measure({ shape: { form: 'roll', length: (ten + 40_000) as Length, diameter: fine } })).toThrow(
      'found 10001 mm',
    );
  });
  test('a mass that is none is shown in grams', () => {
    expect(() => checkMass(massFromBase(-16_000_000_000))).toThrow(
      expect.objectContaining({ code: 'bad-mass', message: 'mass: expected more than nothing, found -1 g' }),
    );
    expect(() => checkMass(massFromBase(1))).not.toThrow();
  });
});
