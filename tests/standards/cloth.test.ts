import { describe, expect, it } from 'vitest';
import {
  FULL_PRESSURE,
  FREE_PRESSURE,
  clothThickness,
  compressedThickness,
  fitCompression,
  flexuralRigidity,
} from '#shared/garments/cloth.ts';
import { demoContainers, demoWardrobe } from '#tests/support/demo-wardrobe.ts';
import { toMillimetres } from '#shared/units/length.ts';
import { toGrams } from '#shared/units/mass.ts';

describe('compression of cloth, P = k (1/h^3 - 1/h0^3) (van Wyk, Journal of the Textile Institute 37, 1946)', () => {
  // Constants computed by hand from the formula for typical thicknesses at 0.049 and 4.9 kPa.
  it.each([
    { cloth: 'jersey', free: 0.85, pressed: 0.55, stiffness: 1.107, uncompressed: 0.8578, atOne: 0.738 },
    { cloth: 'denim', free: 1.0, pressed: 0.75, stiffness: 3.54, uncompressed: 1.0047, atOne: 0.924 },
    { cloth: 'poplin', free: 0.4, pressed: 0.25, stiffness: 0.1003, uncompressed: 0.4043, atOne: 0.342 },
    { cloth: 'fleece', free: 4.0, pressed: 2.2, stiffness: 61.96, uncompressed: 4.07, atOne: 3.184 },
  ])('$cloth', ({ free, pressed, stiffness, uncompressed, atOne }) => {
    const fit = fitCompression(free, pressed);
    expect(fit.stiffness / stiffness).toBeCloseTo(1, 3);
    expect(fit.uncompressed).toBeCloseTo(uncompressed, 3);
    expect(compressedThickness(fit, 1)).toBeCloseTo(atOne, 3);
    expect(compressedThickness(fit, FREE_PRESSURE)).toBeCloseTo(free, 9);
    expect(compressedThickness(fit, FULL_PRESSURE)).toBeCloseTo(pressed, 9);
  });

  it.each([
    [0.5, 0.6],
    [0.5, 0.5],
    [0.5, 0],
    [Number.NaN, 0.2],
    [22, 4.7],
  ])('refuses a free thickness of %d and a pressed one of %d', (free, pressed) => {
    expect(() => fitCompression(free, pressed)).toThrow(/expected a free thickness/);
  });
});

describe('the demo cloths lie in the published ranges', () => {
  const { cloths } = demoWardrobe();
  // g/m2 and mm at 1 kPa: handbook ranges, from memory.
  it.each([
    ['poplin', 100, 140, 0.25, 0.35],
    ['linen', 130, 200, 0.35, 0.5],
    ['silk', 50, 95, 0.1, 0.25],
    ['jersey', 140, 200, 0.5, 0.8],
    ['flannel', 150, 220, 0.6, 1.0],
    ['suiting', 200, 320, 0.4, 0.7],
    ['denim', 340, 490, 0.75, 1.1],
    ['fleece', 100, 300, 1.5, 4],
    ['sweatshirt', 260, 350, 1.3, 2.2],
    ['sweater-knit', 250, 500, 1.5, 4],
    ['leather', 400, 700, 0.7, 1.2],
  ])('%s', (id, lightest, heaviest, thinnest, thickest) => {
    const cloth = cloths.get(id)!;
    expect(cloth.arealMass).toBeGreaterThanOrEqual(lightest);
    expect(cloth.arealMass).toBeLessThanOrEqual(heaviest);
    const atOne = compressedThickness(fitCompression(cloth.thicknessFree, cloth.thicknessPressed), 1);
    expect(atOne).toBeGreaterThanOrEqual(thinnest);
    expect(atOne).toBeLessThanOrEqual(thickest);
  });
});

describe('compressibility of the demo cloths, from 0.05 to 5 kPa', () => {
  const { cloths } = demoWardrobe();
  // Per cent of the thickness that is lost: handbook ranges, from memory.
  it.each([
    ['poplin', 30, 45],
    ['linen', 25, 40],
    ['silk', 25, 45],
    ['jersey', 30, 45],
    ['flannel', 40, 55],
    ['suiting', 25, 40],
    ['denim', 15, 28],
    ['fleece', 35, 55],
    ['sweatshirt', 35, 50],
    ['sweater-knit', 35, 55],
    ['leather', 5, 12],
    ['down-panel', 60, 85],
  ])('%s', (id, least, most) => {
    const cloth = cloths.get(id)!;
    const lost = 100 * (1 - clothThickness(cloth, 5) / clothThickness(cloth, 0.05));
    expect(lost).toBeGreaterThanOrEqual(least);
    expect(lost).toBeLessThanOrEqual(most);
  });
});

describe('stiffness of cloth', () => {
  // G = 0.10 M C^3 in mg cm, M in g/m2 and C in cm; 1 mg cm = 9.80665e-8 N m (F. T. Peirce, Journal of the Textile
  // Institute 21, 1930; the rounded form from memory).
  it.each([
    { arealMass: 100, bendingLength: 20, milligramCentimetres: 80 },
    { arealMass: 235, bendingLength: 17, milligramCentimetres: 115.46 },
    { arealMass: 400, bendingLength: 30, milligramCentimetres: 1080 },
  ])('$arealMass g/m2 of $bendingLength mm', ({ milligramCentimetres, ...cloth }) => {
    expect(flexuralRigidity(cloth) / (milligramCentimetres * 9.80665e-8)).toBeCloseTo(1, 4);
  });

  const { cloths } = demoWardrobe();
  // Bending lengths in mm of common cloths, from memory.
  it.each([
    ['poplin', 14, 25],
    ['silk', 10, 20],
    ['jersey', 8, 18],
    ['suiting', 13, 22],
    ['denim', 22, 40],
    ['canvas', 28, 50],
  ])('%s bends as such cloths do', (id, least, most) => {
    const { bendingLength } = cloths.get(id)!;
    expect(bendingLength).toBeGreaterThanOrEqual(least);
    expect(bendingLength).toBeLessThanOrEqual(most);
  });
});

describe('packaging mass', () => {
  const { containers, wraps } = demoContainers();
  // Polyethylene film 23.4 g/m2 per mil, so 58.4 g/m2 at 2.5 mil; two plies and a lip of 5 cm (computed).
  it('a film mailer of 10 x 13 in weighs 10.5 g', () => {
    expect(toGrams(containers.get('pouch-10x13')!.mass)).toBeCloseTo(10.5, 6);
  });

  it.each(['pouch-10x13', 'pouch-12x15', 'pouch-14x19', 'pouch-19x24'])('%s weighs its two plies and lip', (id) => {
    const { mass, outside } = containers.get(id)!;
    const [width, length] = [toMillimetres(outside.width) / 1000, toMillimetres(outside.length) / 1000];
    expect(toGrams(mass)).toBeCloseTo(58.4 * width * (2 * length + 0.05), 0);
  });

  it('a sheet of tissue, 17 g/m2, 20 x 30 in, weighs 6.6 g', () => {
    expect(17 * 0.508 * 0.762).toBeCloseTo(6.58, 2);
    expect(toGrams(wraps.get('tissue')!.massPerPiece)).toBeCloseTo(6.6, 6);
  });

  it('every carton weighs its blank of single-wall board at 500-600 g/m2', () => {
    for (const carton of containers.values()) {
      if (carton.type !== 'carton') continue;
      const [width, length, depth] = [carton.inside.width, carton.inside.length, carton.inside.depth!].map(
        (side) => side / 40_000_000,
      );
      const blank = (2 * (length! + width!) + 0.016 + 0.035) * (depth! + width! + 0.008);
      expect(toGrams(carton.mass)).toBeGreaterThan(blank * 500);
      expect(toGrams(carton.mass)).toBeLessThan(blank * 600);
    }
  });
});
