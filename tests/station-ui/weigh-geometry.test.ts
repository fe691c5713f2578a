import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isEmpty, niceAbove, totalOf, weighLine } from '#station-ui/components/weigh-geometry.ts';
import { WEIGH, oz, reading, usd } from './fixtures.ts';

describe('the weigh line', () => {
  it('far from the ceiling runs from nothing to beyond the planned ceiling', () => {
    const line = weighLine(WEIGH, reading('0'), 'oz');
    expect(line.from).toBe(0);
    expect(line.to).toBeCloseTo(16 * 1.6, 9);
    expect(line.diamond).toBe(0);
    expect(line.band).toBeNull();
    expect(line.posts.map((post) => post.at * line.to)).toEqual(
      [4, 8, 12, 16].map((each): unknown => expect.closeTo(each, 9)),
    );
    expect(line.posts.filter((post) => post.planned)).toHaveLength(1);
    expect(line.posts.find((post) => post.planned)?.above).toEqual(usd(805));
  });

  it('puts the diamond at reading and what is still to come', () => {
    const line = weighLine(WEIGH, reading('15.9'), 'oz');
    expect(totalOf(WEIGH, reading('15.9'))).toBe(oz('16.0'));
    expect(line.from + line.diamond! * (line.to - line.from)).toBeCloseTo(16, 9);
  });

  it('zooms in near the ceiling until the margin of error takes about a quarter of the line', () => {
    const line = weighLine(WEIGH, reading('15.9'), 'oz');
    expect(line.to - line.from).toBe(1);
    expect(line.band![0]).toBeCloseTo(0.5 - 0.12, 9);
    expect(line.band![1]).toBeCloseTo(0.5 + 0.12, 9);
    expect(line.ticks.map((tick) => tick.text)).toEqual(['15.6', '15.8', '16.0', '16.2', '16.4']);
  });

  it('zooms by steps as the mass comes nearer', () => {
    const span = (text: string): number => {
      const line = weighLine(WEIGH, reading(text), 'oz');
      return line.to - line.from;
    };
    expect(span('5')).toBeCloseTo(25.6, 9);
    expect(span('14.6')).toBeCloseTo(10, 9);
    expect(span('15.4')).toBeCloseTo(2, 9);
    expect(span('16.3')).toBeCloseTo(2, 9);
  });

  it('never shows the reading of a scale that reports a fault', () => {
    expect(weighLine(WEIGH, reading('15.9', { condition: 'fault' }), 'oz').diamond).toBeNull();
    expect(weighLine(WEIGH, null, 'oz').diamond).toBeNull();
  });

  it('shows the parcel, not the ceiling, where a flat fee reaches to many times its mass', () => {
    const flat = { ...WEIGH, brackets: [{ ceiling: oz('1120'), price: usd(890) }], planned: 0 };
    const line = weighLine(flat, reading('0'), 'oz');
    expect(line.to).toBeCloseTo(2 * 16.1, 9);
    expect(line.posts).toEqual([]);
    expect(line.prices).toEqual([{ at: 0.5, price: usd(890), tight: false }]);
  });

  it('keeps everything on the line, whatever is on the pan', () => {
    fc.assert(
      fc.property(fc.integer({ min: -50, max: 4000 }), (tenths) => {
        const line = weighLine(WEIGH, reading((tenths / 10).toFixed(1)), 'oz');
        const on = (at: number): boolean => at >= -1e-6 && at <= 1 + 1e-6;
        expect(line.to).toBeGreaterThan(line.from);
        for (const at of [
          ...line.ticks.map((tick) => tick.at),
          ...line.posts.map((post) => post.at),
          ...line.prices.map((price) => price.at),
          ...(line.band ?? []),
          line.diamond ?? 0,
        ]) {
          expect(on(at)).toBe(true);
        }
        expect(line.ticks.length).toBeLessThanOrEqual(10);
      }),
    );
  });

  it('keeps the planned ceiling in sight whenever something lies on the pan', () => {
    fc.assert(
      fc.property(fc.integer({ min: 2, max: 4000 }), (tenths) => {
        const line = weighLine(WEIGH, reading((tenths / 10).toFixed(1)), 'oz');
        expect(line.posts.some((post) => post.planned)).toBe(true);
      }),
    );
  });
});

it.each([
  [0.72, 1],
  [1, 1],
  [1.01, 2],
  [4.2, 5],
  [6, 10],
  [0.02, 0.02],
])('the nice number from %d on is %d', (value, nice) => {
  expect(niceAbove(value)).toBeCloseTo(nice, 12);
});

it('less than two divisions is an empty pan', () => {
  expect(isEmpty(reading('0.1'))).toBe(true);
  expect(isEmpty(reading('0.2'))).toBe(false);
  expect(isEmpty(reading('-0.3'))).toBe(true);
});
