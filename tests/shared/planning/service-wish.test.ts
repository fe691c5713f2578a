import { expect, it } from 'vitest';
import { serviceWish } from '#shared/planning/service-wish.ts';
import type { PriceSteps } from '#shared/rating/types.ts';
import { container, parcel } from '#tests/support/run-fixtures.ts';

const going = (service: string, days?: readonly [number, number]): PriceSteps => ({
  ...parcel([]).prices,
  service,
  ...(days === undefined ? {} : { days }),
});
const [QUICK, SLOW, UNSAID] = [going('quick', [1, 2]), going('slow', [3, 8]), going('unsaid')];
const wish = (asked: { readonly service?: string; readonly arriveBy?: string }) =>
  serviceWish(asked, [container('a')], () => ({ steps: [QUICK, SLOW, UNSAID] }), '2026-11-25');

it.each<[string, Parameters<typeof wish>[0], readonly string[] | null]>([
  ['nothing', {}, null],
  ['a service by which nothing goes', { service: 'gone' }, null],
  ['the quick one: it alone', { service: 'quick' }, ['quick']],
  ['the slow one: it, and what takes no more days', { service: 'slow' }, ['quick', 'slow']],
  ['one whose days nobody says: it alone', { service: 'unsaid' }, ['unsaid']],
  ['the day after tomorrow: what surely takes two days', { arriveBy: '2026-11-27' }, ['quick']],
  ['the next day: none', { arriveBy: '2026-11-26' }, []],
  ['a day in eight: all that say their days', { arriveBy: '2026-12-03' }, ['quick', 'slow']],
  ['the slow one by the day after tomorrow: both', { service: 'slow', arriveBy: '2026-11-27' }, ['quick']],
  ['one that is gone, and a day: the day', { service: 'gone', arriveBy: '2026-12-03' }, ['quick', 'slow']],
])('promised was %s', (_, asked, kept) => {
  const wished = wish(asked);
  expect(wished === null ? null : [QUICK, SLOW, UNSAID].filter(wished.keeps).map(({ service }) => service)).toEqual(
    kept,
  );
});

it('is not kept by a service of the same day where nobody says the days of the one that was paid for', () => {
  const today = going('today', [0, 0]);
  const wished = serviceWish({ service: 'unsaid' }, [container('a')], () => ({ steps: [UNSAID, today] }), '2026-11-25');
  expect([UNSAID, today].map((each) => wished?.keeps(each))).toEqual([true, false]);
});

it('says what was promised and why a service does not keep it', () => {
  const paid = wish({ service: 'quick', arriveBy: '2026-11-26' });
  expect(paid).toMatchObject({ service: 'quick', arriveBy: '2026-11-26' });
  expect(paid?.broken(SLOW)).toEqual({ code: 'slower-than-paid', values: { paid: 'quick', days: '8' } });
  expect(paid?.broken(UNSAID)).toEqual({ code: 'slower-than-paid', values: { paid: 'quick', days: '?' } });
  expect(paid?.broken(QUICK)).toEqual({ code: 'later-than-promised', values: { by: '2026-11-26', days: '2' } });
  expect(wish({ arriveBy: '2026-11-26' })).toMatchObject({ service: null });
  expect(wish({ service: 'quick' })).toMatchObject({ arriveBy: null });
});
