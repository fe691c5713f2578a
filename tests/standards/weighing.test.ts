import { describe, expect, it } from 'vitest';
import { combine, rectangular } from '#shared/weighing/combine.ts';
import { isBelowRecommendedLoad, toleranceOf } from '#shared/weighing/tolerance.ts';
import { massFromGrams, parseMass, toGrams } from '#shared/units/mass.ts';

describe('NIST Handbook 44 (2023), 2.20, class III', () => {
  // Table 6: maintenance tolerance 1 d to 500 d, 2 d to 2,000, 3 d to 4,000, 5 d above.
  it.each([
    ['5.00 lb', '0.01 lb', '0.01 lb'],
    ['5.01 lb', '0.01 lb', '0.02 lb'],
    ['20.00 lb', '0.01 lb', '0.02 lb'],
    ['20.01 lb', '0.01 lb', '0.03 lb'],
    ['40.00 lb', '0.01 lb', '0.03 lb'],
    ['40.01 lb', '0.01 lb', '0.05 lb'],
    ['15.99 lb', '0.05 lb', '0.05 lb'],
    ['50.0 oz', '0.1 oz', '0.1 oz'],
    ['50.1 oz', '0.1 oz', '0.2 oz'],
  ])('maintenance tolerance at %s with d = %s is %s', (load, division, tolerance) => {
    const found = toleranceOf({ kind: 'hb44', when: 'in-service' }, parseMass(load), parseMass(division));
    expect(found).toBe(parseMass(tolerance));
  });

  // T.N.3.2: acceptance tolerance is half the maintenance tolerance.
  it.each([
    ['5.00 lb', '0.005 lb'],
    ['5.01 lb', '0.01 lb'],
    ['20.01 lb', '0.015 lb'],
    ['40.01 lb', '0.025 lb'],
  ])('acceptance tolerance at %s with d = 0.01 lb is %s', (load, tolerance) => {
    const found = toleranceOf({ kind: 'hb44', when: 'acceptance' }, parseMass(load), parseMass('0.01 lb'));
    expect(found).toBe(parseMass(tolerance));
  });

  // Table 8: recommended minimum load of class III, 20 d.
  it('recommends no load below 20 divisions', () => {
    expect(isBelowRecommendedLoad(parseMass('1.9 oz'), parseMass('0.1 oz'))).toBe(true);
    expect(isBelowRecommendedLoad(parseMass('2 oz'), parseMass('0.1 oz'))).toBe(false);
  });
});

describe('OIML R 76-1, Table 6, class III', () => {
  // 0.5 e to 500 e, 1 e to 2,000 e, 1.5 e to 10,000 e at verification; twice that in service.
  it.each([
    ['500 g', '0.5 g', '1 g'],
    ['500.1 g', '1 g', '2 g'],
    ['2 kg', '1 g', '2 g'],
    ['2000.1 g', '1.5 g', '3 g'],
    ['10 kg', '1.5 g', '3 g'],
  ])('at %s with e = 1 g: %s at verification, %s in service', (load, verification, inService) => {
    const at = (when: 'verification' | 'in-service') =>
      toleranceOf({ kind: 'r76', when }, parseMass(load), parseMass('1 g'));
    expect(at('verification')).toBe(parseMass(verification));
    expect(at('in-service')).toBe(parseMass(inService));
  });
});

describe('JCGM 100:2008 (GUM)', () => {
  it('takes half-width / sqrt 3 as the standard uncertainty of a rectangular distribution (4.3.7)', () => {
    // Computed from the formula for a = 0.5 g: 0.5 / 1.7320508.
    expect(rectangular('resolution', massFromGrams(0.5)).standardGrams).toBeCloseTo(0.288675134594813, 14);
  });

  it('combines by the root sum of squares (5.1.2) and expands by k = 2 (6.2.1)', () => {
    // Computed: half-widths 3 and 4 g give u = 5 / sqrt 3 = 2.886751 g and U = 5.773503 g.
    const both = combine([rectangular('tolerance', massFromGrams(3)), rectangular('drift', massFromGrams(4))]);
    expect(both.standardGrams).toBeCloseTo(5 / Math.sqrt(3), 12);
    expect(toGrams(both.expanded)).toBeCloseTo(10 / Math.sqrt(3), 9);
    expect(both.worstCase).toBe(massFromGrams(7));
  });
});
