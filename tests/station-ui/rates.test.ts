import { describe, expect, it } from 'vitest';
import { bandsOf } from '#shared/rating/import/bands.ts';
import { ratesEn } from '#station-ui/i18n/rates-en.ts';
import { ratesEs } from '#station-ui/i18n/rates-es.ts';
import { lineOf } from '#station-ui/office/curve-lines.ts';
import { curvePoints, curveRows, nearCeiling, nearCeilings } from '#station-ui/office/curve-points.ts';
import { asPasted } from '#station-ui/office/pasted-cells.ts';

const CURVE = {
  service: 'light-parcel',
  name: 'Light parcel',
  least: null,
  steps: [
    { upTo: 4, label: '4 oz', minor: 355 },
    { upTo: 8, label: '8 oz', minor: 405 },
    { upTo: 16, label: '16 oz', minor: 545 },
  ],
};

/** Takes from 5 oz to 12 oz. */
const HEAVIER = {
  service: 'heavier',
  name: 'Heavier',
  least: { mass: 5, label: '5 oz' },
  steps: [
    { upTo: 8, label: '8 oz', minor: 400 },
    { upTo: 12, label: '12 oz', minor: 600 },
  ],
};

describe('the price curve', () => {
  it('holds each price up to and including its ceiling, from no mass on', () => {
    expect(curvePoints([CURVE], 16)).toEqual({
      masses: [0, 4, 8, 16],
      prices: [[3.55, 3.55, 4.05, 5.45]],
      ceilings: [[4, 8, 16]],
    });
  });
  it('stops at what is shown, without a post where no ceiling is', () => {
    expect(curvePoints([CURVE], 10)).toEqual({
      masses: [0, 4, 8, 10],
      prices: [[3.55, 3.55, 4.05, 5.45]],
      ceilings: [[4, 8]],
    });
    expect(curvePoints([CURVE], 8).ceilings).toEqual([[4, 8]]);
    expect(curvePoints([{ ...CURVE, steps: [] }], 8)).toEqual({
      masses: [0, 8],
      prices: [[null, null]],
      ceilings: [[]],
    });
  });
  it('lays several services on one axis, with gaps where one refuses', () => {
    expect(curvePoints([CURVE, HEAVIER], 16)).toEqual({
      masses: [0, 4, 5, 8, 12, 16],
      prices: [
        [3.55, 3.55, 4.05, 4.05, 5.45, 5.45],
        [null, null, 4, 4, 6, null],
      ],
      ceilings: [
        [4, 8, 16],
        [8, 12],
      ],
    });
  });
  it('has a table with a row for every ceiling of any of them', () => {
    const rows = curveRows([CURVE, HEAVIER]).map(({ label, prices }) => [
      label,
      ...prices.map(({ minor, from, cheapest }) => [minor, from, cheapest].join(' ')),
    ]);
    expect(rows).toEqual([
      ['4 oz', '355  true', '  false'],
      ['8 oz', '405  false', '400 5 oz true'],
      ['12 oz', '545  true', '600  false'],
      ['16 oz', '545  true', '  false'],
    ]);
  });
  it('draws every service with a line, a mark and a letter of its own', () => {
    const lines = Array.from({ length: 20 }, (_, place) => lineOf(place));
    expect(new Set(lines.map(({ letter }) => letter)).size).toBe(20);
    expect(new Set(lines.map(({ stitch, mark }) => `${stitch.join()} ${mark}`)).size).toBe(20);
  });
  it('shows a few brackets beyond the parcel, or all there are', () => {
    expect([nearCeiling(CURVE, 2), nearCeiling(CURVE, 4.1), nearCeiling(CURVE, 12)]).toEqual([4, 16, 16]);
    const flat = { ...CURVE, steps: [{ upTo: 320, label: '20 lb', minor: 900 }] };
    expect(nearCeilings([CURVE, flat], 6)).toBe(16);
    expect(nearCeilings([flat], 6)).toBe(320);
    expect(nearCeilings([CURVE], 20)).toBe(22);
  });
});

describe('what is typed', () => {
  it('pastes cells as a spreadsheet does, also one column and cells with quotes', () => {
    expect(
      asPasted([
        ['w', '1'],
        ['8 oz', '$1,004.10'],
      ]),
    ).toBe('w\t1\n8 oz\t$1,004.10');
    expect(asPasted([['12"', 'a\tb']])).toBe('"12"""\t"a\tb"');
    expect(asPasted([['w'], ['8 oz']])).toBe('w\t\n8 oz');
  });
  it('reads bands, the last without a limit', () => {
    expect(bandsOf('150 1\n 600,5: far \n\n8')).toEqual([
      { upTo: 150, zone: '1' },
      { upTo: 600.5, zone: 'far' },
      { upTo: null, zone: '8' },
    ]);
  });
});

describe('the words', () => {
  it('say in both languages what is wrong with a cell, with what was found', () => {
    for (const words of [ratesEn, ratesEs]) {
      for (const code of [
        'no-grid',
        'beyond-headings',
        'bad-mass',
        'bad-price',
        'gap',
        'repeated-row',
        'not-rising',
        'falling-price',
      ] as const) {
        expect(words.problem({ code, expected: 'a price', found: '4;1' })).toContain('4;1');
      }
      expect(words.wrongCount(2, 1)).toMatch(/2.*1/);
    }
  });
});
