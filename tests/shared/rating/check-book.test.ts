import fc from 'fast-check';
import { expect, test } from 'vitest';
import { coverage } from '#shared/rating/coverage.ts';
import { checkBook } from '#shared/rating/check-book.ts';
import { inForce } from '#shared/rating/dates.ts';
import { daysLater } from '#shared/rating/day.ts';
import { demoBook, metricBook } from '#tests/support/rate-book.ts';

test('the demo shops have no problem', () => {
  expect(checkBook(demoBook().cards)).toEqual([]);
  expect(checkBook(metricBook().cards)).toEqual([]);
});

test('a price that ends leaves a gap, and one that begins too early overlaps', () => {
  const [card] = metricBook().cards;
  const service = card!.services[0]!;
  const rule = service.prices[0]!;
  const withPrices = (...prices: (typeof rule)[]) => checkBook([{ ...card!, services: [{ ...service, prices }] }]);
  expect(withPrices({ ...rule, until: '2026-06-30' })).toMatchObject([
    { severity: 'warning', code: 'prices-gap', message: 'no price is in force from 2026-07-01' },
  ]);
  expect(withPrices({ ...rule, until: '2026-06-30' }, { ...rule, from: '2026-07-01' })).toEqual([]);
  expect(withPrices({ ...rule, until: '2026-06-30' }, { ...rule, from: '2026-06-30' })).toMatchObject([
    {
      severity: 'error',
      code: 'prices-overlap',
      message: 'prices 1 and 2 are both in force from 2026-06-30 until 2026-06-30',
    },
  ]);
});

test('a zone that no rule gives is pointed out', () => {
  const [card] = metricBook().cards;
  const zones = card!.zones.slice(0, 2);
  expect(checkBook([{ ...card!, zones }]).map((problem) => problem.message)).toEqual([
    'zone "world" has prices, but no zone rule of the card gives it',
  ]);
});

test('gaps and overlaps are those that counting day by day finds', () => {
  const day = fc.integer({ min: 0, max: 20 }).map((count) => daysLater('2026-02-20', count));
  const range = fc
    .tuple(fc.option(day, { nil: undefined }), fc.option(day, { nil: undefined }))
    .map(([from, until]) => ({ ...(from === undefined ? {} : { from }), ...(until === undefined ? {} : { until }) }))
    .filter((dates) => (dates.from ?? '') <= (dates.until ?? '~'));
  const window = { from: '2026-02-22', until: '2026-03-10' };
  const days = Array.from({ length: 17 }, (_, index) => daysLater(window.from, index));
  const within = (span: { from: string | null; until: string | null }, when: string) =>
    (span.from ?? '') <= when && when <= (span.until ?? '~');
  fc.assert(
    fc.property(fc.array(range, { maxLength: 4 }), (ranges) => {
      const { gaps, overlaps } = coverage(ranges, window);
      for (const when of days) {
        const covering = ranges.filter((dates) => inForce(dates, when)).length;
        expect(gaps.some((gap) => within(gap, when))).toBe(covering === 0);
        expect(overlaps.some(({ span }) => within(span, when))).toBe(covering > 1);
      }
    }),
  );
});
