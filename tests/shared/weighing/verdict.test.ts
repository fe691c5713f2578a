import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { judge, type Weighed } from '#shared/weighing/verdict.ts';
import { addMass, massFromBase, massFromGrams, parseMass, toGrams, ZERO_MASS } from '#shared/units/mass.ts';
import { normalDeviate, seeded } from '#tests/support/seeded.ts';

const EXACT: Omit<Weighed, 'reading'> = {
  additions: [],
  accuracy: { kind: 'own', plusMinus: ZERO_MASS },
  drift: ZERO_MASS,
  ceiling: parseMass('16 oz'),
};

/** A bench scale of 0.1 oz with a label and tape still to come. */
const BENCH: Omit<Weighed, 'reading'> = {
  additions: [{ name: 'label', mass: parseMass('0.1 oz'), plusMinus: parseMass('0.02 oz') }],
  accuracy: { kind: 'hb44', when: 'in-service' },
  drift: parseMass('0.05 oz'),
  ceiling: parseMass('16 oz'),
};

const reading = (mass: string, division = '0.1 oz') => ({ mass: parseMass(mass), division: parseMass(division) });

describe('judge', () => {
  it.each(['1 lb', '16 oz', '453.5924 g'])(
    'calls a total on a ceiling of %s clear when nothing is uncertain',
    (text) => {
      const ceiling = parseMass(text);
      const exact = { ...EXACT, ceiling, reading: { mass: ceiling, division: ZERO_MASS } };
      expect(judge(exact)).toMatchObject({ verdict: 'clear', margin: 0, probabilityOver: 0, uncertainty: 0 });
      expect(judge({ ...exact, reading: { mass: massFromBase(ceiling + 1), division: ZERO_MASS } })).toMatchObject({
        verdict: 'over',
        probabilityOver: 1,
      });
    },
  );

  it('counts what is put on after the weighing: 15.9 oz and a label of a tenth fill a pound', () => {
    const verdict = judge({ ...BENCH, reading: reading('15.9 oz') });
    expect(verdict.total).toBe(parseMass('16 oz'));
    expect(verdict.margin).toBe(0);
    expect(verdict.verdict).toBe('close');
    expect(verdict.probabilityOver).toBeCloseTo(0.5, 12);
  });

  it('combines resolution, tolerance, drift and additions', () => {
    const verdict = judge({ ...BENCH, reading: reading('15.9 oz') });
    expect(verdict.components.map((component) => [component.name, component.halfWidth])).toEqual([
      ['resolution', parseMass('0.05 oz')],
      ['tolerance', parseMass('0.1 oz')],
      ['drift', parseMass('0.05 oz')],
      ['addition', parseMass('0.02 oz')],
    ]);
    expect(verdict.worstCase).toBe(parseMass('0.22 oz'));
    const ounce = 28.349523125;
    // k = 2 times sqrt((0.05^2 + 0.1^2 + 0.05^2 + 0.02^2) / 3) oz, computed apart: 0.1432946 oz
    expect(toGrams(verdict.uncertainty) / ounce).toBeCloseTo(2 * Math.sqrt(0.0154 / 3), 9);
  });

  it.each([
    ['15.5 oz', 'clear'],
    ['15.7 oz', 'clear'],
    ['15.8 oz', 'close'],
    ['15.9 oz', 'close'],
    ['16.0 oz', 'over'],
    ['16.4 oz', 'over'],
  ] as const)('reads %s against 16 oz as %s', (mass, verdict) => {
    expect(judge({ ...BENCH, reading: reading(mass) }).verdict).toBe(verdict);
  });

  it('turns from clear to close to over once each as the reading grows', () => {
    const order = { clear: 0, close: 1, over: 2 };
    let before = 0;
    for (let tenths = 100; tenths <= 200; tenths++) {
      const now = order[judge({ ...BENCH, reading: reading(`${String(tenths / 10)} oz`) }).verdict];
      expect(now).toBeGreaterThanOrEqual(before);
      before = now;
    }
    expect(before).toBe(2);
  });

  it('never calls a weighing clear that is more than one in forty likely to be over', () => {
    const grams = fc.integer({ min: 0, max: 20_000 }).map((tenth) => massFromGrams(tenth / 10));
    fc.assert(
      fc.property(grams, grams, fc.integer({ min: 1, max: 50 }), (mass, ceiling, tenths) => {
        const division = massFromGrams(tenths / 10);
        const verdict = judge({ ...BENCH, ceiling, reading: { mass, division } });
        expect(verdict.total).toBe(addMass(mass, parseMass('0.1 oz')));
        if (verdict.verdict === 'clear') expect(verdict.probabilityOver).toBeLessThan(0.0228);
        if (verdict.verdict === 'over') expect(verdict.probabilityOver).toBeGreaterThan(0.5);
        expect(verdict.uncertainty).toBeLessThanOrEqual(verdict.worstCase * 1.16);
      }),
    );
  });

  it('gives the chance that a seeded simulation of normal errors gives', () => {
    const uniform = seeded(16);
    const draws = 40_000;
    for (const mass of ['15.7 oz', '15.8 oz', '15.9 oz', '16 oz']) {
      const verdict = judge({ ...BENCH, reading: reading(mass) });
      const sd = Math.hypot(...verdict.components.map((component) => component.standardGrams));
      let over = 0;
      for (let i = 0; i < draws; i++) {
        if (toGrams(verdict.total) + sd * normalDeviate(uniform) > toGrams(verdict.ceiling)) over++;
      }
      const statistical = Math.sqrt((verdict.probabilityOver * (1 - verdict.probabilityOver)) / draws);
      expect(Math.abs(over / draws - verdict.probabilityOver)).toBeLessThan(4 * statistical);
    }
  });

  it('comes within two hundredths of a simulation that draws every component as the rectangle it is', () => {
    const uniform = seeded(1959);
    const draws = 40_000;
    for (const mass of ['15.7 oz', '15.8 oz', '15.9 oz', '16 oz']) {
      const verdict = judge({ ...BENCH, reading: reading(mass) });
      let over = 0;
      for (let i = 0; i < draws; i++) {
        let total = toGrams(verdict.total);
        for (const component of verdict.components) total += (2 * uniform() - 1) * toGrams(component.halfWidth);
        if (total > toGrams(verdict.ceiling)) over++;
      }
      expect(Math.abs(over / draws - verdict.probabilityOver)).toBeLessThan(0.02);
    }
  });
});
