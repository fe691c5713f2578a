import { expect, test } from 'vitest';
import { compareCards } from '#shared/rating/compare-cards.ts';
import { costOfChange } from '#shared/rating/cost-of-change.ts';
import type { RateBook, RateCard } from '#shared/rating/rate-card.ts';
import { parseMass } from '#shared/units/mass.ts';
import { box, demoBook } from '#tests/support/rate-book.ts';

const DAY = '2026-11-25';
const book = demoBook();
const merrow = book.cards[0]!;

/** Light parcels of zone 3 above 8 oz up to 12 oz cost so much more; brackets of 12 oz are split at 10 oz. */
function dearer(by: number): RateCard {
  return {
    ...merrow,
    services: merrow.services
      .filter((service) => service.id !== 'flat-large')
      .map((service) => {
        const rule = service.prices[0];
        if (service.id !== 'light-parcel' || rule?.rule !== 'weight-bracket') return service;
        const brackets = rule.brackets.flatMap((bracket) => {
          if (bracket.upTo !== parseMass('12 oz')) return [bracket];
          const prices = bracket.prices.map((price, zone) => (zone === 2 ? price + by : price));
          return [
            { upTo: parseMass('10 oz'), prices: bracket.prices },
            { ...bracket, prices },
          ];
        });
        return { ...service, prices: [{ ...rule, brackets }] };
      }),
  };
}

test('a card against itself has no difference', () => {
  const difference = compareCards(merrow, DAY, merrow, DAY);
  expect(difference).toMatchObject({ added: [], removed: [], otherRule: [], changes: [] });
  expect(difference.unchanged).toBeGreaterThan(100);
});

test('what went up is shown by bracket and zone, also where brackets were split', () => {
  expect(compareCards(merrow, DAY, dearer(25), DAY)).toMatchObject({
    removed: ['flat-large'],
    changes: [{ service: 'light-parcel', row: '12 oz', zone: '3', before: 500, after: 525 }],
  });
});

test('what it means for the parcels that were sent', () => {
  const after: RateBook = { ...book, cards: [dearer(25), ...book.cards.slice(1)] };
  const sent = ['9 oz', '11 oz', '12 oz', '13 oz'].map((mass) => ({
    service: 'light-parcel',
    parcel: box('10 x 8 x 2 in'),
    mass: parseMass(mass),
    route: { zone: '3' },
  }));
  const gone = { ...sent[0]!, service: 'flat-large' };
  const cost = costOfChange({ book, day: DAY }, { book: after, day: DAY }, [...sent, gone]);
  expect(cost).toMatchObject({ parcels: 4, left: 1, byService: [{ service: 'light-parcel', parcels: 4 }] });
  expect(cost.after - cost.before).toBe(50);
});
